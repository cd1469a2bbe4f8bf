using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Luminescence;

/// <summary>Describes dark parts as places on the painting.</summary>
/// <param name="unexplained">Natural logarithm of luminescence over what the colour explains, reduced.</param>
/// <param name="factor">Pixels of the image along a pixel of it.</param>
/// <param name="scale">The image's scale.</param>
internal sealed class DarkPlaces(Plane unexplained, int factor, PixelScale? scale)
{
    private readonly double _side = factor * (scale?.MmPerPixel ?? 1);

    /// <summary>Area, mm2.</summary>
    public double Area(DarkPart part) => part.Pixels.Count * _side * _side;

    /// <summary>Half a pixel along the outline, mm2.</summary>
    public double AreaUncertainty(DarkPart part) => Border(part).Count() * _side * _side / 2;

    /// <summary>The part as a proposal.</summary>
    /// <param name="part">The part.</param>
    /// <param name="limit">The limit below which its pixels lie, natural logarithm.</param>
    public Candidate Candidate(DarkPart part, double limit)
    {
        var depth = Robust.Median(part.Pixels.Select(i => (double)unexplained.Data[i]));
        var sure = part.Pixels.Count(i => unexplained.Data[i] < 1.5 * limit) / (double)part.Pixels.Count;
        var steepness = Robust.Median(Border(part).Select(Steepness));
        var reason = string.Create(CultureInfo.InvariantCulture, $"Luminesces {Math.Exp(-depth):0.0} times less than paint of this colour around it, over {Area(part):0} mm2; ")
            + (steepness > 0 ? string.Create(CultureInfo.InvariantCulture, $"its edge is {-depth / steepness * _side:0.0} mm wide at most.") : "it has no edge.");
        return new Candidate(PartOutline.Of(part, unexplained.Width, _side), "later-addition", sure, reason);
    }

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
