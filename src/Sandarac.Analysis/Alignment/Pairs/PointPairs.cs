using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>A place that a person found in both photographs.</summary>
/// <param name="Place">On the target: mm on the plane, or reference pixels.</param>
/// <param name="Pixel">In the moving photograph, pixels.</param>
/// <param name="Used">Whether it counts.</param>
public sealed record PointPair(Point2 Place, Point2 Pixel, bool Used = true);

/// <summary>A map through point pairs, and what it leaves of each.</summary>
/// <param name="Map">From the moving photograph's pixels to the target.</param>
/// <param name="Residuals">For each pair, used or not: where its pixel comes to lie, less its place; target units.</param>
/// <param name="LeftOut">The same distance when the pair itself is left out of the fit; null where too few are left.</param>
/// <param name="OthersRms">Root mean square of what is left of the other pairs then; null where they just fix the model. The pair without which they agree
/// best is the one to doubt: its own distance does not tell, for a wrong pair draws the map to itself and throws others off.</param>
public sealed record PointPairsFit(PlaneMap Map, IReadOnlyList<Point2> Residuals, IReadOnlyList<double?> LeftOut, IReadOnlyList<double?> OthersRms)
{
    /// <summary>The left-out distances of the pairs that count, in figures; null where too few are left for any.</summary>
    /// <param name="pairs">The pairs that were fitted.</param>
    public HeldOutResidual? HeldOut(IReadOnlyList<PointPair> pairs)
    {
        double[] left = [.. LeftOut.Where((_, i) => pairs[i].Used).OfType<double>()];
        return left.Length == 0 ? null : new HeldOutResidual(left.Length, left.Length, double.PositiveInfinity, Robust.Median(left), left.Average(), Robust.Quantile(left, 0.95), left.Max());
    }
}

/// <summary>Alignment by hand: least squares through point pairs, and snapping a pair to the best match nearby.</summary>
public static class PointPairs
{
    /// <summary>Fewest pairs for a model: one more than would fix it, but for the stiffest.</summary>
    public static int Fewest(MapModel model) => model switch
    {
        MapModel.Similarity => 2,
        MapModel.Affine => 3,
        MapModel.Homography => 4,
        MapModel.HomographyWithLens => 7,
        _ => 10,
    };

    /// <summary>The fullest model that so many pairs can carry with something to spare.</summary>
    public static MapModel ModelFor(int pairs) => pairs switch
    {
        < 4 => MapModel.Similarity,
        < 6 => MapModel.Affine,
        < 10 => MapModel.Homography,
        _ => MapModel.HomographyWithLens,
    };

    /// <summary>Fits.</summary>
    /// <param name="pairs">The pairs; those not used only get residuals.</param>
    /// <param name="width">Columns of the moving photograph.</param>
    /// <param name="height">Rows.</param>
    /// <param name="model">The model.</param>
    /// <exception cref="InputProblem">Too few pairs, or all on one line or in one place.</exception>
    public static PointPairsFit Fit(IReadOnlyList<PointPair> pairs, int width, int height, MapModel model)
    {
        var used = pairs.Where(p => p.Used).ToList();
        if (used.Count < Fewest(model))
            throw new InputProblem("too-few-pairs", "pairs", $"{used.Count} pairs do not fix this model.", $"It needs at least {Fewest(model)}; set more, or choose a stiffer model.");
        var map = Through(used, width, height, model)
            ?? throw new InputProblem("pairs-degenerate", "pairs", "The pairs do not fix this model: they lie on one line, or in one place.", "Spread the pairs over the photograph.");
        var without = pairs.Select(p => LeftOut(p, used, width, height, model, map)).ToList();
        return new PointPairsFit(map, [.. pairs.Select(p => Residual(map, p))], [.. without.Select(w => w?.Own)], [.. without.Select(w => w?.Others)]);
    }

