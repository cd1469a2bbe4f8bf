using NetTopologySuite.Geometries;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Unexplained;

/// <summary>Sizes and depths of parts of a plane.</summary>
/// <param name="unexplained">Natural logarithm of a light over what the colour explains, reduced.</param>
/// <param name="factor">Pixels of the image along a pixel of it.</param>
/// <param name="scale">The image's scale.</param>
internal sealed class PartFigures(Plane unexplained, int factor, PixelScale? scale)
{
    /// <summary>Side of a pixel of the plane, mm.</summary>
    public double Side { get; } = factor * (scale?.MmPerPixel ?? 1);

    /// <summary>Area, mm2.</summary>
    public double Area(DarkPart part) => part.Pixels.Count * Side * Side;

    /// <summary>Half a pixel along the outline, mm2.</summary>
    public double AreaUncertainty(DarkPart part) => Border(part).Count() * Side * Side / 2;

    /// <summary>Median of the part's pixels, natural logarithm.</summary>
    public double Depth(DarkPart part) => Robust.Median(part.Pixels.Select(i => (double)unexplained.Data[i]));

    /// <summary>Share of the part's pixels that lie below a limit.</summary>
    public double ShareBelow(DarkPart part, double limit) => part.Pixels.Count(i => unexplained.Data[i] < limit) / (double)part.Pixels.Count;

    /// <summary>Width of the edge at most, mm: depth over the median steepness along the outline; null without an edge.</summary>
    public double? EdgeWidth(DarkPart part) => Robust.Median(Border(part).Select(Steepness)) is > 0 and var steepness ? -Depth(part) / steepness * Side : null;

    /// <summary>Whether its edge is narrower than itself: else it is no place but the foot of a slope.</summary>
    public bool HasEdge(DarkPart part) => EdgeWidth(part) is { } edge && edge * edge < Area(part);

    /// <summary>Median of the plane in rings about the part, each a pixel wide, the nearest first; NaN for a ring without data.</summary>
    public IReadOnlyList<double> Rings(DarkPart part, int count)
    {
        var (seen, ring, medians) = (part.Pixels.ToHashSet(), part.Pixels, new List<double>());
        while (medians.Count < count)
        {
            ring = [.. ring.SelectMany(i => ConnectedParts.Beside(i, unexplained.Width)).Where(n => n >= 0 && n < unexplained.Data.Length && seen.Add(n))];
            medians.Add(Robust.Median(ring.Select(i => (double)unexplained.Data[i]).Where(double.IsFinite)));
        }
        return medians;
    }

    /// <summary>Outline, mm.</summary>
    public Geometry Outline(DarkPart part) => PartOutline.Of(part, unexplained.Width, Side);

    private IEnumerable<int> Border(DarkPart part)
    {
        var inside = part.Pixels.ToHashSet();
        return part.Pixels.Where(i => ConnectedParts.Beside(i, unexplained.Width).Any(n => !inside.Contains(n)));
    }

    /// <summary>Change per pixel.</summary>
    private double Steepness(int i)
    {
        var (x, y, w, h) = (i % unexplained.Width, i / unexplained.Width, unexplained.Width, unexplained.Height);
        var across = (unexplained[Math.Min(w - 1, x + 1), y] - unexplained[Math.Max(0, x - 1), y]) / 2;
        var down = (unexplained[x, Math.Min(h - 1, y + 1)] - unexplained[x, Math.Max(0, y - 1)]) / 2;
        return Math.Sqrt(across * across + down * down);
    }
}
