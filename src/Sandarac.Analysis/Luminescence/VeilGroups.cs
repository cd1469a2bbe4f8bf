using Sandarac.Analysis.Numbers;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Luminescence;

/// <summary>What later paint may lie over or under.</summary>
internal enum Veil
{
    /// <summary>The places do not fall into two groups.</summary>
    NotTold,

    /// <summary>Of two groups the one whose luminescence has less of the varnish's colour.</summary>
    Bare,

    /// <summary>Of two groups the one whose luminescence has more of the varnish's colour, as under a coat.</summary>
    Veiled,
}

/// <summary>
/// Tells later paint over all varnish from later paint under a coat: under one a veil of the varnish's luminescence is left. How much a coat gives is not known, so nothing is said unless the
/// places themselves fall into two groups by the colour of what is left, far apart beside what they scatter.
/// </summary>
internal static class VeilGroups
{
    /// <summary>One group, spread evenly, is taken for two in at most so many of a hundred paintings.</summary>
    private const int Mistaken = 5;

    private const int Draws = 2000;

    /// <summary>Chance is reckoned for so many values at most; more of them lie less far apart by chance.</summary>
    private const int MostDrawn = 40;

    /// <summary>Luminescence so faint, of a board's or of full scale, has no colour.</summary>
    private const double Faintest = 0.003;

    /// <summary>A group of one has no scatter of its own.</summary>
    private const int Fewest = 2;

    /// <summary>The share that the varnish's band has of the luminescence left in the middle of each part, leaked light taken away; then grouped, large parts weighing more. Shares, not
    /// amounts: how much is left follows the paint beneath and around, of what colour it is follows what luminesces.</summary>
    /// <param name="light">Both photographs.</param>
    /// <param name="band">The varnish's band.</param>
    /// <param name="leaks">Visible light in each band of luminescence, as a share; 0 when unknown.</param>
    /// <param name="parts">The places.</param>
    public static IReadOnlyList<Veil> Of(ReducedLight light, int band, double[] leaks, IReadOnlyList<DarkPart> parts)
    {
        double Left(int b, int pixel) => Math.Max(0, light.Other[b].Data[pixel] - leaks[b] * light.Visible[light.Visible.Length == leaks.Length ? b : 0].Data[pixel]);
        // One band has no colour: the amount must do.
        double Share(int pixel) => leaks.Length == 1 ? Left(0, pixel) : Left(band, pixel) / (Faintest + Enumerable.Range(0, leaks.Length).Sum(b => Left(b, pixel)));
        return Split([.. parts.Select(p => (Robust.Median(Middle(p, light.Other[0].Width).Select(Share)), (double)p.Pixels.Count))]);
    }

    /// <summary>Cuts sorted values where the two groups deviate least from their medians, and says so when these lie farther apart, beside that deviation, than the halves of so many
    /// evenly spread values do by chance. Medians: one place that is no later paint at all must not hide the groups (clustering by medians: Bradley, Mangasarian and Street, Advances in
    /// Neural Information Processing Systems 9 (1997) 368).</summary>
    public static IReadOnlyList<Veil> Split((double Value, double Weight)[] values)
    {
        (double Value, double Weight)[] sorted = [.. values.OrderBy(v => v.Value)];
        if (sorted.Length < 2 * Fewest) return [.. values.Select(_ => Veil.NotTold)];
        var (cut, distance) = Cut(sorted);
        var told = distance > ByChance([.. values.Select(v => v.Weight).OrderDescending().Take(MostDrawn)]);
        return [.. values.Select(v => !told ? Veil.NotTold : v.Value < sorted[cut].Value ? Veil.Bare : Veil.Veiled)];
    }

    /// <summary>Where the second group begins, and the distance of the medians over the mean deviation from them.</summary>
    private static (int Cut, double Distance) Cut((double Value, double Weight)[] sorted)
    {
        var best = Enumerable.Range(Fewest, sorted.Length - 2 * Fewest + 1).Select(c => (Cut: c, Low: Deviation(sorted.AsSpan(0, c)), High: Deviation(sorted.AsSpan(c)))).MinBy(g => g.Low.Sum + g.High.Sum);
        return (best.Cut, (best.High.Median - best.Low.Median) / ((best.Low.Sum + best.High.Sum) / sorted.Sum(v => v.Weight)));
    }

    private static (double Median, double Sum) Deviation(ReadOnlySpan<(double Value, double Weight)> sorted)
    {
        var (total, below, sum, k) = (0.0, sorted[0].Weight, 0.0, 0);
        foreach (var (_, weight) in sorted) total += weight;
        while (below < total / 2) below += sorted[++k].Weight;
        foreach (var (value, weight) in sorted) sum += weight * Math.Abs(value - sorted[k].Value);
        return (sorted[k].Value, sum);
    }

    private static double ByChance(double[] weights)
    {
        var random = new Random(weights.Length);
        return Robust.Quantile(Enumerable.Range(0, Draws).Select(_ => Cut([.. weights.Select(w => (Value: random.NextDouble(), w)).OrderBy(v => v.Value)]).Distance), 1 - Mistaken / 100.0);
    }

    /// <summary>A part's pixels with all their neighbours in it; all of them when there are none such.</summary>
    private static IReadOnlyList<int> Middle(DarkPart part, int width)
    {
        var inside = part.Pixels.ToHashSet();
        int[] middle = [.. part.Pixels.Where(i => Array.TrueForAll(ConnectedParts.Beside(i, width), inside.Contains))];
        return middle.Length > 0 ? middle : part.Pixels;
    }
}