    /// <summary>Moves a pair's pixel to where the reference's structure about its place lies best; null when nothing there stands out.</summary>
    /// <param name="target">The reference.</param>
    /// <param name="moving">The moving photograph.</param>
    /// <param name="around">A map of about the right size and turn.</param>
    /// <param name="pair">The pair: the place holds, the pixel is where to look.</param>
    public static (PointPair Pair, double Score)? Snap(AlignmentTarget target, PairImage moving, HomographyMap around, PointPair pair)
    {
        const double leastDistinct = 4.5;
        var finest = Units.Finest(target.Map, target.Area, around, moving);
        (PointPair, double)? best = null;
        foreach (var unit in new[] { 4 * finest, 2 * finest, finest })
        {
            var at = around.ToPlane(pair.Pixel);
            var here = around.Then(new Homography([1, 0, pair.Place.X - at.X, 0, 1, pair.Place.Y - at.Y, 0, 0, 1]));
            var found = new[] { StructureKind.Gradients, StructureKind.Directions }.Select(kind => new PatchMatcher(new PatchLevel(unit, 48, 10, 1, kind), FieldWindow.Of(target.Reference, target.Map, unit, kind), FieldWindow.Of(moving, here, unit, kind)).Find(here, pair.Place))
                .OfType<Match>().Where(m => m.Distinct >= leastDistinct).MaxBy(m => m.Distinct);
            if (found is null) continue;
            pair = pair with { Pixel = found.Moving };
            best = (pair, found.Score);
        }
        return best;
    }

    private static PlaneMap? Through(IReadOnlyList<PointPair> pairs, int width, int height, MapModel model)
    {
        if (!IsSpread([.. pairs.Select(p => p.Place)], model) || !IsSpread([.. pairs.Select(p => p.Pixel)], model)) return null;
        Match[] matches = [.. pairs.Select(p => new Match(p.Place, p.Pixel, default, 1, 0, 1, 0, 1))];
        var stiff = model == MapModel.Smooth ? MapModel.HomographyWithLens : model;
        if (MapFit.LeastSquares(matches, width, height, stiff) is not { } map) return null;
        return model != MapModel.Smooth ? map : SmoothFit.Fit(map, matches, [.. matches.Select(_ => 1.0)], Around(pairs), 1e-2);
    }

    /// <summary>Whether points lie apart, and for more than place, turn and size also off one line: at least a hundredth as wide as long.</summary>
    private static bool IsSpread(IReadOnlyList<Point2> points, MapModel model)
    {
        var (x, y) = (points.Average(p => p.X), points.Average(p => p.Y));
        var (xx, xy, yy) = (points.Sum(p => (p.X - x) * (p.X - x)), points.Sum(p => (p.X - x) * (p.Y - y)), points.Sum(p => (p.Y - y) * (p.Y - y)));
        var root = Math.Sqrt((xx - yy) * (xx - yy) / 4 + xy * xy);
        var (along, across) = ((xx + yy) / 2 + root, (xx + yy) / 2 - root);
        return along > 1e-12 && (model == MapModel.Similarity || across > 1e-4 * along);
    }

    private static Box Around(IReadOnlyList<PointPair> pairs)
    {
        var (left, top) = (pairs.Min(p => p.Place.X), pairs.Min(p => p.Place.Y));
        return new Box(left, top, Math.Max(1e-9, pairs.Max(p => p.Place.X) - left), Math.Max(1e-9, pairs.Max(p => p.Place.Y) - top));
    }

    private static (double Own, double? Others)? LeftOut(PointPair pair, List<PointPair> used, int width, int height, MapModel model, PlaneMap whole)
    {
        var others = pair.Used ? used.Where(p => p != pair).ToList() : used;
        var map = !pair.Used ? whole : others.Count >= Fewest(model) ? Through(others, width, height, model) : null;
        if (map is null) return null;
        double? rms = 2 * others.Count > MapFrame.Count(model) ? Math.Sqrt(others.Average(p => Math.Pow(MapFit.Length(Residual(map, p)), 2))) : null;
        return (MapFit.Length(Residual(map, pair)), rms);
    }

    private static Point2 Residual(PlaneMap map, PointPair pair)
    {
        var at = map.ToPlane(pair.Pixel);
        return new Point2(at.X - pair.Place.X, at.Y - pair.Place.Y);
    }
}
