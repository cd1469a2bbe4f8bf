namespace Sandarac.Imaging.Geometry;

/// <summary>Parts of a mask that hang together by their sides (4-neighbours).</summary>
public static class ConnectedParts
{
    /// <summary>The parts, by their first pixels; each as its pixels' indices, row by row.</summary>
    /// <param name="mask">The mask, row by row; left as it is.</param>
    /// <param name="width">Its columns.</param>
    public static IEnumerable<IReadOnlyList<int>> Of(bool[] mask, int width)
    {
        var left = (bool[])mask.Clone();
        for (var from = 0; from < left.Length; from++)
            if (left[from]) yield return Take(left, from, width);
    }

    /// <summary>The four pixels beside one by their sides; beyond the plane's sides -1, above and below it no pixel's index either.</summary>
    public static int[] Beside(int pixel, int width) => [pixel % width > 0 ? pixel - 1 : -1, pixel % width < width - 1 ? pixel + 1 : -1, pixel - width, pixel + width];

    private static List<int> Take(bool[] left, int from, int width)
    {
        var (part, open) = (new List<int>(), new Stack<int>([from]));
        left[from] = false;
        while (open.TryPop(out var i))
        {
            part.Add(i);
            foreach (var n in Beside(i, width))
            {
                if (n < 0 || n >= left.Length || !left[n]) continue;
                left[n] = false;
                open.Push(n);
            }
        }
        part.Sort();
        return part;
    }
}
