using System.Numerics;
using System.Runtime.CompilerServices;

namespace Sandarac.Imaging.Fourier;

/// <summary>
/// One complex sample of several transforms at once: lane j belongs to the j-th transform. Real and imaginary parts lie side by side, one
/// cache line together on AVX2. Products are never fused with sums, so that every processor gives the same bits.
/// </summary>
internal readonly struct Lane(Vector<float> re, Vector<float> im)
{
    public readonly Vector<float> Re = re;
    public readonly Vector<float> Im = im;

    /// <summary>Transforms that run side by side.</summary>
    public static int Count => Vector<float>.Count;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane operator +(Lane a, Lane b) => new(a.Re + b.Re, a.Im + b.Im);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane operator -(Lane a, Lane b) => new(a.Re - b.Re, a.Im - b.Im);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane operator *(Lane a, float s) => new(a.Re * s, a.Im * s);

    /// <summary>The product with -i.</summary>
    public Lane TimesMinusI
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => new(Im, -Re);
    }

    /// <summary>Real and imaginary parts exchanged: a forward transform between two of these is an inverse one.</summary>
    public Lane Swapped
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => new(Im, Re);
    }

    /// <summary>The product with a complex constant.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Lane Times(Twiddle w)
    {
        var (c, s) = (new Vector<float>(w.Re), new Vector<float>(w.Im));
        return new(Re * c - Im * s, Re * s + Im * c);
    }
}

/// <summary>A complex constant, computed in double and rounded once.</summary>
internal readonly record struct Twiddle(float Re, float Im)
{
    /// <summary>exp(-2 pi i k / n).</summary>
    public static Twiddle Root(long k, long n)
    {
        var (sin, cos) = Math.SinCos(-2 * Math.PI * (k % n) / n);
        return new((float)cos, (float)sin);
    }
}
