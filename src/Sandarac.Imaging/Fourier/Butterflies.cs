using System.Runtime.CompilerServices;

namespace Sandarac.Imaging.Fourier;

/// <summary>
/// Transforms of length 2, 3, 4, 5 and 7, for all i of one k of a <see cref="RadixPass"/>: inputs <c>inner</c> apart, outputs
/// <c>step</c> apart, twiddles radix-1 for each i. At i = 0 all twiddles are 1 and are left out.
/// </summary>
/// <remarks>The odd ones use that samples j and r-j share cosines and have opposite sines (Winograd's pairing without his reduction of
/// products, which would cost accuracy).</remarks>
internal static unsafe class Butterflies
{
    public static void Two(Lane* from, Lane* to, int inner, int step, Twiddle* w)
    {
        for (var i = 0; i < inner; i++, from++, to++, w++)
        {
            var (a, b) = (from[0], from[inner]);
            to[0] = a + b;
            Put(to + step, a - b, w, i);
        }
    }

    public static void Three(Lane* from, Lane* to, int inner, int step, Twiddle* w)
    {
        for (var i = 0; i < inner; i++, from++, to++, w += 2)
        {
            var a = from[0];
            var (s, d) = Pair(from[inner], from[2 * inner]);
            var even = a + s * C3;
            var odd = (d * S3).TimesMinusI;
            to[0] = a + s;
            Put(to + step, even + odd, w, i);
            Put(to + 2 * step, even - odd, w + 1, i);
        }
    }

    public static void Four(Lane* from, Lane* to, int inner, int step, Twiddle* w)
    {
        for (var i = 0; i < inner; i++, from++, to++, w += 3)
        {
            var (s02, d02) = Pair(from[0], from[2 * inner]);
            var (s13, d13) = Pair(from[inner], from[3 * inner]);
            var odd = d13.TimesMinusI;
            to[0] = s02 + s13;
            Put(to + step, d02 + odd, w, i);
            Put(to + 2 * step, s02 - s13, w + 1, i);
            Put(to + 3 * step, d02 - odd, w + 2, i);
        }
    }

    public static void Five(Lane* from, Lane* to, int inner, int step, Twiddle* w)
    {
        for (var i = 0; i < inner; i++, from++, to++, w += 4)
        {
            var a = from[0];
            var (s1, d1) = Pair(from[inner], from[4 * inner]);
            var (s2, d2) = Pair(from[2 * inner], from[3 * inner]);
            var (even1, odd1) = (a + s1 * C51 + s2 * C52, (d1 * S51 + d2 * S52).TimesMinusI);
            var (even2, odd2) = (a + s1 * C52 + s2 * C51, (d1 * S52 - d2 * S51).TimesMinusI);
            to[0] = a + s1 + s2;
            Put(to + step, even1 + odd1, w, i);
            Put(to + 2 * step, even2 + odd2, w + 1, i);
            Put(to + 3 * step, even2 - odd2, w + 2, i);
            Put(to + 4 * step, even1 - odd1, w + 3, i);
        }
    }

    public static void Seven(Lane* from, Lane* to, int inner, int step, Twiddle* w)
    {
        for (var i = 0; i < inner; i++, from++, to++, w += 6)
        {
            var a = from[0];
            var (s1, d1) = Pair(from[inner], from[6 * inner]);
            var (s2, d2) = Pair(from[2 * inner], from[5 * inner]);
            var (s3, d3) = Pair(from[3 * inner], from[4 * inner]);
            var (even1, odd1) = (a + s1 * C71 + s2 * C72 + s3 * C73, (d1 * S71 + d2 * S72 + d3 * S73).TimesMinusI);
            var (even2, odd2) = (a + s1 * C72 + s2 * C73 + s3 * C71, (d1 * S72 - d2 * S73 - d3 * S71).TimesMinusI);
            var (even3, odd3) = (a + s1 * C73 + s2 * C71 + s3 * C72, (d1 * S73 - d2 * S71 + d3 * S72).TimesMinusI);
            to[0] = a + s1 + s2 + s3;
            Put(to + step, even1 + odd1, w, i);
            Put(to + 2 * step, even2 + odd2, w + 1, i);
            Put(to + 3 * step, even3 + odd3, w + 2, i);
            Put(to + 4 * step, even3 - odd3, w + 3, i);
            Put(to + 5 * step, even2 - odd2, w + 4, i);
            Put(to + 6 * step, even1 - odd1, w + 5, i);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Lane Sum, Lane Difference) Pair(Lane a, Lane b) => (a + b, a - b);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Put(Lane* to, Lane value, Twiddle* w, int i) => *to = i == 0 ? value : value.Times(*w);

    // cos and sin of 2 pi k / n, named by n and k.
    private const float C3 = -0.5f;
    private const float S3 = 0.86602540378443864676f;
    private const float C51 = 0.30901699437494742410f;
    private const float C52 = -0.80901699437494742410f;
    private const float S51 = 0.95105651629515357212f;
    private const float S52 = 0.58778525229247312917f;
    private const float C71 = 0.62348980185873353053f;
    private const float C72 = -0.22252093395631440429f;
    private const float C73 = -0.90096886790241912624f;
    private const float S71 = 0.78183148246802980871f;
    private const float S72 = 0.97492791218182360702f;
    private const float S73 = 0.43388373911755812048f;
}
