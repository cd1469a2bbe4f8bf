using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Alignment;

/// <summary>Finds where the surround ends on each side of a reduced picture.</summary>
/// <remarks>
/// From each border inward, the first few places where brightness changes more than it does in the surround are noted, row by row. The side is the
/// outermost straight line through many of them, found by voting over slope and position (Hough transform in slope-intercept form, Duda and Hart, Communications
/// of the ACM 15 (1972) 11): objects in the surround and weak passages of the side cost votes but do not move the line.
/// </remarks>
internal static class CoarseSides
{
    /// <summary>Steepest side, as depth over length: about 6 degrees.</summary>
    private const double MostSlope = 0.1;

    /// <summary>Changes noted in each row.</summary>
    private const int ChangesPerRow = 4;

    /// <summary>Share of the rows that must vote for a side.</summary>
    private const double LeastVotes = 0.3;

    /// <summary>A line further out wins when it has this share of the votes of the best.</summary>
    private const double OutermostShare = 0.7;

    /// <summary>A change as a multiple of the changes in the surround, in robust standard deviations above their median.</summary>
    private const double ChangeSigmas = 6;

    /// <summary>The curve of a side; null when no line has enough votes.</summary>
    /// <param name="change">Size of the change of brightness inward at each pixel.</param>
    /// <param name="frame">The side.</param>
    /// <param name="floor">Change below which nothing counts, whatever the surround.</param>
    public static SideCurve? Find(Plane change, SideFrame frame, double floor)
    {
        var points = Changes(change, frame, Math.Max(floor, Threshold(change, frame)));
        if (Vote(points, frame) is not { } line) return null;
        var near = points.Where(p => Math.Abs(p.Depth - line.At(p.Along)) <= 6).ToArray();
        return near.Length < 10 ? null : line.Fit(near, 0.5);
    }

    private static double Threshold(Plane change, SideFrame frame)
    {
        var ring = new List<double>();
        for (var a = 0; a < frame.Along; a++)
            for (var d = 2; d < 2 + Math.Max(3, frame.Depth / 60); d++) ring.Add(At(change, frame, a, d));
        return Robust.Median(ring) + ChangeSigmas * Robust.Sigma(ring);
    }

    private static float At(Plane change, SideFrame frame, int along, int depth)
    {
        var (x, y) = frame.Pixel(along, depth);
        return change[x, y];
    }

    private static List<(double Along, double Depth)> Changes(Plane change, SideFrame frame, double threshold)
    {
        var points = new List<(double, double)>();
        for (var a = 0; a < frame.Along; a++)
            for (int d = 3, n = 0; d < frame.Depth / 2 && n < ChangesPerRow; d++)
            {
                var (before, here, after) = (At(change, frame, a, d - 1), At(change, frame, a, d), At(change, frame, a, d + 1));
                if (here < threshold || here < before || here <= after) continue;
                points.Add((a + 0.5, d + 0.5 + Peak(before, here, after)));
                n++;
            }
        return points;
    }

    /// <summary>Where a parabola through three neighbouring values peaks, from the middle one, -0.5 to 0.5.</summary>
    internal static double Peak(double before, double here, double after) =>
        before - 2 * here + after is var curvature && curvature < 0 ? Math.Clamp(0.5 * (before - after) / curvature, -0.5, 0.5) : 0;

    private static SideCurve? Vote(List<(double Along, double Depth)> points, SideFrame frame)
    {
        const int slopes = 81;
        const double bin = 2;
        var bins = (int)(frame.Depth / 2 / bin) + 2;
        var votes = new int[slopes, bins];
        var last = new double[slopes, bins];
        foreach (var (along, depth) in points)
            for (var s = 0; s < slopes; s++)
            {
                var b = (int)((depth - Slope(s, slopes) * (along - frame.Along / 2.0)) / bin);
                // A row votes once for a line, and for both bins that its point may belong to.
                for (var k = b; k <= b + 1; k++)
                    if (k >= 0 && k < bins && last[s, k] != along) (last[s, k], votes[s, k]) = (along, votes[s, k] + 1);
            }
        var (best, side) = (0, default((int S, int B)?));
        foreach (var v in votes) best = Math.Max(best, v);
        if (best < LeastVotes * frame.Along) return null;
        for (var b = 0; b < bins && side is null; b++)
        {
            var s = Enumerable.Range(0, slopes).MaxBy(s => votes[s, b]);
            // Further in by one bin may fit better: the first bin that reaches the share is only the beginning of the peak.
            if (votes[s, b] >= OutermostShare * best) side = (Enumerable.Range(b, Math.Min(2, bins - b)).SelectMany(k => Enumerable.Range(0, slopes).Select(q => (S: q, B: k))).MaxBy(c => votes[c.S, c.B]));
        }
        var (slope, position) = (Slope(side!.Value.S, slopes), side.Value.B * bin);
        return new SideCurve(position, slope * frame.Along, 0, frame.Along);
    }

    private static double Slope(int index, int slopes) => MostSlope * (2.0 * index / (slopes - 1) - 1);
}
