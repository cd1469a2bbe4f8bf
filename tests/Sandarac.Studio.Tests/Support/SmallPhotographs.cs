using Sandarac.Imaging.Geometry;

namespace Sandarac.Studio.Tests.Support;

/// <summary>Small photographs of an invented panel on a dark easel, drawn by formula: texture, noise, and a face whose corners are known.</summary>
public static class SmallPhotographs
{
    public const int Width = 420;
    public const int Height = 360;

    /// <summary>Upper left, upper right, lower right, lower left of the face in every photograph, pixels.</summary>
    public static readonly Point2[] Corners = [new(52, 41), new(371, 46), new(367, 318), new(48, 313)];

    /// <summary>VIS, IR and UVL of the same panel.</summary>
    public static void WriteSet(string folder, int seed = 1)
    {
        Directory.CreateDirectory(folder);
        Write(Path.Combine(folder, "VIS_01.tif"), 3, seed);
        Write(Path.Combine(folder, "IR_01.tif"), 1, seed + 1);
        Write(Path.Combine(folder, "UVL_01.tif"), 3, seed + 2);
    }

    /// <summary>One photograph; other seeds give other noise, so other bytes.</summary>
    public static void Write(string path, int bands, int seed, int pixelsPerInch = 0) => TinyTiff.Write(path, Width, Height, bands, Draw(Width, Height, bands, seed, surround: true), pixelsPerInch);

    /// <summary>The panel alone, filling the frame.</summary>
    public static void WriteCropped(string path, int width, int height, int bands, int seed) => TinyTiff.Write(path, width, height, bands, Draw(width, height, bands, seed, surround: false));

    private static ushort[] Draw(int width, int height, int bands, int seed, bool surround)
    {
        var random = new Random(seed);
        var samples = new ushort[width * height * bands];
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x++)
            {
                var cover = surround ? Coverage(x + 0.5, y + 0.5) : 1;
                for (var b = 0; b < bands; b++)
                {
                    var paint = 30000 + 6000 * Math.Sin(x / (9.0 + b)) * Math.Cos(y / (13.0 - b)) + 3000 * Math.Sin((x + 2 * y) / 31.0);
                    samples[(y * width + x) * bands + b] = (ushort)Math.Clamp(cover * paint + (1 - cover) * 7000 + 400 * (random.NextDouble() - 0.5), 0, 65535);
                }
            }
        return samples;
    }

    /// <summary>Share of a pixel that the face covers: 1 inside, 0 outside, a ramp of a pixel between.</summary>
    private static double Coverage(double x, double y)
    {
        var nearest = double.MaxValue;
        for (var i = 0; i < 4; i++)
        {
            var (p, q) = (Corners[i], Corners[(i + 1) % 4]);
            nearest = Math.Min(nearest, ((q.X - p.X) * (y - p.Y) - (q.Y - p.Y) * (x - p.X)) / p.DistanceTo(q));
        }
        return Math.Clamp(nearest + 0.5, 0, 1);
    }
}
