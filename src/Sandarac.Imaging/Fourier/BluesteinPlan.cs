using System.Diagnostics.CodeAnalysis;
using System.Numerics;
using MathNet.Numerics.IntegralTransforms;
using DoubleFourier = MathNet.Numerics.IntegralTransforms.Fourier;

namespace Sandarac.Imaging.Fourier;

/// <summary>
/// A transform of any length n, as a convolution with a chirp: since u k = (u^2 + k^2 - (u - k)^2) / 2, the transform is
/// c[u] sum over k of (x[k] c[k]) / c[u - k] with c[k] = exp(-i pi k^2 / n). The convolution runs at a fast length of at least 2 n - 1.
/// </summary>
/// <remarks>L. I. Bluestein, "A linear filtering approach to the computation of discrete Fourier transform", IEEE Transactions on Audio and
/// Electroacoustics 18 (1970) 451-455.</remarks>
internal sealed unsafe class BluesteinPlan : LinePlan
{
    private readonly LinePlan _inner;
    private readonly Twiddle[] _chirp;
    private readonly Twiddle[] _filter;

    [SetsRequiredMembers]
    public BluesteinPlan(int length)
    {
        Length = length;
        _inner = new MixedRadixPlan(FastLength.AtLeast(checked(2 * length - 1)));
        _chirp = new Twiddle[length];
        for (var k = 0; k < length; k++) _chirp[k] = Twiddle.Root((long)k * k, 2L * length);
        _filter = Filter(length, _inner.Length);
    }

    public override int Room => _inner.Length;

    public override Lane* Run(Lane* a, Lane* b)
    {
        for (var k = 0; k < Length; k++) a[k] = a[k].Times(_chirp[k]);
        new Span<Lane>(a + Length, Room - Length).Clear();
        var product = _inner.Run(a, b);
        for (var k = 0; k < Room; k++) product[k] = product[k].Times(_filter[k]).Swapped;
        var result = _inner.Run(product, product == a ? b : a);
        for (var k = 0; k < Length; k++) result[k] = result[k].Swapped.Times(_chirp[k]);
        return result;
    }

    /// <summary>The transform of 1/c, wrapped round the inner length and divided by it; in double, as its errors reach every
    /// value.</summary>
    private static Twiddle[] Filter(int length, int room)
    {
        var chirp = new Complex[room];
        for (long k = 0; k < length; k++)
        {
            var angle = Math.PI * (k * k % (2L * length)) / length;
            chirp[k] = Complex.FromPolarCoordinates(1.0 / room, angle);
            if (k > 0) chirp[room - k] = chirp[k];
        }
        DoubleFourier.Forward(chirp, FourierOptions.NoScaling);
        return Array.ConvertAll(chirp, c => new Twiddle((float)c.Real, (float)c.Imaginary));
    }
}
