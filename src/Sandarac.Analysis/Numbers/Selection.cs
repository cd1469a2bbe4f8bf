using System.Numerics;

namespace Sandarac.Analysis.Numbers;

/// <summary>Order statistics without sorting: the time grows as the number of values.</summary>
internal static class Selection
{
    /// <summary>
    /// Brings the value of a rank to its place, smaller ones before it and greater ones after it (quickselect: Hoare, Communications of the ACM 4 (1961) 321, from memory; pivot the median of three).
    /// NaN counts as smaller than every number, as <see cref="Array.Sort(Array)"/> has it.
    /// </summary>
    /// <param name="values">The values; their order changes.</param>
    /// <param name="rank">The rank, from 0 for the least.</param>
    public static T Select<T>(Span<T> values, int rank) where T : INumber<T>
    {
        var (from, to) = (NansFirst(values), values.Length - 1);
        if (rank < from) return values[rank];
        while (from < to)
        {
            var pivot = MedianOfThree(values[from], values[from + (to - from) / 2], values[to]);
            var (low, high) = (from, to);
            while (low <= high)
            {
                while (values[low] < pivot) low++;
                while (values[high] > pivot) high--;
                if (low > high) break;
                (values[low], values[high]) = (values[high], values[low]);
                low++;
                high--;
            }
            if (rank <= high) to = high;
            else if (rank >= low) from = low;
            else break;
        }
        return values[rank];
    }

    /// <summary>Median of values that may be reordered: of an even number the mean of the two in the middle; NaN of nothing.</summary>
    public static T Median<T>(Span<T> values) where T : IFloatingPointIeee754<T>
    {
        if (values.IsEmpty) return T.NaN;
        var upper = Select(values, values.Length / 2);
        return values.Length % 2 == 1 ? upper : (Greatest(values[..(values.Length / 2)]) + upper) / (T.One + T.One);
    }

    /// <summary>The greatest value; NaN only when all are.</summary>
    public static T Greatest<T>(ReadOnlySpan<T> values) where T : INumber<T>
    {
        var greatest = values[0];
        foreach (var value in values)
            if (value > greatest || T.IsNaN(greatest)) greatest = value;
        return greatest;
    }

    private static int NansFirst<T>(Span<T> values) where T : INumber<T>
    {
        var nans = 0;
        for (var i = 0; i < values.Length; i++)
            if (T.IsNaN(values[i])) (values[nans], values[i], nans) = (values[i], values[nans], nans + 1);
        return nans;
    }

    private static T MedianOfThree<T>(T a, T b, T c) where T : INumber<T>
    {
        if (a > b) (a, b) = (b, a);
        return c < a ? a : c > b ? b : c;
    }
}
