using Sandarac.Imaging;

namespace Sandarac.Materials.Solvents;

/// <summary>A blend that was found.</summary>
/// <param name="Mixture">It, with shares by volume as computed, unrounded.</param>
/// <param name="Distance">How far it lies from the target, in the target's unit.</param>
/// <param name="Red">Relative energy difference where the target is a region's centre; otherwise null.</param>
/// <param name="HazardStatements">How many different hazard statements its parts bear together.</param>
public sealed record Blend(Mixture Mixture, double Distance, double? Red, int HazardStatements);

/// <summary>The blends nearest a target.</summary>
/// <param name="Blends">The nearest first; among those whose distances agree to a hundredth the fewest parts first, then the fewest hazard statements.</param>
/// <param name="Compared">How many combinations were compared.</param>
/// <param name="LeftOut">Solvents that were not allowed, with the reason.</param>
public sealed record BlendAnswer(IReadOnlyList<Blend> Blends, int Compared, IReadOnlyList<(Solvent Solvent, string Reason)> LeftOut);

/// <summary>
/// Looks for the blends of one, two or three solvents nearest a target: every combination, each with the shares that bring it nearest, in closed form (<see cref="Nearest"/>). With a least share m the reachable triangle
/// shrinks towards its middle, its corners being (1 - n m) V_i + m (V_1 + ... + V_n), and the rest is the same. Nearness is all that is judged: whether parts mix, and what they do to a painting, only a test tells.
/// </summary>
public static class BlendSearch
{
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
        var compared = Compare(new Search([.. allowed.Select(s => target.PlaceOf(s)!.Value - target.Centre)], [.. allowed.Select(s => s.VapourPressureKPa ?? double.NaN)], limits.LeastPercent / 100, limits.MostPressureRatio), limits.MostParts, best);
        return new(new(best.ToList(), compared, leftOut), null);
    }

    /// <summary>The solvents' places from the target, and what their combinations must keep.</summary>
    internal sealed record Search(Place[] Places, double[] Pressures, double Least, double? MostRatio)
    {
        /// <summary>Whether parts leave together; always so when no ratio is asked for.</summary>
        public bool IsBalanced(double low, double high) => MostRatio is not { } most || high <= most * low;
    }

    /// <summary>Compares all combinations.</summary>
    internal static int Compare(Search search, int mostParts, BestBlends best)
    {
        var (v, p, compared) = (search.Places, search.Pressures, 0);
        for (var i = 0; i < v.Length; i++)
        {
            compared++;
            best.Keep(Place.Dot(v[i], v[i]), i, -1, -1, 0, 0);
            for (var j = i + 1; j < v.Length && mostParts > 1; j++)
            {
                var (low, high) = (Math.Min(p[i], p[j]), Math.Max(p[i], p[j]));
                if (!search.IsBalanced(low, high)) continue;
                compared++;
                Pair(search, i, j, best);
                for (var k = j + 1; k < v.Length && mostParts > 2; k++)
                {
                    if (!search.IsBalanced(Math.Min(low, p[k]), Math.Max(high, p[k]))) continue;
                    compared++;
                    Triple(search, i, j, k, best);
                }
            }
        }
        return compared;
    }

    private static void Pair(Search search, int i, int j, BestBlends best)
    {
        var (m, rest) = (search.Least, 1 - 2 * search.Least);
        var middle = m * (search.Places[i] + search.Places[j]);
        var (squared, second) = Nearest.OnSegment(rest * search.Places[i] + middle, rest * search.Places[j] + middle);
        best.Keep(squared, i, j, -1, m + rest * second, 0);
    }

    private static void Triple(Search search, int i, int j, int k, BestBlends best)
    {
        var (m, rest) = (search.Least, 1 - 3 * search.Least);
        var middle = m * (search.Places[i] + search.Places[j] + search.Places[k]);
        var (squared, second, third) = Nearest.OnTriangle(rest * search.Places[i] + middle, rest * search.Places[j] + middle, rest * search.Places[k] + middle);
        best.Keep(squared, i, j, k, m + rest * second, m + rest * third);
    }
}
