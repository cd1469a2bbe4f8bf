using System.Diagnostics.CodeAnalysis;

namespace Sandarac.Imaging.Fourier;

/// <summary>
/// Stockham's self-sorting transform for lengths whose prime factors are 2, 3, 5 and 7: one pass a factor, from one buffer to the other,
/// with no reordering at the end.
/// </summary>
/// <remarks>P. N. Swarztrauber, "FFT algorithms for vector computers", Parallel Computing 1 (1984) 45-63.</remarks>
internal sealed unsafe class MixedRadixPlan : LinePlan
{
    private readonly RadixPass[] _passes;

    [SetsRequiredMembers]
    public MixedRadixPlan(int length)
    {
        Length = length;
        var factors = Factors(length);
        _passes = new RadixPass[factors.Count];
        for (int i = 0, outer = 1; i < factors.Count; outer *= factors[i++])
            _passes[i] = new RadixPass(factors[i], outer, length / outer / factors[i]);
    }

    public override int Room => Length;

    public override Lane* Run(Lane* a, Lane* b)
    {
        foreach (var pass in _passes)
        {
            pass.Run(a, b);
            var done = b;
            b = a;
            a = done;
        }
        return a;
    }

    /// <summary>The length as a product of 4 (as often as it goes), 2, 3, 5 and 7.</summary>
    private static List<int> Factors(int length)
    {
        var factors = new List<int>();
        foreach (var radix in (ReadOnlySpan<int>)[4, 2, 3, 5, 7])
            for (; length % radix == 0; length /= radix) factors.Add(radix);
        return factors;
    }
}
