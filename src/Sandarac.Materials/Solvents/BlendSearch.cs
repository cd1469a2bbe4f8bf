using Sandarac.Imaging;

namespace Sandarac.Materials.Solvents;

/// <summary>A blend that was found.</summary>
/// <param name="Mixture">It, with shares by volume as computed, unrounded.</param>
/// <param name="Distance">How far it lies from the target, in the target's unit.</param>
/// <param name="Red">Relative energy difference where the target is a region's centre; otherwise null.</param>
/// <param name="HazardStatements">How many different hazard statements its parts bear together.</param>
public sealed record Blend(Mixture Mixture, double Distance, double? Red, int HazardStatements);

/// <summary>The blends nearest a target.</summary>
/// <param name="Blends">The nearest first. Among those that lie alike near as far as the tables' rounding tells (0.1 MPa^0.5, 0.5 points) the fewest parts first, then the fewest hazard statements, then the nearest.</param>
/// <param name="Compared">How many combinations were compared.</param>
/// <param name="LeftOut">Solvents that were not allowed, with the reason.</param>
public sealed record BlendAnswer(IReadOnlyList<Blend> Blends, int Compared, IReadOnlyList<(Solvent Solvent, string Reason)> LeftOut);

/// <summary>
/// Looks for the blends of one, two or three solvents nearest a target: every combination, each with the shares that bring it nearest, in closed form (<see cref="Nearest"/>). With a least share m the reachable triangle
/// shrinks towards its middle, its corners being (1 - n m) V_i + m (V_1 + ... + V_n), and the rest is the same. Pairs that are known not to mix freely are left out. Nearness is all that is judged: what a blend does to a painting only a test tells.
/// </summary>
public static class BlendSearch
{
    /// <summary>Less than this beyond the least share is rounding.</summary>
    private const double None = 1e-9;

    /// <summary>Finds the nearest blends.</summary>
    /// <param name="target">What to lie near.</param>
    /// <param name="limits">What may be used.</param>
    /// <param name="count">How many blends to give.</param>
    /// <returns>No answer when no solvent is allowed.</returns>
    /// <exception cref="InputProblem">A limit cannot be.</exception>
    public static Answer<BlendAnswer> Find(BlendTarget target, BlendLimits limits, int count = 10)
    {
        var (allowed, leftOut) = limits.Choose(target);
        if (allowed.Count == 0) return new(null, "No solvent is left that the limits allow and whose parameters are known.");
        var best = new BestBlends(target, allowed, count);
        var compared = Compare(Search.Of(target, allowed, limits), limits.MostParts, best);
        return new(new(best.ToList(), compared, leftOut), null);
    }

    /// <summary>The solvents' places from the target, and which may stand beside one another.</summary>
    private sealed record Search(Place[] Places, bool[][] May, double Least)
    {
        public static Search Of(BlendTarget target, IReadOnlyList<Solvent> solvents, BlendLimits limits) => new([.. solvents.Select(s => target.PlaceOf(s)!.Value - target.Centre)],
            [.. solvents.Select(a => solvents.Select(b => limits.Allow(a, b, target)).ToArray())], limits.LeastPercent / 100);
    }

    private static int Compare(Search search, int mostParts, BestBlends best)
    {
        var (v, compared) = (search.Places, search.Places.Length);
        var pairs = new double[v.Length, v.Length];
        for (var i = 0; i < v.Length; i++) best.Keep(Place.Dot(v[i], v[i]), i, -1, -1, 0, 0);
        for (var i = 0; i < v.Length && mostParts > 1; i++)
            for (var j = i + 1; j < v.Length; j++)
            {
                pairs[i, j] = double.PositiveInfinity;
                if (!search.May[i][j]) continue;
                compared++;
                pairs[i, j] = Pair(search, i, j, best);
            }
        for (var i = 0; i < v.Length && mostParts > 2; i++)
            for (var j = i + 1; j < v.Length; j++)
                for (var k = j + 1; k < v.Length && search.May[i][j]; k++)
                {
                    if (!search.May[i][k] || !search.May[j][k]) continue;
                    compared++;
                    Triple(search, i, j, k, pairs, best);
                }
        return compared;
    }

    private static double Pair(Search search, int i, int j, BestBlends best)
    {
        var (m, rest) = (search.Least, 1 - 2 * search.Least);
        var middle = m * (search.Places[i] + search.Places[j]);
        var (squared, second) = Nearest.OnSegment(rest * search.Places[i] + middle, rest * search.Places[j] + middle);
        var alone = second == 0 ? i : second == 1 ? j : -1;
        if (alone < 0 || squared < Place.Dot(search.Places[alone], search.Places[alone])) best.Keep(squared, i, j, -1, m + rest * second, 0);
        return squared;
    }

    /// <summary>A part that is held at its least share is not wanted: the blend is kept only where it lies nearer than the one without that part.</summary>
    private static void Triple(Search search, int i, int j, int k, double[,] pairs, BestBlends best)
    {
        var (m, rest) = (search.Least, 1 - 3 * search.Least);
        var middle = m * (search.Places[i] + search.Places[j] + search.Places[k]);
        var (squared, second, third) = Nearest.OnTriangle(rest * search.Places[i] + middle, rest * search.Places[j] + middle, rest * search.Places[k] + middle);
        var without = third <= None ? pairs[i, j] : second <= None ? pairs[i, k] : second + third >= 1 - None ? pairs[j, k] : double.PositiveInfinity;
        if (squared < without) best.Keep(squared, i, j, k, m + rest * second, m + rest * third);
    }
}
