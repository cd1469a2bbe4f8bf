using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>A placement that patches were asked about.</summary>
/// <param name="Map">Where the photograph seems to lie.</param>
/// <param name="Unit">Size of the patches' pixel, target units: it is good to about one.</param>
/// <param name="Log10FalseAlarms">How unlikely chance alone makes so many patches agree.</param>
internal sealed record CheckedPlacement(HomographyMap Map, double Unit, double Log10FalseAlarms);

/// <summary>Finds where a photograph lies in the reference: likely sizes and turns first, then all of them; patches that had no part in it must agree.</summary>
internal sealed class PlacementSearch(PairImage reference, PlaneMap referenceMap, Box area, PairImage moving, double leastOverlap, PatchSurvey survey, ParallelOptions options)
{
    /// <summary>Agreement this unlikely ends the search.</summary>
    private const double Certain = -10;

    /// <summary>Patches that a map was fitted to and that agree as chance lets one in ten times agree promise nothing.</summary>
    private const double MostByChance = -1;

    private const double MostEnlarged = 1.3;

    private readonly int _pixels = Math.Min(Math.Max(reference.File.Width, reference.File.Height), Math.Max(moving.File.Width, moving.File.Height));
    private static readonly double[] NearTurns = Turns(-12, 12, 4);
    private static readonly double[] AllTurns = Turns(-180, 172, 8);

    /// <summary>The placement that patches agree on most; null when none holds together.</summary>
    /// <param name="likelyScales">Target units per moving pixel that would be no surprise; the last is the middle of all that are tried in the end.</param>
    /// <param name="areKnown">Whether the size is one of these within a few per cent; else it may be half as large again.</param>
    /// <param name="depth">How far to go when these fail.</param>
    /// <param name="stage">Hears when a stage ends.</param>
    public CheckedPlacement? Find(IReadOnlyList<double> likelyScales, bool areKnown, SearchDepth depth, Action<string> stage)
    {
        double[] centres = Apart(likelyScales);
        CheckedPlacement? best = null;
        // In some hundred pixels a narrow overlap is a few pixels wide: only small images have no more.
        if (leastOverlap >= PairAligner.LeastOverlap || 320 > MostEnlarged * _pixels)
        {
            best = InTurn(null, centres, s => Best(Search(96).Find(new SearchSpace([.. (areKnown ? Steps(1 / 1.08, 1.08, 1.08) : Steps(0.72, 1.4, 1.08)).Select(f => f * s)], NearTurns, [false]), 12, options), 32));
            stage("search nearby");
            if (best?.Log10FalseAlarms < Certain || depth == SearchDepth.Quick) return best;
        }
        // Faint likeness needs more pixels; they are affordable where size and turn are nearly known.
        foreach (var (longSide, side, most, range, turn) in new[] { (320, 48, 8, 0.04, 3.0), (640, 96, 3, 0.02, 2.0) })
        {
            // Images smaller than that have nothing more to show.
            if (longSide > MostEnlarged * _pixels) break;
            best = InTurn(best, centres, s => Best(Search(longSide).Find(new SearchSpace([.. Steps(1 - range, 1 + 1.1 * range, 1.02).Select(f => f * s)], Turns(-turn, turn, turn / 4), [false]), most, options), side));
            if (best?.Log10FalseAlarms < Certain || depth == SearchDepth.Quick) break;
        }
        stage("search nearby, finer");
        if (best?.Log10FalseAlarms < Certain || depth != SearchDepth.Everywhere) return best;
        var all = new SearchSpace([.. Steps(0.2, 5, 1.14).Select(f => f * likelyScales[^1])], AllTurns, [false, true]);
        best = Better(best, Best(Search(72).Find(all, 48, options), 32));
        stage("search everywhere");
        return best;
    }

    private CoarseSearch Search(int longSide) => new(reference, referenceMap, area, moving, longSide, leastOverlap);

    /// <summary>The likeliest size first; one that is certain spares the others.</summary>
    private static CheckedPlacement? InTurn(CheckedPlacement? best, IReadOnlyList<double> scales, Func<double, CheckedPlacement?> find)
    {
        foreach (var scale in scales)
        {
            best = Better(best, find(scale));
            if (best?.Log10FalseAlarms < Certain) break;
        }
        return best;
    }

    private static CheckedPlacement? Better(CheckedPlacement? a, CheckedPlacement? b) =>
        a is null || b?.Log10FalseAlarms < a.Log10FalseAlarms ? b : a;

    private CheckedPlacement? Best(IReadOnlyList<Placement> placements, int side)
    {
        CheckedPlacement? best = null;
        foreach (var placement in placements)
        {
            best = Better(best, Check(placement, side));
            // Over a narrow overlap the first that agrees is not enough: patterns repeat.
            if (leastOverlap >= PairAligner.LeastOverlap && best?.Log10FalseAlarms < Certain) break;
        }
        return best;
    }

    /// <summary>Fits on every other patch and counts agreement on the rest.</summary>
    private CheckedPlacement? Check(Placement placement, int side)
    {
        var unit = Math.Max(placement.Unit / 2, Units.Finest(referenceMap, area, placement.Map, moving));
        var map = placement.Map;
        foreach (var (model, reach, gate) in new[] { (MapModel.Similarity, 12, 8.0), (MapModel.Affine, 8, 5.0), (MapModel.Affine, 8, 3.0) })
        {
            var level = new PatchLevel(unit, side, reach, 300, StructureKind.Directions);
            var found = survey.Look(map, level).Where((m, i) => i % 2 == 0 && m.Distinct >= 4).ToList();
            if (found.Count < 3) return null;
            if (MapFit.Fit(found, MapFrame.For(moving, found, map), model, map, gate * unit) is not { } fit) return null;
            map = fit.Map;
            if (!Promises(found, map, unit, reach)) return null;
        }
        const int reached = 8;
        var held = survey.Look(map, new PatchLevel(unit, side, reached, 300, StructureKind.Directions)).Where((_, i) => i % 2 == 1).ToList();
        var agreeing = held.Count(m => MapFit.Length(m.Shift) <= PairAligner.Gate * unit);
        // Patches half a side apart share half their pixels: every second one counts.
        return new CheckedPlacement(map, unit, Agreement.Log10FalseAlarms(Agreement.PlacesTried, held.Count / 2, agreeing / 2, Agreement.Chance(PairAligner.Gate, reached)));
    }

    /// <summary>Whether the patches that a map was fitted to agree better than chance at twice the gate; if not even they do, others will not.</summary>
    private static bool Promises(List<Match> found, HomographyMap map, double unit, int reach)
    {
        var near = found.Count(m => MapFit.Length(MapFit.Residual(map, m)) <= 2 * PairAligner.Gate * unit);
        return Agreement.Log10FalseAlarms(1, found.Count, near, Agreement.Chance(2 * PairAligner.Gate, reach)) < MostByChance;
    }

    /// <summary>Without sizes that another stands for, being nearer than the search tells apart.</summary>
    private static double[] Apart(IReadOnlyList<double> scales) => [.. scales.Where((s, i) => !scales.Take(i).Any(o => Math.Abs(Math.Log(s / o)) < 0.005))];

    private static double[] Steps(double from, double to, double factor) =>
        [.. Enumerable.Range(0, (int)Math.Floor(Math.Log(to / from) / Math.Log(factor) + 1e-9) + 1).Select(i => from * Math.Pow(factor, i))];

    private static double[] Turns(double from, double to, double step) => [.. Enumerable.Range(0, (int)Math.Round((to - from) / step) + 1).Select(i => (from + i * step) * Math.PI / 180)];
}
