namespace Sandarac.Analysis.Sections.Particles;

/// <summary>Places the rims of grains where the light is half-way between the medium's and each grain's own: there a blurred rim really lies, whatever scale of lightness told grain from medium.</summary>
internal static class GrainRims
{
    /// <summary>Rings by which a grain may grow.</summary>
    private const int Rings = 1;

    /// <summary>The core of a grain: as far from its rim as half its deepest place.</summary>
    private const double Core = 0.25;

    /// <summary>Moves the rims: pixels leave a grain, or join one that they touch.</summary>
    /// <param name="labels">Grains numbered from 1; changed.</param>
    /// <param name="count">How many.</param>
    /// <param name="depth">Squared distances to the rims as they are.</param>
    /// <param name="area">Where grains may lie.</param>
    /// <param name="mask">Pixels of grains as they are.</param>
    /// <param name="light">Linear light, slightly smoothed.</param>
    /// <param name="width">Columns.</param>
    public static void Place(int[] labels, int count, int[] depth, bool[] area, bool[] mask, float[][] light, int width)
    {
        if (HalfWay.Of(labels, count, depth, area, mask, light) is not { } half) return;
        for (var i = 0; i < labels.Length; i++)
            if (labels[i] > 0 && !half.IsReached(i, labels[i])) labels[i] = 0;
        for (var ring = 0; ring < Rings; ring++)
        {
            var before = (int[])labels.Clone();
            var height = labels.Length / width;
            Parallel.For(0, height, y =>
            {
                for (var x = 0; x < width; x++)
                {
                    var i = y * width + x;
                    if (before[i] > 0 || !area[i]) continue;
                    labels[i] = x > 0 && half.IsReached(i, before[i - 1]) ? before[i - 1]
                        : x + 1 < width && half.IsReached(i, before[i + 1]) ? before[i + 1]
                        : y > 0 && half.IsReached(i, before[i - width]) ? before[i - width]
                        : y + 1 < height && half.IsReached(i, before[i + width]) ? before[i + width] : 0;
                }
            });
        }
    }

    /// <summary>Where light lies half-way from the medium's to each grain's.</summary>
    /// <param name="Light">Linear light.</param>
    /// <param name="Step">From the medium's light to each grain's, band by band.</param>
    /// <param name="Least">The half-way place along each step.</param>
    private sealed record HalfWay(float[][] Light, double[] Step, double[] Least)
    {
        /// <summary>Null where no medium is seen.</summary>
        public static HalfWay? Of(int[] labels, int count, int[] depth, bool[] area, bool[] mask, float[][] light)
        {
            var (bands, deepest) = (light.Length, new int[count + 1]);
            for (var i = 0; i < labels.Length; i++) deepest[labels[i]] = Math.Max(deepest[labels[i]], depth[i]);
            var (core, number) = (new double[(count + 1) * bands], new int[count + 1]);
            for (var i = 0; i < labels.Length; i++)
            {
                // Number 0 gathers the medium.
                if (labels[i] == 0 ? !area[i] || mask[i] : depth[i] < Core * deepest[labels[i]]) continue;
                number[labels[i]]++;
                for (var b = 0; b < bands; b++) core[labels[i] * bands + b] += light[b][i];
            }
            if (number[0] == 0) return null;
            for (var k = 0; k < core.Length; k++) core[k] /= Math.Max(1, number[k / bands]);
            var (step, least) = (new double[core.Length], new double[count + 1]);
            for (var k = bands; k < core.Length; k++)
            {
                step[k] = core[k] - core[k % bands];
                least[k / bands] += step[k] * (core[k] + core[k % bands]) / 2;
            }
            return new HalfWay(light, step, least);
        }

        /// <summary>Whether a pixel's light lies on a grain's side; of number 0 never.</summary>
        public bool IsReached(int pixel, int label)
        {
            if (label == 0) return false;
            var along = 0.0;
            for (var b = 0; b < Light.Length; b++) along += Light[b][pixel] * Step[label * Light.Length + b];
            return along >= Least[label];
        }
    }
}
