using Sandarac.Analysis.Alignment.Rulers;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Rulers;

/// <summary>A ruler of known place seen by a camera; what is true of it follows from its map alone.</summary>
internal sealed record RulerScene(HomographyMap Map, int Length = 150, int Width = 900, int Height = 700)
{
    /// <summary>Lengths of the ticks for each tenth, mm.</summary>
    public Func<int, double> Tick { get; init; } = n => n % 10 == 0 ? 9 : n % 5 == 0 ? 6.5 : 4;

    public bool Numerals { get; init; } = true;

    public double Ink { get; init; } = 0.15;

    public double Body { get; init; } = 0.85;

    /// <summary>So many pixels a millimetre, turned about the middle of the frame, and a perspective that makes things smaller by a share across the frame.</summary>
    public static RulerScene At(double pixelsPerMm, double degrees, double perspective = 0, int length = 150)
    {
        var (s, c) = Math.SinCos(degrees * Math.PI / 180);
        var mm = 1 / pixelsPerMm;
        Homography toMiddle = new([1, 0, -450, 0, 1, -350, 0, 0, 1]), turn = new([c * mm, s * mm, 0, -s * mm, c * mm, 0, perspective / 900, 0, 1]), place = new([1, 0, length / 2.0, 0, 1, 12, 0, 0, 1]);
        return new RulerScene(new HomographyMap(place.After(turn).After(toMiddle).Coefficients), length);
    }

    /// <summary>True millimetres per pixel along the ruler at its middle.</summary>
    public double MmPerPixel => MmPerPixelAt(Length / 2.0);

    /// <summary>The same at another place along it, mm.</summary>
    public double MmPerPixelAt(double mm) => 1 / Map.ToPixel(new Point2(mm - 0.5, 2)).DistanceTo(Map.ToPixel(new Point2(mm + 0.5, 2)));

    public Plane Draw(double blur = 0) => Blurred(Synthetic.Of(Width, Height, (x, y) =>
    {
        double sum = 0;
        for (var i = 0; i < 16; i++)
        {
            var mm = Map.ToPlane(new Point2(x - 0.375 + i % 4 / 4.0, y - 0.375 + i / 4 / 4.0));
            var n = (int)Math.Round(mm.X);
            var isTick = n >= 0 && n <= Length && Math.Abs(mm.X - n) < 0.12 && mm.Y >= 0 && mm.Y < Tick(n);
            var isNumeral = Numerals && n % 10 == 0 && n > 0 && n < Length && mm.Y is > 11 and < 14 && Math.Abs(mm.X - n + 0.4) < 1.5 && (int)((mm.X - n + 3) * 2 + n * mm.Y) % 3 == 0;
            sum += isTick || isNumeral ? Ink : mm.X > -6 && mm.X < Length + 7 && mm.Y is > -1 and < 24 ? Body : 0.3;
        }
        return sum / 16;
    }), blur);

    /// <summary>Runs the reading on a drawn picture, with noise of some electrons.</summary>
    public static Outcome Read(Plane picture, double noise = 0.004, Dictionary<string, string>? parameters = null, Tiling? tiling = null)
    {
        using var folder = new TempFolder();
        var file = TestTiff.Write16(folder["ruler.tif"], picture.Select(v => 60000 * v).AddNoise(60000 * noise, 11).Select(v => Math.Clamp(v, 0, 65535)));
        return TestRun.Of(new RulerScaleReading(), [("ruler", TestRun.Open(file))], parameters, tiling).Outcome;
    }

    private static Plane Blurred(Plane picture, double sigma)
    {
        if (sigma <= 0) return picture;
        var reach = (int)Math.Ceiling(4 * sigma);
        double[] weights = [.. Enumerable.Range(-reach, 2 * reach + 1).Select(d => Math.Exp(-d * d / (2 * sigma * sigma)))];
        Plane Along(Plane p, int dx, int dy) => Synthetic.Of(p.Width, p.Height, (x, y) => weights.Select((w, i) =>
            w * p[Math.Clamp((int)x + dx * (i - reach), 0, p.Width - 1), Math.Clamp((int)y + dy * (i - reach), 0, p.Height - 1)]).Sum() / weights.Sum());
        return Along(Along(picture, 1, 0), 0, 1);
    }
}
