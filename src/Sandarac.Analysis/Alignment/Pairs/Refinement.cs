using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>What one resolution gave.</summary>
/// <param name="Level">How patches were laid.</param>
/// <param name="Matches">Patches that were found again.</param>
/// <param name="Map">The map fitted to them.</param>
/// <param name="Scale">Standard deviation of the closest matches each way, target units.</param>
/// <param name="Error">Standard error of the map's place, target units: spread over the root of the number of matches that count.</param>
internal sealed record LevelFit(PatchLevel Level, IReadOnlyList<Match> Matches, HomographyMap Map, double Scale, double Error);

/// <summary>Patches from coarse to fine, each resolution starting from the map of the one before. At the finest two all kinds of structure and patches of several
/// sizes are tried; what places the photograph most surely is gone on with.</summary>
internal sealed class Refinement(PlaneMap referenceMap, Box area, PairImage moving, PatchSurvey survey, bool bothInColour)
{
    /// <summary>Among some hundred shifts chance alone reaches three to four standard deviations.</summary>
    private const double LeastDistinct = 4;

    private const int Few = 400;
    private const int Many = 800;
    private const int Reach = 8;

    /// <summary>Pixels in all patches of one look: larger patches say more each, and fewer do.</summary>
    private const int MostPixels = 6_000_000;

    /// <summary>Two lights have their contrasts alike when no more than this share of patches is turned light for dark.</summary>
    private const double MostReversed = 0.1;

    private static readonly int[] Sides = [64, 128];

    /// <summary>The resolution that places the photograph most surely; null when no patches hold together.</summary>
    public LevelFit? Run(CheckedPlacement start, Action<string> stage)
    {
        var (map, unit) = (start.Map, start.Unit);
        var finest = Units.Finest(referenceMap, area, map, moving);
        var best = Fit(map, new PatchLevel(unit, 32, Reach, Few, StructureKind.Directions), 3);
        map = best?.Map ?? map;
        while (unit > finest * 1.0001)
        {
            unit = Math.Max(unit / 2, finest);
            var fit = unit <= 2.5 * finest ? Closest(map, unit) : Fit(map, new PatchLevel(unit, 48, Reach, Few, StructureKind.Directions), 4);
            map = fit?.Map ?? map;
            best = Surer(best, fit);
            // A resolution that was rounded up to the finest says the same as it.
            if (unit < 1.3 * finest) break;
        }
        stage("coarse to fine");
        if (best is not null) best = Surer(best, Fit(best.Map, best.Level with { Most = Many, Reach = Reach - 2 }, 2));
        // More patches may make full resolution the surer one after all.
        if (best?.Level.Unit > 1.5 * unit) best = Surer(best, Fit(best.Map, best.Level with { Unit = unit, Most = Many, Reach = Reach - 2 }, 3));
        stage("many patches");
        return best;
    }

    /// <summary>Every kind of structure, and larger patches where the smaller ones are seldom found.</summary>
    private LevelFit? Closest(HomographyMap map, double unit)
    {
        LevelFit? BestOf(StructureKind kind)
        {
            LevelFit? best = null;
            foreach (var side in Sides)
            {
                best = Surer(best, Fit(map, new PatchLevel(unit, side, Reach, Few, kind), 4));
                if (best is { Matches.Count: > Few / 4 }) break;
            }
            return best;
        }

        var coloured = bothInColour ? BestOf(StructureKind.Colours) : null;
        // Colours that agree to a tenth of a pixel leave nothing to be looked for in grey.
        if (coloured is { Matches.Count: > Few / 2 } && coloured.Scale < 0.1 * unit) return coloured;
        var signed = BestOf(StructureKind.Gradients);
        // Where contrasts are alike, what disagrees in sign is the shading of relief, and it would draw directions towards the lamp.
        var grey = signed is not null && signed.Matches.Count(m => m.Reversed) <= MostReversed * signed.Matches.Count ? signed : Surer(signed, BestOf(StructureKind.Directions));
        return Surer(coloured, grey);
    }

    private static LevelFit? Surer(LevelFit? a, LevelFit? b) => a is null || b?.Error < a.Error ? b : a;

    private LevelFit? Fit(HomographyMap map, PatchLevel level, double gate)
    {
        var matches = survey.Look(map, level with { Most = Math.Min(level.Most, MostPixels * (level.Most / Few) / (level.Side * level.Side)) }).Where(m => m.Distinct >= LeastDistinct).ToList();
        if (matches.Count < 8) return null;
        var model = matches.Count < 40 ? MapModel.Affine : MapModel.HomographyWithLens;
        var frame = MapFrame.For(moving, matches, map);
        if (MapFit.Fit(matches, frame, model, map, gate * level.Unit) is not { } fit) return null;
        var (fitted, weights) = (fit.Map, fit.Weights);
        // Patches that overlap share their pixels and count once between them.
        var alone = Math.Min(1, survey.AreaOf(fitted) / (matches.Count * Math.Pow(level.Side * level.Unit, 2)));
        var counting = Math.Max(1, weights.Sum() * alone);
        // A handful of matches is always close to a map that was fitted to it.
        return new LevelFit(level, matches, fitted, fit.Scale, fit.Scale / Math.Sqrt(counting) * (1 + 20 / counting));
    }
}
