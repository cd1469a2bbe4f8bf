using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>What one resolution gave.</summary>
/// <param name="Level">How patches were laid.</param>
/// <param name="Matches">Patches that were found again.</param>
/// <param name="Map">The map fitted to them.</param>
/// <param name="Scale">Standard deviation of the closest matches each way, target units.</param>
/// <param name="Error">Standard error of the map's place, target units: spread over the root of the number of matches that count.</param>
internal sealed record LevelFit(PatchLevel Level, IReadOnlyList<Match> Matches, HomographyMap Map, double Scale, double Error);

/// <summary>Patches from coarse to fine, each resolution starting from the map of the one before. At full resolution both kinds of structure and two sizes of
/// patch are tried, and the one that places the photograph most surely is gone on with.</summary>
internal sealed class Refinement(PlaneMap referenceMap, Box area, PairImage moving, PatchSurvey survey)
{
    /// <summary>Among some hundred shifts chance alone reaches three to four standard deviations.</summary>
    private const double LeastDistinct = 4;

    private const int Few = 400;
    private const int Many = 700;
    private const int Reach = 8;

    /// <summary>Two lights have their contrasts alike when no more than this share of patches is turned light for dark.</summary>
    private const double MostReversed = 0.1;

    private static readonly int[] Sides = [48, 96];

    /// <summary>The resolution that places the photograph most surely; null when no patches hold together.</summary>
    public LevelFit? Run(CheckedPlacement start, Action<string> stage)
    {
        var (map, unit) = (start.Map, start.Unit);
        var finest = Units.Finest(referenceMap, area, map, moving);
        LevelFit? best = null;
        while (unit > 2 * finest)
        {
            unit = Math.Max(unit / 2, finest);
            if (Fit(map, new PatchLevel(unit, 48, Reach, Few, StructureKind.Directions), 4) is not { } fit) continue;
            map = fit.Map;
            best = Surer(best, fit);
        }
        stage("coarse to fine");
        var last = Finest(map, finest);
        if (last is not null) last = Fit(last.Map, last.Level with { Most = Many }, 2) ?? last;
        if (last is not null) last = Fit(last.Map, last.Level with { Most = Many }, 1) ?? last;
        stage("full resolution");
        return Surer(best, last);
    }

    private LevelFit? Finest(HomographyMap map, double finest)
    {
        LevelFit? BestOf(StructureKind kind) => Sides.Aggregate((LevelFit?)null, (best, side) => Surer(best, Fit(map, new PatchLevel(finest, side, Reach, Few, kind), 4)));
        var signed = BestOf(StructureKind.Gradients);
        // Where contrasts are alike, what disagrees in sign is the shading of relief, and it would draw directions towards the lamp.
        return signed is not null && signed.Matches.Count(m => m.Reversed) <= MostReversed * signed.Matches.Count ? signed : Surer(signed, BestOf(StructureKind.Directions));
    }

    private static LevelFit? Surer(LevelFit? a, LevelFit? b) => a is null || b?.Error < a.Error ? b : a;

    private LevelFit? Fit(HomographyMap map, PatchLevel level, double gate)
    {
        var matches = survey.Look(map, level).Where(m => m.Distinct >= LeastDistinct).ToList();
        if (matches.Count < 8) return null;
        var model = matches.Count < 40 ? MapModel.Affine : MapModel.HomographyWithLens;
        var frame = MapFrame.For(moving.File.Width, moving.File.Height, [.. matches.Select(m => m.Target)], map);
        if (MapFit.Fit(matches, frame, model, map, gate * level.Unit) is not { } fit) return null;
        var (fitted, weights) = (fit.Map, fit.Weights);
        // Patches that overlap share their pixels and count once between them.
        var alone = Math.Min(1, survey.AreaOf(fitted) / (matches.Count * Math.Pow(level.Side * level.Unit, 2)));
        return new LevelFit(level, matches, fitted, fit.Scale, fit.Scale / Math.Sqrt(Math.Max(1, weights.Sum() * alone)));
    }
}
