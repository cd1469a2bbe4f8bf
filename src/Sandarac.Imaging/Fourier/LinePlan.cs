using System.Collections.Concurrent;

namespace Sandarac.Imaging.Fourier;

/// <summary>A forward transform of one length, prepared once and run on <see cref="Lane.Count"/> lines side by side. Immutable.</summary>
internal abstract unsafe class LinePlan
{
    /// <summary>Plans are small and quick to make; this only keeps a server from collecting every length it ever saw.</summary>
    private const int KeptPlans = 64;

    private static readonly ConcurrentDictionary<int, LinePlan> Kept = new();

    /// <summary>Samples in a line.</summary>
    public required int Length { get; init; }

    /// <summary>Samples that each of the two work buffers must hold.</summary>
    public abstract int Room { get; }

    /// <summary>Transforms the samples in <paramref name="a"/>, with <paramref name="b"/> as work space; both are overwritten.</summary>
    /// <returns>Whichever of the two holds the result.</returns>
    public abstract Lane* Run(Lane* a, Lane* b);

    /// <summary>The plan for a length: mixed radix when its prime factors are 2, 3, 5 and 7, else Bluestein's.</summary>
    public static LinePlan For(int length)
    {
        if (Kept.TryGetValue(length, out var plan)) return plan;
        if (Kept.Count >= KeptPlans) Kept.Clear();
        return Kept.GetOrAdd(length, Make);
    }

    private static LinePlan Make(int length) =>
        FastLength.IsFast(length) ? new MixedRadixPlan(length) : new BluesteinPlan(length);
}
