namespace Sandarac.Analysis.Sections.Particles;

/// <summary>
/// Splits touching grains: a watershed of the distance to the grains' rims whose markers are the maxima that rise far enough above the saddle to a higher one (their
/// dynamics: Grimaud, SPIE 1769 (1992) 292; Vincent and Soille, IEEE PAMI 13 (1991) 583, from memory). Pixels are taken from the greatest distance down; where two
/// grains meet, the lower one is joined to the higher one when it does not stand out.
/// </summary>
internal static class GrainSplitting
{
    /// <summary>A grain's middle stands out when it is deeper than its neck by this share of its own depth, and by so many pixels.</summary>
    private const double LeastShare = 0.15, LeastRise = 0.75;

    /// <summary>Grains numbered from 1 in the order of their first pixels, 0 elsewhere; and how many there are.</summary>
    /// <param name="squared">Squared distances from <see cref="DistanceMap"/>.</param>
    /// <param name="width">Columns.</param>
    public static (int[] Labels, int Count) Split(int[] squared, int width)
    {
        var order = Descending(squared);
        var labels = new int[squared.Length];
        var (parent, peak) = (new List<int> { 0 }, new List<int> { 0 });
        ReadOnlySpan<int> beside = [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1];
        foreach (var i in order)
        {
            // A pixel belongs to the grain of its deepest neighbour.
            var (x, best, deepest) = (i % width, 0, 0);
            foreach (var step in beside)
            {
                var n = i + step;
                if ((uint)n >= (uint)labels.Length || Math.Abs(n % width - x) > 1 || labels[n] == 0) continue;
                var label = Find(parent, labels[n]);
                var other = best;
                if (squared[n] > deepest) (best, deepest) = (label, squared[n]);
                if (other != 0 && other != label && Joined(parent, peak, other, label, squared[i]) is { } one) best = one;
            }
            if (best == 0)
            {
                best = parent.Count;
                parent.Add(best);
                peak.Add(squared[i]);
            }
            labels[i] = best;
        }
        return Numbered(labels, parent);
    }

    /// <summary>Makes the lower of two grains that meet part of the higher one, unless it stands out.</summary>
    private static int? Joined(List<int> parent, List<int> peak, int a, int b, int saddle)
    {
        var (high, low) = peak[a] >= peak[b] ? (a, b) : (b, a);
        var depth = Math.Sqrt(peak[low]);
        if (depth - Math.Sqrt(saddle) >= Math.Max(LeastRise, LeastShare * depth)) return null;
        parent[low] = high;
        return high;
    }

    private static int Find(List<int> parent, int label)
    {
        while (parent[label] != label) label = parent[label] = parent[parent[label]];
        return label;
    }

    /// <summary>Pixels of the grains by their distance, the greatest first; equal ones in the image's order.</summary>
    private static int[] Descending(int[] squared)
    {
        var most = 0;
        foreach (var d in squared) most = Math.Max(most, d);
        var starts = new int[most + 2];
        foreach (var d in squared)
            if (d > 0) starts[most - d + 1]++;
        for (var k = 1; k < starts.Length; k++) starts[k] += starts[k - 1];
        var order = new int[starts[^1]];
        for (var i = 0; i < squared.Length; i++)
            if (squared[i] > 0) order[starts[most - squared[i]]++] = i;
        return order;
    }

    private static (int[], int) Numbered(int[] labels, List<int> parent)
    {
        var (numbers, count) = (new int[parent.Count], 0);
        for (var i = 0; i < labels.Length; i++)
        {
            if (labels[i] == 0) continue;
            var label = Find(parent, labels[i]);
            if (numbers[label] == 0) numbers[label] = ++count;
            labels[i] = numbers[label];
        }
        return (labels, count);
    }
}
