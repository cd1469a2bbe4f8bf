namespace Sandarac.Studio.BuildUp;

/// <summary>Gathers what is the same. R. Tarjan, Efficiency of a good but not linear set union algorithm, J. ACM 22 (1975) 215-225.</summary>
internal static class SameAs
{
    /// <summary>For each of <paramref name="count"/> numbers the smallest that it is the same as, by way of any number of pairs.</summary>
    public static int[] Groups(int count, IEnumerable<(int A, int B)> pairs)
    {
        var parent = Enumerable.Range(0, count).ToArray();
        int Root(int i)
        {
            while (parent[i] != i) i = parent[i] = parent[parent[i]];
            return i;
        }
        foreach (var (a, b) in pairs)
        {
            var (first, second) = (Root(a), Root(b));
            parent[Math.Max(first, second)] = Math.Min(first, second);
        }
        return [.. Enumerable.Range(0, count).Select(Root)];
    }
}
