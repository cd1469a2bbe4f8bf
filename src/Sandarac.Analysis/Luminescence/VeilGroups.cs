using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Luminescence;

/// <summary>What later paint may lie over or under.</summary>
internal enum Veil
{
    /// <summary>The places do not fall into two groups.</summary>
    NotTold,

    /// <summary>Of two groups the one with hardly any luminescence left.</summary>
    Bare,

    /// <summary>Of two groups the one that luminesces more, as under a coat of varnish.</summary>
    Veiled,
}

/// <summary>
/// Tells later paint over all varnish from later paint under a coat: under one a veil of luminescence is left. How much a coat gives is not known, so nothing is said unless the places
/// themselves fall into two groups, far apart beside what they scatter.
/// </summary>
internal static class VeilGroups
{
    /// <summary>One group, spread evenly, is taken for two in at most so many of a hundred paintings.</summary>
    private const int Mistaken = 5;

    private const int Draws = 2000;

    /// <summary>Chance is reckoned for so many values at most; more of them lie less far apart by chance.</summary>
    private const int MostDrawn = 40;

    /// <summary>A group of one has no scatter of its own.</summary>
    private const int Fewest = 2;

    /// <summary>Luminescence left in the middle of each part over what varnish gives there: without leaked light, over (1 + R)/2; then grouped.</summary>
    /// <param name="light">Both photographs.</param>
    /// <param name="band">The varnish's band.</param>
    /// <param name="leak">Visible light in that band, as a share; 0 when unknown.</param>
    /// <param name="parts">The places.</param>
    public static IReadOnlyList<Veil> Of(ReducedLight light, int band, double leak, IReadOnlyList<DarkPart> parts)
    {
        var visible = light.Visible[light.Visible.Length == light.Glow.Length ? band : 0].Data;
        var glow = light.Glow[band].Data;
        return Split([.. parts.Select(p => Robust.Median(Middle(p, light.Glow[0].Width).Select(i => (glow[i] - leak * visible[i]) / (0.5 * (1 + visible[i])))))]);
    }

    /// <summary>Cuts sorted values where the two groups scatter least about their means (Fisher, Journal of the American Statistical Association 53 (1958) 789), and says so when they lie
    /// farther apart than the halves of so many evenly spread values do by chance.</summary>
    public static IReadOnlyList<Veil> Split(double[] values)
    {
        double[] sorted = [.. values.Order()];
        if (sorted.Length < 2 * Fewest) return [.. values.Select(_ => Veil.NotTold)];
        var cut = Cut(sorted);
        var told = Distance(sorted, cut) > ByChance(Math.Min(sorted.Length, MostDrawn));
        return [.. values.Select(v => !told ? Veil.NotTold : v < sorted[cut] ? Veil.Bare : Veil.Veiled)];
    }

    private static int Cut(double[] sorted) => Enumerable.Range(Fewest, sorted.Length - 2 * Fewest + 1).MinBy(c => Scatter(sorted[..c]) + Scatter(sorted[c..]));

    /// <summary>D of Ashman, Bird and Zepf, The Astronomical Journal 108 (1994) 2348.</summary>
    private static double Distance(double[] sorted, int cut)
    {
        var (low, high) = (sorted[..cut], sorted[cut..]);
        return Math.Sqrt(2) * (high.Average() - low.Average()) / Math.Sqrt(Scatter(low) / (low.Length - 1) + Scatter(high) / (high.Length - 1));
    }

    private static double ByChance(int count)
    {
        var random = new Random(count);
        return Robust.Quantile(Enumerable.Range(0, Draws).Select(_ =>
        {
            double[] sorted = [.. Enumerable.Range(0, count).Select(_ => random.NextDouble()).Order()];
            return Distance(sorted, Cut(sorted));
        }), 1 - Mistaken / 100.0);
    }

    private static double Scatter(double[] values)
    {
        var mean = values.Average();
        return values.Sum(v => (v - mean) * (v - mean));
    }

    /// <summary>A part's pixels with all their neighbours in it; all of them when there are none such.</summary>
    private static IReadOnlyList<int> Middle(DarkPart part, int width)
    {
        var inside = part.Pixels.ToHashSet();
        int[] middle = [.. part.Pixels.Where(i => Array.TrueForAll(DarkParts.Beside(i, width), inside.Contains))];
        return middle.Length > 0 ? middle : part.Pixels;
    }
}
