using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>Finds the map under which some matches agree most closely, from samples of four.</summary>
internal static class TightSample
{
    /// <summary>One of the maps or a corrected one, whichever has the least sum of log(1 + d^2 / scale^2).</summary>
    public static HomographyMap Best(IReadOnlyList<Match> matches, IReadOnlyList<HomographyMap> maps, double scale, int samples)
    {
        var map = maps.MinBy(m => Loss(matches, [.. matches.Select(x => m.ToPlane(x.Moving))], null, scale))!;
        // Corrections act on the target, after the map: p to C p.
        Point2[] placed = [.. matches.Select(m => map.ToPlane(m.Moving))];
        var quarters = Quarters(matches);
        if (quarters.Any(q => q.Count == 0)) return map;
        // A fixed seed: the same matches give the same map.
        var dice = new Random(20260101);
        var (best, least) = ((Homography?)null, Loss(matches, placed, null, scale));
        for (var n = 0; n < samples; n++)
        {
            int[] sample = [.. quarters.Select(q => Pick(q, matches, dice))];
            if (Correction(sample, matches, placed) is not { } correction) continue;
            var loss = Loss(matches, placed, correction, scale);
            if (loss < least) (best, least) = (correction, loss);
        }
        return best is { } c ? map.Then(c) : map;
    }

    /// <summary>Matches that say more are picked more often (guided sampling: Tordoff and Murray, ECCV 2002, 82).</summary>
    private static int Pick(List<int> quarter, IReadOnlyList<Match> matches, Random dice)
    {
        var left = dice.NextDouble() * quarter.Sum(i => matches[i].Precision);
        foreach (var i in quarter)
            if ((left -= matches[i].Precision) <= 0) return i;
        return quarter[^1];
    }

    /// <summary>Matches of each quarter about the middle, so that samples span the picture.</summary>
    private static List<int>[] Quarters(IReadOnlyList<Match> matches)
    {
        var (x, y) = (matches.Average(m => m.Target.X), matches.Average(m => m.Target.Y));
        var quarters = new List<int>[] { [], [], [], [] };
        for (var i = 0; i < matches.Count; i++) quarters[(matches[i].Target.X > x ? 1 : 0) + (matches[i].Target.Y > y ? 2 : 0)].Add(i);
        return quarters;
    }

    private static Homography? Correction(int[] sample, IReadOnlyList<Match> matches, Point2[] placed)
    {
        try
        {
            return Homography.Fit([.. sample.Select(i => placed[i])], [.. sample.Select(i => matches[i].Target)]);
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    private static double Loss(IReadOnlyList<Match> matches, Point2[] placed, Homography? correction, double scale)
    {
        var sum = 0.0;
        for (var i = 0; i < placed.Length; i++)
        {
            var p = correction is { } c ? c.Apply(placed[i]) : placed[i];
            var m = matches[i];
            sum += MapFit.Loss(new Point2(p.X - m.Target.X, p.Y - m.Target.Y), m, scale);
        }
        return sum;
    }
}
