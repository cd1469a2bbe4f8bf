using System.Runtime.Intrinsics;

namespace Sandarac.Analysis.Sections;

/// <summary>How softly one layer goes over into the next and how far they stand out from their grains, at the size at which layers are looked for.</summary>
/// <param name="Width">From 10 to 90 % of the mean step, rows; where a layer is too thin to show as much, at least so many.</param>
/// <param name="Chance">Rows by which grains and noise may displace the boundary: the variance over the step's square, times the rows that a grain makes alike.</param>
internal readonly record struct Transition(double Width, double Chance)
{
    /// <summary>A place of the mean step is told from at least this share of the profiles.</summary>
    private const double Enough = 0.25;

    /// <summary>Of a boundary between two layers of a section.</summary>
    /// <param name="section">The section.</param>
    /// <param name="e">The boundary, from the surface down.</param>
    public static Transition Of(SectionFinding section, int e)
    {
        var profiles = section.Profiles;
        int[][] edges = [section.Above(e), section.Edges[e], section.Below(e)];
        if (LayerModel.Fit(profiles, edges[0], edges[1]) is not { } a || LayerModel.Fit(profiles, edges[1], edges[2]) is not { } b) return new Transition(double.NaN, double.PositiveInfinity);
        var alike = Description.Alike(profiles, new LayerChain.Fitted(edges, [a, b], 0), 0, 2).Rows;
        return new Transition(WidthOf(profiles, edges, a, b), alike / (profiles.Channels * a.Away(b)));
    }

    private static double WidthOf(Profiles profiles, int[][] edges, LayerModel a, LayerModel b)
    {
        var (sum, weight, reach) = (new double[2 * profiles.Rows + 1], new int[2 * profiles.Rows + 1], profiles.Rows);
        var step = Vector256.Create([.. Enumerable.Range(0, Vector256<float>.Count).Select(c => c < profiles.Channels ? (float)(b.Mean[c] - a.Mean[c]) : 0)]);
        var from = Vector256.Create([.. Enumerable.Range(0, Vector256<float>.Count).Select(c => c < profiles.Channels ? (float)a.Mean[c] : 0)]);
        step /= Vector256.Sum(step * step);
        for (var p = 0; p < profiles.Count; p++)
        {
            var middle = LayerSearch.Middle(edges[1], p, 2);
            for (var r = edges[0][p]; r < edges[2][p]; r++)
                if (profiles.Known[p * profiles.Rows + r]) (sum[r - middle + reach], weight[r - middle + reach]) = (sum[r - middle + reach] + Vector256.Sum((profiles.Values[p * profiles.Rows + r] - from) * step), weight[r - middle + reach] + 1);
        }
        int[] seen = [.. Enumerable.Range(0, sum.Length).Where(i => weight[i] >= Enough * profiles.Count)];
        double At(int i) => sum[i] / weight[i];
        if (seen.Length < 2) return double.NaN;
        var middleRow = seen.MinBy(i => Math.Abs(i - reach));
        // From the boundary outward: what a layer does farther off is its own.
        var (up, down) = (middleRow, middleRow);
        while (up > seen[0] && At(up) > 0.1) up--;
        while (down < seen[^1] && At(down) < 0.9) down++;
        return down - up;
    }
}
