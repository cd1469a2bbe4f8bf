using System.Runtime.Intrinsics;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Sections;

/// <summary>A part of a layer.</summary>
/// <param name="Layer">The layer's number, counted from 1 at the bottom.</param>
/// <param name="Letter">From a at the layer's bottom.</param>
/// <param name="Upper">Its upper boundary.</param>
/// <param name="Lower">Its lower one.</param>
/// <param name="Look">Its look.</param>
internal sealed record Sublayer(int Layer, char Letter, Boundary Upper, Boundary Lower, LayerLook Look);

/// <summary>
/// Weak boundaries within layers: too little of a difference for a layer of its own, yet worth their description (minimum description length) and seen along most of the length. The bounds are ours.
/// </summary>
internal static class Sublayers
{
    /// <summary>A part is at least so many rows thick, and such a share of its layer.</summary>
    private const double LeastRows = 4, LeastShare = 0.15;

    /// <summary>Pieces of the section's length that are judged each by itself; in such a share of them at least half of the whole step is there.</summary>
    private const int Pieces = 12;

    private const double LeastAlong = 0.75, OfStep = 0.5;

    /// <summary>Rows at a layer's boundaries that are mixed with the next.</summary>
    private const int Mixed = 2;

    /// <summary>A section with the weak boundaries of each layer among the others, and which they are.</summary>
    /// <param name="section">The section.</param>
    /// <param name="leastDifference">Of layers, CIELAB: what differs by as much within one was taken out by a person, and is no sublayer either.</param>
    public static (SectionFinding Finding, int[] Weak)? Of(SectionFinding section, double leastDifference)
    {
        var (edges, weak) = (new List<int[]>(), new List<int>());
        for (var e = 0; e < section.Edges.Count; e++)
        {
            edges.Add(section.Edges[e]);
            if (e + 1 == section.Edges.Count) continue;
            foreach (var within in Within(section.Profiles, section.Edges[e], section.Edges[e + 1], leastDifference))
            {
                weak.Add(edges.Count);
                edges.Add(within);
            }
        }
        return weak.Count > 0 && SectionFinding.Of(section.Frame, section.Profiles, [section.Above(0), .. edges, section.Below(section.Edges.Count - 1)]) is { } finding
            ? (finding with { First = section.First, Last = section.Last }, [.. weak]) : null;
    }

    private static int[][] Within(Profiles profiles, int[] from, int[] to, double leastDifference)
    {
        int[] top = [.. from.Zip(to, (f, t) => Math.Min(f + Mixed, (f + t) / 2))], bottom = [.. from.Zip(to, (f, t) => Math.Max(t - Mixed, (f + t) / 2))];
        if (!IsThick(from, to, LeastRows + Mixed) || LayerSearch.SplitOnce(profiles, top, bottom) is not { } chain) return [];
        var parts = chain.Edges;
        for (var e = 1; e + 1 < parts.Length; e++)
            if (!IsThick(parts[e - 1], parts[e], LeastShare * Usual(from, to)) || !IsThick(parts[e], parts[e + 1], LeastShare * Usual(from, to)) || !RunsOn(profiles, chain, e)
                || profiles.Looks.Of(parts[e - 1], parts[e]).Difference(profiles.Looks.Of(parts[e], parts[e + 1])) >= leastDifference) return [];
        return parts[1..^1];
    }

    private static double Usual(int[] from, int[] to) => Robust.Median(from.Zip(to, (f, t) => (double)(t - f)));

    private static bool IsThick(int[] from, int[] to, double share) => Usual(from, to) >= Math.Max(LeastRows, share);

    /// <summary>Whether the step is there in most pieces of the length, not only in the mean of some.</summary>
    private static bool RunsOn(Profiles profiles, LayerChain.Fitted chain, int e)
    {
        var (a, b) = (chain.Models[e - 1].Mean, chain.Models[e].Mean);
        var step = Vector256.Create([.. Enumerable.Range(0, Vector256<float>.Count).Select(c => c < a.Length ? (float)(b[c] - a[c]) : 0)]);
        step /= Vector256.Sum(step * step);
        var there = 0;
        for (var piece = 0; piece < Pieces; piece++)
        {
            var (first, end) = (piece * profiles.Count / Pieces, (piece + 1) * profiles.Count / Pieces);
            if (Mean(profiles, step, chain.Edges[e], chain.Edges[e + 1], first, end) - Mean(profiles, step, chain.Edges[e - 1], chain.Edges[e], first, end) >= OfStep) there++;
        }
        return there >= LeastAlong * Pieces;
    }

    /// <summary>NaN where there are no rows, which is no step.</summary>
    private static double Mean(Profiles profiles, Vector256<float> step, int[] from, int[] to, int first, int end)
    {
        var (sum, count) = (0.0, 0);
        for (var p = first; p < end; p++)
            for (var i = p * profiles.Rows + from[p]; i < p * profiles.Rows + to[p]; i++)
                if (profiles.Known[i]) (sum, count) = (sum + Vector256.Sum(profiles.Values[i] * step), count + 1);
        return sum / count;
    }
}
