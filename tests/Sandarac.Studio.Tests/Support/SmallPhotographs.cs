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

    /// <summary>One photograph through a lens: what would lie at an ideal pixel is seen where the lens moves it.</summary>
    public static void WriteThrough(string path, HomographyMap lens, int bands, int seed) => TinyTiff.Write(path, Width, Height, bands, Draw(Width, Height, bands, seed, surround: true, lens));

    /// <summary>Squares of 18 pixels over the whole frame, through a lens, 4 x 4 samples a pixel.</summary>
    public static void WriteBoard(string path, HomographyMap lens)
    {
        var samples = new ushort[Width * Height];
        for (var i = 0; i < 16 * samples.Length; i++)
        {
            var p = lens.ToPlane(new Point2(i / 16 % Width + (i % 4 + 0.5) / 4, i / 16 / Width + (i / 4 % 4 + 0.5) / 4));
            samples[i / 16] += (ushort)(((int)Math.Floor(p.X / 18) + (int)Math.Floor(p.Y / 18)) % 2 == 0 ? 500 : 3500);
        }
        TinyTiff.Write(path, Width, Height, 1, samples);
    }

    /// <summary>The panel alone, filling the frame.</summary>
    public static void WriteCropped(string path, int width, int height, int bands, int seed) => TinyTiff.Write(path, width, height, bands, Draw(width, height, bands, seed, surround: false));

    private static ushort[] Draw(int width, int height, int bands, int seed, bool surround, HomographyMap? lens = null)
    {
        var random = new Random(seed);
        var samples = new ushort[width * height * bands];
        for (var row = 0; row < height; row++)
            for (var column = 0; column < width; column++)
            {
                Point2 seen = new(column + 0.5, row + 0.5);
                var ideal = lens?.ToPlane(seen) ?? seen;
                var (x, y) = (ideal.X - 0.5, ideal.Y - 0.5);
                var cover = surround ? Coverage(ideal.X, ideal.Y) : 1;
                for (var b = 0; b < bands; b++)
                {
                    var paint = 30000 + 6000 * Math.Sin(x / (9.0 + b)) * Math.Cos(y / (13.0 - b)) + 3000 * Math.Sin((x + 2 * y) / 31.0);
                    samples[(row * width + column) * bands + b] = (ushort)Math.Clamp(cover * paint + (1 - cover) * 7000 + 400 * (random.NextDouble() - 0.5), 0, 65535);
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
