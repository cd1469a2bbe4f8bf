namespace Sandarac.Imaging.Fourier;

/// <summary>Lengths whose prime factors are 2, 3, 5 and 7: the ones that transform fastest. Others take about three
/// times as long, so whoever may choose a size (to pad a correlation) does well to choose one of these.</summary>
public static class FastLength
{
    /// <summary>Whether a length, at least 1, has no prime factor above 7.</summary>
    public static bool IsFast(int length)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(length, 1);
        foreach (var p in (ReadOnlySpan<int>)[2, 3, 5, 7])
            while (length % p == 0) length /= p;
        return length == 1;
    }

    /// <summary>The smallest fast length that is not below <paramref name="length"/>, which is at least 1 and at most 2^30.</summary>
    public static int AtLeast(int length)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(length, 1 << 30);
        while (!IsFast(length)) length++;
        return length;
    }
}
