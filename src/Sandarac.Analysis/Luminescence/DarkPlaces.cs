using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Unexplained;

namespace Sandarac.Analysis.Luminescence;

/// <summary>Describes dark parts as places on the painting.</summary>
internal static class DarkPlaces
{
    /// <summary>The part as a proposal.</summary>
    /// <param name="part">The part.</param>
    /// <param name="figures">What is known of parts of its plane.</param>
    /// <param name="limit">The limit below which its pixels lie, natural logarithm.</param>
    public static Candidate Candidate(DarkPart part, PartFigures figures, double limit)
    {
        var reason = string.Create(CultureInfo.InvariantCulture, $"Luminesces {Math.Exp(-figures.Depth(part)):0.0} times less than paint of this colour around it, over {figures.Area(part):0} mm2; ")
            + (figures.EdgeWidth(part) is { } width ? string.Create(CultureInfo.InvariantCulture, $"its edge is {width:0.0} mm wide at most.") : "it has no edge.");
        return new Candidate(figures.Outline(part), "later-addition", figures.ShareBelow(part, 1.5 * limit), reason);
    }
}
