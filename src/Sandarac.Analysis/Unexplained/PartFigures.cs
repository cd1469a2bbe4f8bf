using NetTopologySuite.Geometries;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Unexplained;

/// <summary>Sizes and depths of parts of a plane.</summary>
/// <param name="unexplained">Natural logarithm of a light over what the colour explains, reduced.</param>
/// <param name="factor">Pixels of the image along a pixel of it.</param>
/// <param name="scale">The image's scale.</param>
internal sealed class PartFigures(Plane unexplained, int factor, PixelScale? scale)
{
    private readonly double _side = factor * (scale?.MmPerPixel ?? 1);

    /// <summary>Area, mm2.</summary>
    public double Area(DarkPart part) => part.Pixels.Count * _side * _side;

    /// <summary>Half a pixel along the outline, mm2.</summary>
    public double AreaUncertainty(DarkPart part) => Border(part).Count() * _side * _side / 2;

    /// <summary>Median of the part's pixels, natural logarithm.</summary>
    public double Depth(DarkPart part) => Robust.Median(part.Pixels.Select(i => (double)unexplained.Data[i]));

    /// <summary>Share of the part's pixels that lie below a limit.</summary>
    public double ShareBelow(DarkPart part, double limit) => part.Pixels.Count(i => unexplained.Data[i] < limit) / (double)part.Pixels.Count;

    /// <summary>Width of the edge at most, mm: depth over the median steepness along the outline; null without an edge.</summary>
    public double? EdgeWidth(DarkPart part) => Robust.Median(Border(part).Select(Steepness)) is > 0 and var steepness ? -Depth(part) / steepness * _side : null;

    /// <summary>Outline, mm.</summary>
    public Geometry Outline(DarkPart part) => PartOutline.Of(part, unexplained.Width, _side);

    private IEnumerable<int> Border(DarkPart part)
    {
        var inside = part.Pixels.ToHashSet();
        return part.Pixels.Where(i => DarkParts.Beside(i, unexplained.Width).Any(n => !inside.Contains(n)));
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
