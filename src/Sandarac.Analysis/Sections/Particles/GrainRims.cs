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
        if (number[0] == 0) return;
        for (var k = 0; k < core.Length; k++) core[k] /= Math.Max(1, number[k / bands]);
        bool IsLike(int i, int label)
        {
            double along = 0, length = 0;
            for (var b = 0; b < bands; b++)
            {
                var step = core[label * bands + b] - core[b];
                (along, length) = (along + (light[b][i] - core[b]) * step, length + step * step);
            }
            return 2 * along >= length;
        }

        for (var i = 0; i < labels.Length; i++)
            if (labels[i] > 0 && !IsLike(i, labels[i])) labels[i] = 0;
        ReadOnlySpan<int> beside = [-1, 1, -width, width];
        for (var ring = 0; ring < Rings; ring++)
        {
            var before = (int[])labels.Clone();
            for (var i = 0; i < labels.Length; i++)
            {
                if (before[i] > 0 || !area[i]) continue;
                foreach (var step in beside)
                {
                    var n = i + step;
                    if ((uint)n >= (uint)labels.Length || Math.Abs(n % width - i % width) > 1 || before[n] == 0 || !IsLike(i, before[n])) continue;
                    labels[i] = before[n];
                    break;
                }
            }
        }
    }
}
