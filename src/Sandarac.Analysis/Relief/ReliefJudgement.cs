using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>Whether photographs fit together: what is refused, and of what a person is warned.</summary>
internal static class ReliefJudgement
{
    /// <summary>A photograph of which more is clipped tells nothing of most places.</summary>
    private const double MostClipped = 0.5, NotedClipped = 0.01;

    /// <summary>Register off by more than this makes edges of colour into slopes, pixels.</summary>
    private const double MostShift = 0.5;

    /// <summary>Share of a photograph's light that may stay unexplained: one surface leaves a few hundredths.</summary>
    private const double MostUnexplained = 0.2;

    /// <summary>Directions so nearly in one plane make the slope across it uncertain.</summary>
    private const double GoodSpread = 0.12;

    /// <exception cref="InputProblem">A photograph is clipped for the most part, or the photographs do not show one surface in the same place.</exception>
    public static void Refuse(RakingSet set, ReliefPass pass)
    {
        for (var k = 0; k < set.Images.Count; k++)
            if (pass.Clipped[k] > MostClipped)
                throw new InputProblem("frame-clipped", set.Images[k].Name, FormattableString.Invariant($"{100 * pass.Clipped[k]:0} % of {set.Images[k].Name} is clipped."), "Leave it out, or take it again with less exposure.");
        var worst = Enumerable.Range(0, set.Images.Count).MaxBy(k => pass.Frames[k].Unexplained);
        if (pass.Frames[worst].Unexplained is > MostUnexplained and var share)
            throw new InputProblem("frames-disagree", set.Images[worst].Name, FormattableString.Invariant($"{100 * share:0} % of the light of {set.Images[worst].Name} is not what the photographs together let expect."), "See that they are aligned, show one side of one painting, and that each lamp's direction belongs to its photograph.");
    }

    /// <summary>What whoever uses the result must know.</summary>
    public static IReadOnlyList<Warning> Warnings(RakingSet set, ReliefPass pass, double shortestPixels)
    {
        var warnings = new List<Warning>();
        for (var k = 0; k < set.Images.Count; k++)
        {
            var name = set.Images[k].Name;
            if (pass.Clipped[k] > NotedClipped) warnings.Add(new Warning("frame-clipped", FormattableString.Invariant($"{100 * pass.Clipped[k]:0.#} % of {name} is clipped and was left out.")));
            if (pass.Frames[k].Pixels(set.Images.Count) is > MostShift and var shift) warnings.Add(new Warning("frame-shift", FormattableString.Invariant($"{name} seems to lie {shift:0.0} pixels beside the others: edges of colour become slopes. Align it again.")));
        }
        if (set.AreEstimated) warnings.Add(new Warning("lamps-estimated", "Where the lamps stood was estimated from the photographs: hills and hollows may be exchanged, and the height's scale rests on the stated elevation (bas-relief ambiguity)."));
        if (!set.Lamps.RelativeToBoard) warnings.Add(new Warning("no-boards", "There are no photographs of an even board: lamps are taken for equally strong and even. What they are not tilts and bends the height."));
        if (set.Lamps.Spread < GoodSpread) warnings.Add(new Warning("lamps-narrow", "The lamps stand nearly in one plane with the painting's middle: slopes across it are uncertain."));
        if (set.Images.Count == LampSet.Fewest) warnings.Add(new Warning("three-lamps", "With three lamps nothing checks the normals: shadow and gloss go into them unseen."));
        if (shortestPixels < 2) warnings.Add(new Warning("deformation-too-fine", "The shortest deformation covers fewer than two pixels: no places are proposed."));
        return warnings;
    }
}
