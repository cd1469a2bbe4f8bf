using NetTopologySuite.Geometries;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Luminescence;

/// <summary>Measures parts of a reduced plane as places on the painting.</summary>
/// <param name="plane">What the parts were found in.</param>
/// <param name="factor">Pixels of the image along a pixel of it.</param>
/// <param name="scale">The image's scale; without one lengths are in its pixels.</param>
internal sealed class PartMeasures(Plane plane, int factor, PixelScale? scale)
{
    /// <summary>Side of a reduced pixel, mm.</summary>
    public double Side { get; } = factor * (scale?.MmPerPixel ?? 1);

    /// <summary>Area, mm2.</summary>
    public double Area(DarkPart part) => part.Pixels.Count * Side * Side;

    /// <summary>Half a pixel along the outline, mm2.</summary>
    public double AreaUncertainty(DarkPart part) => Border(part).Count() * Side * Side / 2;

    /// <summary>Median in the part.</summary>
    public double Depth(DarkPart part) => Robust.Median(part.Pixels.Select(i => (double)plane.Data[i]));

    /// <summary>Share of its pixels that lie half as far again as the limit.</summary>
    public double Sure(DarkPart part, double limit) => part.Pixels.Count(i => plane.Data[i] < 1.5 * limit) / (double)part.Pixels.Count;

    /// <summary>Width of its edge, mm, were the change from nothing to its depth as steep all through as along its outline; null when it has no edge.</summary>
    public double? EdgeWidth(DarkPart part) => Robust.Median(Border(part).Select(Steepness)) is > 0 and var steepness ? -Depth(part) / steepness * Side : null;

    /// <summary>Whether its edge is narrower than itself: else it is no place but the foot of a slope.</summary>
    public bool HasEdge(DarkPart part) => EdgeWidth(part) is { } edge && edge * edge < Area(part);

    /// <summary>Its outline, mm.</summary>
    public Geometry Outline(DarkPart part) => PartOutline.Of(part, plane.Width, Side);

    /// <summary>Median of the plane in rings about the part, each a pixel wide, the nearest first; NaN for a ring without data.</summary>
    public IReadOnlyList<double> Rings(DarkPart part, int count)
    {
        var (seen, ring, medians) = (part.Pixels.ToHashSet(), part.Pixels, new List<double>());
        while (medians.Count < count)
        {
            ring = [.. ring.SelectMany(i => DarkParts.Beside(i, plane.Width)).Where(n => n >= 0 && n < plane.Data.Length && seen.Add(n))];
            medians.Add(Robust.Median(ring.Select(i => (double)plane.Data[i]).Where(double.IsFinite)));
        }
        return medians;
    }

    private IEnumerable<int> Border(DarkPart part)
    {
        var inside = part.Pixels.ToHashSet();
        return part.Pixels.Where(i => DarkParts.Beside(i, plane.Width).Any(n => !inside.Contains(n)));
    }

    /// <summary>Change per pixel.</summary>
    private double Steepness(int i)
    {
        var (x, y, w, h) = (i % plane.Width, i / plane.Width, plane.Width, plane.Height);
        var across = (plane[Math.Min(w - 1, x + 1), y] - plane[Math.Max(0, x - 1), y]) / 2;
        var down = (plane[x, Math.Min(h - 1, y + 1)] - plane[x, Math.Max(0, y - 1)]) / 2;
        return Math.Sqrt(across * across + down * down);
    }
}
