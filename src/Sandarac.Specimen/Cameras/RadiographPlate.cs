using System.Runtime.Intrinsics;
using Sandarac.Specimen.Lighting;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Cameras;

/// <summary>One of four films that together cover the panel, laid by hand: a little turned, overlapping, each exposed on its own.</summary>
internal sealed record RadiographPlate(int Number, double Left, double Top, double TurnDegrees, float Dose)
{
    private const double Width = 294, Height = 238, BorderMm = 4;

    public static IReadOnlyList<RadiographPlate> All { get; } =
        [new(1, -15, -14, 0.35, 1.00f), new(2, 241, -11, -0.25, 0.93f), new(3, -13, 187, -0.40, 1.06f), new(4, 240, 190, 0.20, 0.97f)];

    public Exposure Frame(SpecimenSettings settings) => new()
    {
        FileName = $"XR_plate{Number}.tif", Light = "XR", Subject = "Detail", PixelsPerInch = settings.PixelsPerInch, Bands = 1,
        Pose = Pose.Square(Left, Top, Width, Height, settings.PixelsPerInch, TurnDegrees), Gain = 1.15f, Vignette = 0, BlurPixels = 0.6f,
            FullWell = 5_000, ReadNoise = 4,
        Exif = new ExifFacts("Brackwater", "Film scanner FS-2", $"X-radiograph, plate {Number} of 4",
            new DateTime(2024, 3, 13, 9, 20 + 5 * Number, 0), 90, 8, 100),
    };

    /// <summary>The film as scanned: its clear border, as many lead dots as its number, and inside the painting's shadow.</summary>
    public Radiance Seen(SpecimenSettings settings, PlaneImage painting)
    {
        var (c, s) = ((float)Math.Cos(TurnDegrees * Math.PI / 180), (float)Math.Sin(TurnDegrees * Math.PI / 180));
        var clear = Vector128.CreateScalar(Lights.Film(0.06f));
        return (x, y) =>
        {
            var (dx, dy) = (x - (float)Left, y - (float)Top);
            var (u, v) = (c * dx + s * dy, c * dy - s * dx);
            if (u < BorderMm || v < BorderMm || u > Width - BorderMm || v > Height - BorderMm || IsDot(u, v)) return clear;
            return Vector128.CreateScalar(MathF.Pow(painting.At(x, y)[0], Dose));
        };
    }

    private bool IsDot(float u, float v)
    {
        for (var n = 0; n < Number; n++)
        {
            var (dx, dy) = (u - (float)BorderMm - 4 - 5 * n, v - (float)BorderMm - 4);
            if (dx * dx + dy * dy < 1.6f * 1.6f) return true;
        }
        return false;
    }
}
