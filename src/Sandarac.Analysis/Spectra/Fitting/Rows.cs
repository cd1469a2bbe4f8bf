using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Sandarac.Analysis.Spectra.Fitting;

/// <summary>Sums over rows, four numbers at a time whatever the processor has, and never fused: the same numbers on every machine.</summary>
internal static class Rows
{
    /// <summary>The sum of products of two rows of one length.</summary>
    public static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var fourA = MemoryMarshal.Cast<double, Vector256<double>>(a);
        var fourB = MemoryMarshal.Cast<double, Vector256<double>>(b[..a.Length]);
        var (even, odd) = (Vector256<double>.Zero, Vector256<double>.Zero);
        var i = 0;
        for (; i + 1 < fourA.Length; i += 2) (even, odd) = (even + fourA[i] * fourB[i], odd + fourA[i + 1] * fourB[i + 1]);
        if (i < fourA.Length) even += fourA[i] * fourB[i];
        var sum = Vector256.Sum(even + odd);
        for (i = 4 * fourA.Length; i < a.Length; i++) sum += a[i] * b[i];
        return sum;
    }

    /// <summary>Adds a multiple of a row, or of as much of it as the other is long, to another.</summary>
    public static void Add(Span<double> sum, double times, ReadOnlySpan<double> row)
    {
        var fourSum = MemoryMarshal.Cast<double, Vector256<double>>(sum);
        var fourRow = MemoryMarshal.Cast<double, Vector256<double>>(row[..sum.Length]);
        var four = Vector256.Create(times);
        for (var i = 0; i < fourSum.Length; i++) fourSum[i] += four * fourRow[i];
        for (var i = 4 * fourSum.Length; i < sum.Length; i++) sum[i] += times * row[i];
    }
}
