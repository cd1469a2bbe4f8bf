using Sandarac.Imaging;

namespace Sandarac.Analysis.Sections.Particles;

/// <summary>The grains of an area.</summary>
/// <param name="Labels">Grains numbered from 1 in the window.</param>
/// <param name="Grains">The grains.</param>
/// <param name="AreaPixels">Pixels of the area.</param>
internal sealed record LayerGrains(int[] Labels, IReadOnlyList<MeasuredGrain> Grains, int AreaPixels)
{
    private const int Taps = 2;

    /// <summary>Finds and measures grains; null when nothing stands out of the area.</summary>
    /// <param name="light">Linear light of a window, one plane or three.</param>
    /// <param name="area">The area in it.</param>
    /// <param name="leastDiameter">Smaller grains are left out, pixels.</param>
    /// <param name="workers">Threads; null for all.</param>
    public static LayerGrains? Of(Plane[] light, bool[] area, double leastDiameter, ParallelOptions? workers = null)
    {
        var (width, height) = (light[0].Width, light[0].Height);
        float[][] channels = [.. Micrographs.ToChannels(light, workers ?? new ParallelOptions()).Select(c => Smoothed(c, width, height))];
        if (GrainContrast.Grains(channels, area, width) is not { } mask) return null;
        var depth = DistanceMap.Of(mask, width, height);
        var (labels, count) = GrainSplitting.Split(depth, width);
        GrainRims.Place(labels, count, depth, area, mask, [.. light.Select(b => Smoothed(b.Data, width, height))], width);
        var all = MeasuredGrain.Of(labels, count, area, light);
        var numbers = new int[count + 1];
        var kept = new List<MeasuredGrain>();
        foreach (var (i, grain) in all.Index())
        {
            if (grain.Diameter < leastDiameter) continue;
            kept.Add(grain);
            numbers[i + 1] = kept.Count;
        }
        for (var i = 0; i < labels.Length; i++) labels[i] = numbers[labels[i]];
        return new LayerGrains(labels, kept, area.Count(a => a));
    }

    /// <summary>Grains by the name of their colour, the most area first.</summary>
    public IEnumerable<IGrouping<string, MeasuredGrain>> ByColour() => Grains.GroupBy(ColourOf).OrderByDescending(g => g.Sum(p => p.Area));

    private static string ColourOf(MeasuredGrain grain) => Micrographs.Named(grain.Light)?.Hue ?? "no colour";

    /// <summary>The binomial 1 4 6 4 1 each way: about a Gaussian of one pixel.</summary>
    private static float[] Smoothed(float[] from, int width, int height)
    {
        var (across, down) = (new float[from.Length], new float[from.Length]);
        Parallel.For(0, height, y =>
        {
            for (var x = 0; x < width; x++)
            {
                int At(int dx) => y * width + Math.Clamp(x + dx, 0, width - 1);
                across[y * width + x] = x >= Taps && x < width - Taps ? Binomial(from, y * width + x, 1) : (from[At(-2)] + from[At(2)] + 4 * (from[At(-1)] + from[At(1)]) + 6 * from[At(0)]) / 16;
            }
        });
        Parallel.For(0, height, y =>
        {
            for (var x = 0; x < width; x++)
            {
                int At(int dy) => Math.Clamp(y + dy, 0, height - 1) * width + x;
                down[y * width + x] = y >= Taps && y < height - Taps ? Binomial(across, y * width + x, width) : (across[At(-2)] + across[At(2)] + 4 * (across[At(-1)] + across[At(1)]) + 6 * across[At(0)]) / 16;
            }
        });
        return down;
    }

    private static float Binomial(float[] v, int i, int step) => (v[i - 2 * step] + v[i + 2 * step] + 4 * (v[i - step] + v[i + step]) + 6 * v[i]) / 16;
}
