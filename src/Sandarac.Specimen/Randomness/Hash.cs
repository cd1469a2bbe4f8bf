using System.Runtime.CompilerServices;

namespace Sandarac.Specimen.Randomness;

/// <summary>
/// Counter-based random numbers: a value is a hash of where it is used, so that it depends on neither order nor threads.
/// Mixing function: the finaliser of MurmurHash3 (A. Appleby, public domain), 64-bit variant.
/// </summary>
internal static class Hash
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static ulong Mix(ulong x)
    {
        x = (x ^ (x >> 33)) * 0xff51afd7ed558ccdUL;
        x = (x ^ (x >> 33)) * 0xc4ceb9fe1a85ec53UL;
        return x ^ (x >> 33);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static ulong Of(int stream, int a, int b) =>
        Mix((ulong)(uint)a * 0x9E3779B97F4A7C15UL + (ulong)(uint)b * 0xC2B2AE3D27D4EB4FUL + (ulong)(uint)stream * 0x165667B19E3779F9UL);

    /// <summary>Uniform in [0, 1), 24 bits.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static float Uniform(int stream, int a, int b) => (Of(stream, a, b) >> 40) * (1f / 16777216f);

    /// <summary>Mean 0, standard deviation 1: sum of four 16-bit uniforms (Irwin-Hall), bounded at 3.46.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static float Bell(ulong hash)
    {
        var sum = (int)(hash & 0xffff) + (int)(hash >> 16 & 0xffff) + (int)(hash >> 32 & 0xffff) + (int)(hash >> 48);
        return (sum - 131070) * (1.7320508f / 65536f);
    }
}

/// <summary>A run of random numbers for one purpose: the n-th is a hash of (stream, n).</summary>
internal struct Dice(int stream, int purpose)
{
    private int _n;

    /// <summary>Uniform in [0, 1).</summary>
    public double Next() => Hash.Uniform(stream, purpose, _n++);

    /// <summary>Uniform between two ends.</summary>
    public double Between(double low, double high) => low + (high - low) * Next();

    /// <summary>Bell-shaped with this mean and standard deviation.</summary>
    public double Bell(double mean, double sd) => mean + sd * Hash.Bell(Hash.Of(stream, purpose, _n++));

    /// <summary>A whole number in [0, count).</summary>
    public int Pick(int count) => (int)(Next() * count);
}
