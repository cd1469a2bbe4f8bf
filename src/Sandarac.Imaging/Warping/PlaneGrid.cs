using Sandarac.Imaging.Geometry;

namespace Sandarac.Imaging.Warping;

/// <summary>A grid of square pixels on the plane.</summary>
/// <param name="ExtentMm">What it covers, mm; its sides are whole numbers of pixels.</param>
/// <param name="MmPerPixel">Side of a pixel, mm.</param>
public sealed record PlaneGrid(Box ExtentMm, double MmPerPixel)
{
    // ISO 3:1973, preferred numbers, series R20 (from memory).
    private static readonly double[] R20 = [1, 1.12, 1.25, 1.4, 1.6, 1.8, 2, 2.24, 2.5, 2.8, 3.15, 3.55, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9];

    /// <summary>Columns.</summary>
    public int Width => checked((int)Math.Round(ExtentMm.Width / MmPerPixel));

    /// <summary>Rows.</summary>
    public int Height => checked((int)Math.Round(ExtentMm.Height / MmPerPixel));

    /// <summary>The grid of so many mm per pixel that covers an area; right and lower edge move out to whole pixels.</summary>
    public static PlaneGrid Covering(Box areaMm, double mmPerPixel)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(mmPerPixel);
        var columns = Math.Max(1, Math.Ceiling(areaMm.Width / mmPerPixel - 1e-9));
        var rows = Math.Max(1, Math.Ceiling(areaMm.Height / mmPerPixel - 1e-9));
        return new PlaneGrid(new Box(areaMm.Left, areaMm.Top, columns * mmPerPixel, rows * mmPerPixel), mmPerPixel);
    }

    /// <summary>The grid on which a photograph of an area loses nothing: its own mean scale over the area, brought down to the next preferred
    /// number (1, 1.12, 1.25, 1.4, ... 9 times a power of ten), so that photographs of about one scale share one grid.</summary>
    /// <param name="map">Where the photograph lies.</param>
    /// <param name="areaMm">The painted face, or the part of it that is wanted.</param>
    public static PlaneGrid For(PlaneMap map, Box areaMm) => Covering(areaMm, RoundDown(MeanScale(map, areaMm)));

    /// <summary>Mean mm per pixel of a photograph over an area: the square root of the ratio of areas.</summary>
    public static double MeanScale(PlaneMap map, Box areaMm)
    {
        var corners = new[] { (0, 0), (1, 0), (1, 1), (0, 1) }
            .Select(c => map.ToPixel(new Point2(areaMm.Left + c.Item1 * areaMm.Width, areaMm.Top + c.Item2 * areaMm.Height))).ToArray();
        var twice = 0.0;
        for (var i = 0; i < 4; i++)
        {
            var (p, q) = (corners[i], corners[(i + 1) % 4]);
            twice += p.X * q.Y - q.X * p.Y;
        }
        return Math.Sqrt(areaMm.Width * areaMm.Height / Math.Abs(twice / 2));
    }

    internal static double RoundDown(double value)
    {
        var exponent = (int)Math.Floor(Math.Log10(value));
        var power = Math.Pow(10, exponent);
        // A hair of tolerance, and no digits that only the machine made: 0.16 stays 0.16.
        return Math.Round(power * R20.Last(r => r <= value / power * (1 + 1e-12)), Math.Clamp(2 - exponent, 0, 15));
    }
}
