using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>
/// Basins of a plane: a watershed from the lowest value up. Where two basins meet, the shallower one is joined to the deeper when it is shallower than a depth (its
/// dynamics: Grimaud, SPIE 1769 (1992) 292; Vincent and Soille, IEEE PAMI 13 (1991) 583, from memory) or smaller than a size.
/// </summary>
internal static class Basins
{
    private const int Levels = 4096;

    /// <summary>Number of each pixel's basin, from 1 in the order of their first pixels; 0 without data.</summary>
    /// <param name="plane">Values, 0 or more; NaN is no data.</param>
    /// <param name="highest">Values above this count as this.</param>
    /// <param name="depth">Least depth of a basin of its own.</param>
    /// <param name="size">Least pixels of a basin of its own.</param>
    public static (int[] Labels, int Count) Of(Plane plane, double highest, double depth, int size)
    {
        var (order, level) = Ascending(plane, highest);
        var (labels, basins) = (new int[plane.Data.Length], new List<Basin> { default });
        var least = depth / highest * (Levels - 1);
        foreach (var i in order)
        {
            var best = 0;
            foreach (var n in Imaging.Geometry.ConnectedParts.Beside(i, plane.Width))
            {
                if (n < 0 || n >= labels.Length || labels[n] == 0) continue;
                var basin = Find(basins, labels[n]);
                if (best == 0) best = basin;
                else if (best != basin) best = Meet(basins, best, basin, level[i], least, size);
            }
            if (best == 0)
            {
                best = basins.Count;
                basins.Add(new Basin(best, level[i], 0));
            }
            labels[i] = best;
            basins[best] = basins[best] with { Pixels = basins[best].Pixels + 1 };
        }
        return Numbered(labels, basins);
    }

    /// <summary>Joins two basins unless both stand out; the deeper of the two either way.</summary>
    private static int Meet(List<Basin> basins, int a, int b, int saddle, double least, int size)
    {
        var (deep, shallow) = basins[a].Bottom <= basins[b].Bottom ? (a, b) : (b, a);
        var small = Math.Min(basins[a].Pixels, basins[b].Pixels) < size;
        if (!small && saddle - basins[shallow].Bottom >= least) return deep;
        basins[deep] = basins[deep] with { Pixels = basins[deep].Pixels + basins[shallow].Pixels };
        basins[shallow] = basins[shallow] with { Parent = deep };
        return deep;
    }

    private static int Find(List<Basin> basins, int label)
    {
        while (basins[label].Parent != label)
        {
            var up = basins[basins[label].Parent].Parent;
            basins[label] = basins[label] with { Parent = up };
            label = up;
        }
        return label;
    }

    /// <summary>Pixels with data by their level, equal ones in the image's order (counting sort).</summary>
    private static (int[] Order, int[] Level) Ascending(Plane plane, double highest)
    {
        var (level, starts) = (new int[plane.Data.Length], new int[Levels + 1]);
        for (var i = 0; i < level.Length; i++)
        {
            level[i] = float.IsNaN(plane.Data[i]) ? -1 : (int)(Math.Clamp(plane.Data[i] / highest, 0, 1) * (Levels - 1));
            if (level[i] >= 0) starts[level[i] + 1]++;
        }
        for (var k = 1; k < starts.Length; k++) starts[k] += starts[k - 1];
        var order = new int[starts[^1]];
        for (var i = 0; i < level.Length; i++)
            if (level[i] >= 0) order[starts[level[i]]++] = i;
        return (order, level);
    }

    private static (int[], int) Numbered(int[] labels, List<Basin> basins)
    {
        var (numbers, count) = (new int[basins.Count], 0);
        for (var i = 0; i < labels.Length; i++)
        {
            if (labels[i] == 0) continue;
            var basin = Find(basins, labels[i]);
            if (numbers[basin] == 0) numbers[basin] = ++count;
            labels[i] = numbers[basin];
        }
        return (labels, count);
    }

    private readonly record struct Basin(int Parent, int Bottom, int Pixels);
}
