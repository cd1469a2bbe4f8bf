using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Alignment;

/// <summary>Finds where the surround ends on each side of a reduced picture.</summary>
/// <remarks>
/// From each border inward, the first few places where brightness changes more than it does in the surround are noted, row by row. Straight lines through many of
/// them are found by voting over slope and position (Hough transform in slope-intercept form, Duda and Hart, Communications of the ACM 15 (1972) 11): objects in the
/// surround and weak passages of the side cost votes but do not move a line. The side is the outermost line with texture just inside it: the edge of a
/// cast shadow or of a mount has even ground on both sides.
/// </remarks>
internal static class CoarseSides
{
    /// <summary>Steepest side, as depth over length: about 6 degrees.</summary>
    private const double MostSlope = 0.1;

    /// <summary>Changes noted in each row.</summary>
    private const int ChangesPerRow = 4;

    /// <summary>Share of the rows that must vote for a side.</summary>
    private const double LeastVotes = 0.3;

    /// <summary>Lines with this share of the votes of the best are looked at.</summary>
    private const double CandidateShare = 0.7;

    /// <summary>Least share of the pixels just inside a side that change along it more than the surround does.</summary>
    private const double LeastTexture = 0.05;

    /// <summary>The same as a share of the liveliest strip's: a strip of thin, even paint beside a line within the picture is the painting's, one that is dead beside a lively one is a shadow or a mount.</summary>
    private const double LeastTextureShare = 0.25;

    /// <summary>Width of a bin of positions, pixels.</summary>
    private const double Bin = 2;

    private const int Slopes = 81;

    /// <summary>How far from the line changes are taken for the side's, pixels, fit after fit: first what the bins leave open and the bow of the lens, then less, so that strokes beside the side do not pull.</summary>
    private static readonly double[] Closing = [6, 3, 2];

    /// <summary>A change as a multiple of the changes in the surround, in robust standard deviations above their median.</summary>
    private const double ChangeSigmas = 6;

    /// <summary>The curve of a side; null when no line has enough votes.</summary>
    /// <param name="inward">Size of the change of brightness inward at each pixel.</param>
    /// <param name="sideways">Size of the change along the side at each pixel.</param>
    /// <param name="frame">The side.</param>
    /// <param name="floor">Change below which nothing counts, whatever the surround.</param>
    public static SideCurve? Find(Plane inward, Plane sideways, SideFrame frame, double floor)
    {
        var points = Changes(inward, frame, Math.Max(floor, Threshold(inward, frame)));
        var lines = Candidates(Votes(points, frame), frame);
        if (lines.Count == 0) return null;
        var limit = Math.Max(floor, Threshold(sideways, frame));
        double[] textures = [.. lines.Select((l, i) => Texture(sideways, frame, l, i + 1 < lines.Count ? lines[i + 1] : null, limit))];
        var least = Math.Max(LeastTexture, LeastTextureShare * textures.Max());
        var line = lines.Where((_, i) => textures[i] >= least).FirstOrDefault() ?? lines.MaxBy(l => Strength(inward, frame, l))!;
        foreach (var reach in Closing)
        {
            var near = points.Where(p => Math.Abs(p.Depth - line.At(p.Along)) <= reach).ToArray();
            if (near.Length < 10) return null;
            line = line.Fit(near, 0.5);
        }
        return line;
    }

    /// <summary>Share of the pixels between a line and the next one (3 % of the depth at most, 3 pixels kept from both) that change along the side.</summary>
    private static double Texture(Plane sideways, SideFrame frame, SideCurve line, SideCurve? next, double limit)
    {
        var (pixels, textured) = (0, 0);
        for (var a = frame.Along / 10; a < frame.Along * 9 / 10; a++)
        {
            var from = (int)Math.Max(0, line.At(a + 0.5) + 3);
            var to = Math.Min(from + Math.Max(4, frame.Depth * 3 / 100), next is null ? frame.Depth : (int)next.At(a + 0.5) - 3);
            for (var d = from; d < to; d++) (pixels, textured) = (pixels + 1, textured + (At(sideways, frame, a, d) > limit ? 1 : 0));
        }
        return pixels == 0 ? 0 : (double)textured / pixels;
    }

    private static double Strength(Plane inward, SideFrame frame, SideCurve line) => Robust.Median(Enumerable.Range(0, frame.Along)
        .Select(a => (Along: a, Depth: (int)line.At(a + 0.5))).Where(p => p.Depth >= 1 && p.Depth < frame.Depth - 1)
        .Select(p => (double)Math.Max(At(inward, frame, p.Along, p.Depth - 1), Math.Max(At(inward, frame, p.Along, p.Depth), At(inward, frame, p.Along, p.Depth + 1)))));

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

    private static int[,] Votes(List<(double Along, double Depth)> points, SideFrame frame)
    {
        var bins = (int)(frame.Depth / 2 / Bin) + 2;
        var votes = new int[Slopes, bins];
        var last = new double[Slopes, bins];
        foreach (var (along, depth) in points)
            for (var s = 0; s < Slopes; s++)
            {
                var b = (int)((depth - Slope(s) * (along - frame.Along / 2.0)) / Bin);
                // A row votes once for a line, and for both bins that its point may belong to.
                for (var k = b; k <= b + 1; k++)
                    if (k >= 0 && k < bins && last[s, k] != along) (last[s, k], votes[s, k]) = (along, votes[s, k] + 1);
            }
        return votes;
    }

    /// <summary>Lines with many votes, from the border inward, at least 8 pixels apart.</summary>
    private static List<SideCurve> Candidates(int[,] votes, SideFrame frame)
    {
        var lines = new List<SideCurve>();
        var best = votes.Cast<int>().Max();
        if (best < LeastVotes * frame.Along) return lines;
        for (var b = 0; b < votes.GetLength(1); b++)
        {
            if (!Enumerable.Range(0, Slopes).Any(s => votes[s, b] >= CandidateShare * best)) continue;
            // The first bin that reaches the share is only the beginning of the peak.
            var peak = Enumerable.Range(b, Math.Min(3, votes.GetLength(1) - b)).SelectMany(k => Enumerable.Range(0, Slopes).Select(s => (S: s, B: k))).MaxBy(c => votes[c.S, c.B]);
            lines.Add(new SideCurve(peak.B * Bin, Slope(peak.S) * frame.Along, 0, frame.Along));
            b = peak.B + 3;
        }
        return lines;
    }

    private static double Slope(int index) => MostSlope * (2.0 * index / (Slopes - 1) - 1);
}
