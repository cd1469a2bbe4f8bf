using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment;

/// <summary>A textured rectangle of known pose before a surround, seen through a lens of known distortion.</summary>
internal sealed record FaceScene(int Width, int Height, Point2[] Ideal, double K1)
{
    public const double HeightMm = 400;
    public const double WidthMm = 500;

    public HomographyMap Map { get; } = new(
        Homography.Fit(Ideal, [new(0, 0), new(WidthMm, 0), new(WidthMm, HeightMm), new(0, HeightMm)]).Coefficients,
        new Point2(Width / 2.0, Height / 2.0), Math.Sqrt((double)Width * Width + (double)Height * Height) / 2, K1);

    public Point2[] Corners => [.. ((Point2[])[new(0, 0), new(WidthMm, 0), new(WidthMm, HeightMm), new(0, HeightMm)]).Select(Map.ToPixel)];

    public static FaceScene Tilted(double k1 = 0, int width = 1000, int height = 800) =>
        new(width, height, [new(62.3, 58.9), new(width - 71.4, 49.2), new(width - 52.7, height - 61.8), new(48.6, height - 70.1)], k1);

    /// <summary>Draws with 4 x 4 samples a pixel; values from 0 to 1.</summary>
    public Plane Draw(Func<double, double, double> face, Func<double, double, double> surround) => Synthetic.Of(Width, Height, (x, y) =>
    {
        double sum = 0;
        for (var j = 0; j < 4; j++)
            for (var i = 0; i < 4; i++)
            {
                var (px, py) = (x - 0.375 + i / 4.0, y - 0.375 + j / 4.0);
                var mm = Map.ToPlane(new Point2(px, py));
                sum += mm.X is >= 0 and <= WidthMm && mm.Y is >= 0 and <= HeightMm ? face(mm.X, mm.Y) : surround(px, py);
            }
        return sum / 16;
    });

    /// <summary>Sky, sea and a dark foreground with strokes: tones cross the surround's.</summary>
    public static double Painted(double x, double y)
    {
        var tone = y < 150 ? 0.65 - 0.1 * y / 150 : y < 280 ? 0.4 + 0.08 * Math.Sin(x / 60) : 0.18;
        return tone + 0.05 * Math.Sin(x / 2.3 + 2 * Math.Sin(y / 7)) * Math.Cos(y / 3.1 + Math.Sin(x / 11)) + 0.03 * Math.Sin(x * y / 900);
    }
}
