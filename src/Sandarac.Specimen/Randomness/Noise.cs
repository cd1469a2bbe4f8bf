using System.Runtime.CompilerServices;

namespace Sandarac.Specimen.Randomness;

/// <summary>Smooth random fields: value noise on an integer lattice with quintic fade (K. Perlin, Improving Noise, SIGGRAPH 2002, for the
/// fade).</summary>
internal static class Noise
{
    /// <summary>Value noise in [-1, 1], lattice spacing 1.</summary>
    public static float At(int stream, float x, float y)
    {
        var (ix, iy) = (FloorOf(x), FloorOf(y));
        var (fx, fy) = (Fade(x - ix), Fade(y - iy));
        var top = Lerp(Hash.Uniform(stream, ix, iy), Hash.Uniform(stream, ix + 1, iy), fx);
        var low = Lerp(Hash.Uniform(stream, ix, iy + 1), Hash.Uniform(stream, ix + 1, iy + 1), fx);
        return 2 * Lerp(top, low, fy) - 1;
    }

    /// <summary>Value noise along a line, in [-1, 1], for item <paramref name="row"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static float Along(int stream, int row, float x)
    {
        var ix = FloorOf(x);
        return 2 * Lerp(Hash.Uniform(stream, row, ix), Hash.Uniform(stream, row, ix + 1), Fade(x - ix)) - 1;
    }

    /// <summary>Octaves of value noise, each half as large and twice as fine; about [-1, 1].</summary>
    public static float Fractal(int stream, float x, float y, int octaves)
    {
        float sum = 0, weight = 0, amplitude = 1;
        for (var o = 0; o < octaves; o++)
        {
            sum += amplitude * At(stream + o * 7919, x, y);
            weight += amplitude;
            amplitude *= 0.5f;
            (x, y) = (x * 2 + 17.3f, y * 2 + 9.1f);
        }
        return sum / weight;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int FloorOf(float x)
    {
        var i = (int)x;
        return x < i ? i - 1 : i;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static float Fade(float t) => t * t * t * (t * (t * 6 - 15) + 10);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static float Lerp(float a, float b, float t) => a + (b - a) * t;
}

/// <summary>Small shaping functions.</summary>
internal static class Shape
{
    /// <summary>0 below <paramref name="low"/>, 1 above <paramref name="high"/>, smooth between.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static float Step(float low, float high, float x)
    {
        var t = Math.Clamp((x - low) / (high - low), 0, 1);
        return t * t * (3 - 2 * t);
    }
}
