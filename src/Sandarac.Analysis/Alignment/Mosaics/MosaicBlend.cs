using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>
/// Joins parts without seams in two bands: broad tones pass over the whole overlap, fine detail changes over within a narrow strip where both parts are
/// equally far from their edges (two-band blending: Brown and Lowe, Int. J. Computer Vision 74 (2007) 59, section 7). Window by window.
/// </summary>
internal sealed class MosaicBlend(IReadOnlyList<MosaicPart> parts, IReadOnlyList<Box> insides, IReadOnlyList<(double Factor, double Offset)> exposures, PlaneGrid grid)
{
    /// <summary>Broad tones are those of the level with pixels so many times as large.</summary>
    private const double Broad = 32;

    /// <summary>Power of the distance to the edge by which detail is weighed.</summary>
    private const int Narrow = 12;

    /// <summary>Bands of the result.</summary>
    public int Bands { get; } = parts.Min(p => p.Image.Colours);

    /// <summary>A window of the mosaic; NaN where no part shows anything.</summary>
    public Plane[] Window(int left, int top, int width, int height)
    {
        var result = Enumerable.Range(0, Bands).Select(_ => new Plane(width, height)).ToArray();
        var (broad, fine) = (new double[width * height], new double[width * height]);
        var detail = result.Select(_ => new double[width * height]).ToArray();
        var tones = result.Select(_ => new double[width * height]).ToArray();
        for (var i = 0; i < parts.Count; i++) Add(i, left, top, width, height, broad, fine, tones, detail);
        for (var b = 0; b < Bands; b++)
            for (var k = 0; k < broad.Length; k++)
                result[b].Data[k] = broad[k] > 0 ? (float)(tones[b][k] / broad[k] + detail[b][k] / fine[k]) : float.NaN;
        return result;
    }

    private void Add(int part, int left, int top, int width, int height, double[] broad, double[] fine, double[][] tones, double[][] detail)
    {
        if (!Touches(part, left, top, width, height)) return;
        var (p, inside, (factor, offset)) = (parts[part], insides[part], exposures[part]);
        var full = PlaneResampler.Window(p.Image.File, p.Map, grid, left, top, width, height);
        var smooth = Smooth(p, left, top, width, height);
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x++)
            {
                var k = y * width + x;
                var weight = Weight(p, inside, new Point2(grid.ExtentMm.Left + (left + x + 0.5) * grid.MmPerPixel, grid.ExtentMm.Top + (top + y + 0.5) * grid.MmPerPixel));
                if (weight <= 0 || float.IsNaN(full[0].Data[k]) || float.IsNaN(smooth[0].Data[k])) continue;
                var sharp = Math.Pow(weight, Narrow);
                broad[k] += weight;
                fine[k] += sharp;
                for (var b = 0; b < Bands; b++)
                {
                    tones[b][k] += weight * (factor * smooth[b].Data[k] + offset);
                    detail[b][k] += sharp * factor * (full[b].Data[k] - smooth[b].Data[k]);
                }
            }
    }

    /// <summary>The part's broad tones: a coarse level, interpolated.</summary>
    private Plane[] Smooth(MosaicPart part, int left, int top, int width, int height)
    {
        var coarse = new PlaneGrid(grid.ExtentMm, grid.MmPerPixel * Broad);
        var (x0, y0) = ((int)Math.Floor(left / Broad) - 2, (int)Math.Floor(top / Broad) - 2);
        var (columns, rows) = ((int)Math.Ceiling(width / Broad) + 5, (int)Math.Ceiling(height / Broad) + 5);
        var small = PlaneResampler.Window(part.Image.File, part.Map, coarse, x0, y0, columns, rows);
        return [.. small.Take(Bands).Select(s => Enlarge(s, left / Broad - x0, top / Broad - y0, width, height))];
    }

    private static Plane Enlarge(Plane small, double left, double top, int width, int height)
    {
        var large = new Plane(width, height);
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x++)
            {
                var (u, v) = (left + (x + 0.5) / Broad - 0.5, top + (y + 0.5) / Broad - 0.5);
                var (i, j) = ((int)u, (int)v);
                var (s, t) = ((float)(u - i), (float)(v - j));
                large[x, y] = Mix(Mix(small[i, j], small[i + 1, j], s), Mix(small[i, j + 1], small[i + 1, j + 1], s), t);
            }
        return large;
    }

    /// <summary>Where one of two is missing the other stands for both, so that broad tones reach the part's edge.</summary>
    private static float Mix(float a, float b, float t) => float.IsNaN(a) ? b : float.IsNaN(b) ? a : a + t * (b - a);

    /// <summary>1 in the middle of the part, falling to 0 at its edges.</summary>
    private static double Weight(MosaicPart part, Box inside, Point2 at)
    {
        var pixel = part.Map.ToPixel(at);
        var across = Math.Min(pixel.X - inside.Left, inside.Right - pixel.X) / (inside.Width / 2);
        var down = Math.Min(pixel.Y - inside.Top, inside.Bottom - pixel.Y) / (inside.Height / 2);
        return Math.Min(across, down);
    }

    private bool Touches(int part, int left, int top, int width, int height)
    {
        var (a, mm) = (parts[part].Area, grid.MmPerPixel);
        var (x, y) = (grid.ExtentMm.Left + left * mm, grid.ExtentMm.Top + top * mm);
        return a.Left < x + width * mm && a.Right > x && a.Top < y + height * mm && a.Bottom > y;
    }
}
