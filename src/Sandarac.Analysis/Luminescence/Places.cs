using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Unexplained;

namespace Sandarac.Analysis.Luminescence;

/// <summary>Says of dark parts and of thin varnish, in words with figures, why they are proposed.</summary>
internal static class Places
{
    /// <summary>Tide lines are so wide at most, and the surroundings begin twice as far out, mm: common practice, no source.</summary>
    private const double RimMm = 3;

    /// <summary>A rim counts when it stands out of what lies farther out by half of what varnish varies by anyway.</summary>
    private const double LeastRim = 0.5;

    /// <summary>A part that stays dark: a candidate for later paint.</summary>
    /// <param name="measures">Of natural logarithms of luminescence over what the colour explains.</param>
    /// <param name="part">The part.</param>
    /// <param name="limit">The limit below which its pixels lie.</param>
    /// <param name="veil">Whether a veil of luminescence is left over it.</param>
    public static Candidate Addition(PartFigures measures, DarkPart part, double limit, Veil veil)
    {
        var reason = Text($"Luminesces {Math.Exp(-measures.Depth(part)):0.0} times less than paint of this colour around it, over {measures.Area(part):0} mm2; ")
            + (measures.EdgeWidth(part) is { } edge ? Text($"its edge is {edge:0.0} mm wide at most.") : "it has no edge.")
            + veil switch
            {
                Veil.Bare => " Of two groups of such places it is in the one whose luminescence has less of the varnish's colour: consistent with paint over the varnish.",
                Veil.Veiled => " Of two groups of such places it is in the one whose luminescence has more of the varnish's colour: consistent with paint under a coat of varnish, or with paint that luminesces so itself.",
                _ => " Whether varnish lies over it is not told: the places do not fall into two groups.",
            };
        return new Candidate(measures.Outline(part), veil == Veil.Veiled ? "veiled-addition" : "later-addition", measures.ShareBelow(part, 1.5 * limit), reason);
    }

    /// <summary>A part with little varnish: a candidate for an earlier cleaning where a rim of more varnish lies round it, else for a gap.</summary>
    /// <param name="measures">Of varnish in its spread.</param>
    /// <param name="part">The part.</param>
    /// <param name="limit">The limit below which its pixels lie.</param>
    public static Candidate ThinVarnish(PartFigures measures, DarkPart part, double limit)
    {
        var near = Math.Max(1, (int)Math.Round(RimMm / measures.Side));
        var rings = measures.Rings(part, 4 * near);
        var rim = rings.Take(near).Where(double.IsFinite).DefaultIfEmpty().Max() - Numbers.Robust.Median(rings.Skip(2 * near).Where(double.IsFinite));
        var hasRim = rim >= LeastRim;
        var reason = Text($"Its varnish luminesces {-measures.Depth(part):0.0} spreads of the whole painting's varnish less than the middle, over {measures.Area(part):0} mm2; ")
            + (measures.EdgeWidth(part) is { } edge ? Text($"its edge is {edge:0.0} mm wide at most; ") : "")
            + (hasRim ? Text($"a rim of more luminescence, by {rim:0.0} spreads, lies round it as a tide line of cleaning does.")
                : "no rim of more luminescence lies round it: consistent with a gap, with thin or other varnish, and with a cleaning that left no tide line.");
        return new Candidate(measures.Outline(part), hasRim ? "earlier-cleaning" : "varnish-gap", measures.ShareBelow(part, 1.5 * limit), reason);
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
