using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>How far apart a stroke's furrows lie: the first crest of the autocorrelation of its height across the pull, averaged along it (Box and Jenkins, Time Series Analysis, 1970, for the autocorrelation; from memory).</summary>
internal static class FurrowSpacing
{
    /// <summary>Furrows nearer than this cannot be told from the pixels themselves, pixels.</summary>
    public const double Narrowest = 3;

    /// <summary>A crest below this is chance in a profile of some ten furrows (twice 1 / sqrt(40 places)).</summary>
    private const double LeastCrest = 0.3;

    /// <summary>Spacing in pixels; null when the stroke is too narrow for three furrows, or its height repeats itself at no distance.</summary>
    /// <param name="pixels">The stroke.</param>
    /// <param name="finer">Height without what is longer than the texture.</param>
    /// <param name="angle">The pull's direction, radians.</param>
    public static double? Of(IReadOnlyList<int> pixels, Plane finer, double angle)
    {
        var profile = Across(pixels, finer, angle);
        if (profile.Length < 3 * Narrowest) return null;
        var mean = profile.Average();
        for (var k = 0; k < profile.Length; k++) profile[k] -= mean;
        var all = profile.Sum(v => v * v);
        if (!(all > 0)) return null;
        double Alike(int lag) => Enumerable.Range(0, profile.Length - lag).Sum(k => profile[k] * profile[k + lag]) / all;
        double[] alike = [.. Enumerable.Range(0, profile.Length / 2 + 1).Select(Alike)];
        var crossing = Array.FindIndex(alike, a => a < 0);
        if (crossing < 0) return null;
        for (var k = crossing + 1; k + 1 < alike.Length; k++)
        {
            if (!(alike[k] >= LeastCrest && alike[k] > alike[k - 1] && alike[k] >= alike[k + 1])) continue;
            // The crest of the parabola through three places.
            var at = k + 0.5 * (alike[k - 1] - alike[k + 1]) / (alike[k - 1] - 2 * alike[k] + alike[k + 1]);
            return at >= Narrowest ? at : null;
        }
        return null;
    }

    /// <summary>Mean height by the distance across, without places that few pixels have.</summary>
    private static double[] Across(IReadOnlyList<int> pixels, Plane finer, double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        var places = pixels.Where(i => float.IsFinite(finer.Data[i])).Select(i => (At: (int)Math.Floor(-(i % finer.Width) * sin + i / finer.Width * cos), Height: finer.Data[i])).GroupBy(p => p.At).OrderBy(g => g.Key).ToList();
        if (places.Count == 0) return [];
        var most = places.Max(g => g.Count());
        return [.. places.Where(g => 4 * g.Count() >= most).Select(g => g.Average(p => (double)p.Height))];
    }
}
