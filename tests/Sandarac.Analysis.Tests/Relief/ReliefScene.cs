using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Relief;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Relief;

/// <summary>A painted surface of known height under raking lamps: waves, a blister, two tones; 16-bit files of light in sRGB, 0.5 mm a pixel.</summary>
internal sealed class ReliefScene : IDisposable
{
    public const int Width = 150, Height = 110;
    public const double Mm = 0.5;

    private readonly TempFolder _folder = new();

    public static double HeightUm(double x, double y) => 12 * Math.Sin(x / 3.1) * Math.Cos(y / 4.3) + 220 * Math.Exp(-((x - 95) * (x - 95) + (y - 50) * (y - 50)) / (2 * 9 * 9));

    /// <summary>Slopes by differences over a thousandth of a pixel.</summary>
    public static (double Right, double Down) Slope(double x, double y) => Slope(HeightUm, x, y);

    public static LampAngles[] Ring(int count, double elevation = 25) => [.. Enumerable.Range(0, count).Select(k => new LampAngles(360.0 * k / count, elevation))];

    /// <summary>Photographs, light relative to a flat place as through boards; the board is even.</summary>
    public (string Slot, InputImage Image)[] Photographs(IReadOnlyList<LampAngles?> lamps, bool boards = true, double exposure = 0.7, Func<int, int>? moved = null, Func<double, double, double>? height = null) =>
    [
        .. lamps.Select((lamp, k) => ("raking", Photograph(lamp, k, Synthetic.Of(Width, Height, (x, y) => exposure * Seen(height ?? HeightUm, x + (moved?.Invoke(k) ?? 0), y, new LampAngles(lamp?.Azimuth ?? 40 * k, lamp?.Elevation ?? 25)))))),
        .. boards ? lamps.Select((lamp, k) => ("raking-board", Photograph(lamp, 100 + k, Synthetic.Of(Width, Height, (_, _) => exposure)))) : [],
    ];

    public static (Outcome Outcome, Dictionary<string, Plane[]> Rasters) Read((string Slot, InputImage Image)[] images, Dictionary<string, string>? parameters = null, Tiling? tiling = null) =>
        TestRun.Of(new ReliefReading(), images, parameters, tiling);

    public void Dispose() => _folder.Dispose();

    private static double Seen(Func<double, double, double> height, double x, double y, LampAngles lamp)
    {
        var (l, (right, down)) = (Lamp.FromAngles(lamp.Azimuth, lamp.Elevation!.Value), Slope(height, x, y));
        var albedo = Math.Sin(x / 11) + Math.Sin(y / 7) > 0 ? 0.35 : 0.75;
        return albedo * Math.Max(0, (-right * l.X - down * l.Y + l.Z) / l.Z / Math.Sqrt(1 + right * right + down * down));
    }

    private static (double Right, double Down) Slope(Func<double, double, double> height, double x, double y) =>
        ((height(x + 5e-4, y) - height(x - 5e-4, y)) / (1e-3 * Mm * 1000), (height(x, y + 5e-4) - height(x, y - 5e-4)) / (1e-3 * Mm * 1000));

    /// <summary>A file of light, named by its number.</summary>
    public InputImage Photograph(LampAngles? lamp, int number, Plane light) =>
        TestRun.Open(TestTiff.Write16(_folder[$"{Guid.NewGuid():N}.tif"], light.Select(v => 65535 * Encoded(v))), Light.Raking, Mm) with { Name = $"{number}.tif", Lamp = lamp };

    /// <summary>IEC 61966-2-1:1999.</summary>
    private static float Encoded(float light) => light <= 0.0031308f ? 12.92f * light : 1.055f * MathF.Pow(light, 1 / 2.4f) - 0.055f;
}
