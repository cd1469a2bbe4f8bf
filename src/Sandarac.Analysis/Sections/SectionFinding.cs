using Sandarac.Analysis.Numbers;
using Sandarac.Imaging.Colour;

namespace Sandarac.Analysis.Sections;

/// <summary>How a layer looks: means over all of it.</summary>
/// <param name="Mean">Mean of each channel, CIELAB.</param>
/// <param name="Deviation">Standard deviation of each channel.</param>
/// <param name="Light">Mean linear light in each image's bands.</param>
/// <param name="LightVariance">Its variance.</param>
internal sealed record LayerLook(double[] Mean, double[] Deviation, double[][] Light, double[][] LightVariance)
{
    /// <summary>CIELAB distance of the light that differs more, or of grey images the distance of lightness.</summary>
    public double Difference(LayerLook other) => Light.Zip(other.Light, (a, b) => Distance(Micrographs.Lab(a), Micrographs.Lab(b))).Max();

    /// <summary>The layer's colour in one of the images.</summary>
    public CieLab Lab(int image) => Micrographs.Lab(Light[image]);

    private static double Distance(CieLab a, CieLab b) => Math.Sqrt((a.L - b.L) * (a.L - b.L) + (a.A - b.A) * (a.A - b.A) + (a.B - b.B) * (a.B - b.B));
}

/// <summary>Layers found at the size at which they are looked for, resin above and below told apart.</summary>
/// <param name="Profiles">The profiles.</param>
/// <param name="Frame">Their frame.</param>
/// <param name="Edges">The boundaries from the surface down to the section's lower edge, rows of the profiles.</param>
/// <param name="Looks">Looks of what lies above the first boundary, of the layers from the top down, and of what lies below the last.</param>
/// <param name="First">First profile in which the section is.</param>
/// <param name="Last">Last profile in which it is.</param>
internal sealed record SectionFinding(Profiles Profiles, StrataFrame Frame, IReadOnlyList<int[]> Edges, IReadOnlyList<LayerLook> Looks, int First, int Last)
{
    /// <summary>Resin and resin differ by less, CIELAB; a bubble's state covers less than this share of the profiles.</summary>
    private const double ResinDifference = 8, BubbleCoverage = 0.35;

    /// <summary>Of a boundary's bends from profile to profile, rows, all but a fifth are no sharper than the one that stands for it; beyond so many times the others' it is none.</summary>
    private const double SharpBends = 0.8, ManyTimes = 4;

    /// <summary>Profiles in which the section is less than this share of its usual height lie beyond its ends.</summary>
    private const double LeastHeight = 0.5;

    /// <summary>The edge above a boundary, and the one below it; the profiles' first and last rows where there is none.</summary>
    public int[] Above(int boundary) => boundary == 0 ? new int[Profiles.Count] : Edges[boundary - 1];

    /// <inheritdoc cref="Above"/>
    public int[] Below(int boundary) => boundary == Edges.Count - 1 ? [.. Enumerable.Repeat(Profiles.Rows, Profiles.Count)] : Edges[boundary + 1];

    /// <summary>Layers, without what lies above and below.</summary>
    public int Layers => Edges.Count - 1;

    /// <summary>Median step of the boundaries from profile to profile, as a slope: strata run on, what is none jumps.</summary>
    public double Roughness => Robust.Median(Edges.SelectMany(e => Enumerable.Range(First, Math.Max(0, Last - First)).Select(p => Math.Abs(e[p + 1] - e[p]) / (double)Profiles.Bundle)));

    /// <summary>Joins what differs too little or is hardly there, and tells what is resin; null when nothing is left between it.</summary>
    public static SectionFinding? Of(StrataFrame frame, Profiles profiles, LayerChain.Fitted chain, double leastDifference, double leastCoverage)
    {
        List<int[]> edges = [.. chain.Edges];
        for (var joined = true; joined;)
        {
            joined = false;
            var looks = LooksOf(profiles, edges);
            var (edge, least) = (0, double.PositiveInfinity);
            for (var e = 1; e + 1 < edges.Count; e++)
                if (looks[e - 1].Difference(looks[e]) is var d && d < least) (edge, least) = (e, d);
            if (least < leastDifference) joined = Remove(edges, edge);
            else if (Enumerable.Range(1, Math.Max(0, edges.Count - 3)).FirstOrDefault(k => Coverage(edges, k) < leastCoverage) is > 0 and var rare)
                joined = Remove(edges, looks[rare - 1].Difference(looks[rare]) <= looks[rare].Difference(looks[rare + 1]) ? rare : rare + 1);
            else if (Roughest(edges) is { } rough) joined = Remove(edges, rough);
        }
        return edges.Count < 3 ? null : Within(frame, profiles, edges);
    }

    /// <summary>The boundary that bends many times as sharply as half of the others: it leads from grain to grain within a layer, strata run on. Null when there is none.</summary>
    private static int? Roughest(List<int[]> edges)
    {
        if (edges.Count < 6) return null;
        double[] bends = [.. edges.Skip(1).SkipLast(1).Select(e => Robust.Quantile(Enumerable.Range(1, e.Length - 2).Select(p => (double)Math.Abs(e[p + 1] - 2 * e[p] + e[p - 1])), SharpBends))];
        var most = Array.IndexOf(bends, bends.Max());
        return bends[most] > ManyTimes * Math.Max(1, Robust.Median(bends)) ? most + 1 : null;
    }

    /// <summary>The finding for given boundaries, all of them the section's.</summary>
    public static SectionFinding? Of(StrataFrame frame, Profiles profiles, int[][] edges)
    {
        if (edges.Length < 4) return null;
        var (first, last) = Ends(edges[1], edges[^2]);
        return first < 0 ? null : new SectionFinding(profiles, frame, edges[1..^1], LooksOf(profiles, edges), first, last);
    }

    private static bool Remove(List<int[]> edges, int edge)
    {
        edges.RemoveAt(edge);
        return true;
    }

    private static double Coverage(List<int[]> edges, int k) => edges[k].Where((e, p) => edges[k + 1][p] - e >= 2).Count() / (double)edges[k].Length;

    /// <summary>States alike the outermost one on their side are resin, and with them what lies between and covers little: bubbles.</summary>
    private static SectionFinding? Within(StrataFrame frame, Profiles profiles, List<int[]> edges)
    {
        // A bubble at the border of the image is not what the section lies in.
        while (edges.Count > 3 && Coverage(edges, 0) < BubbleCoverage) edges.RemoveAt(1);
        while (edges.Count > 3 && Coverage(edges, edges.Count - 2) < BubbleCoverage) edges.RemoveAt(edges.Count - 2);
        var looks = LooksOf(profiles, edges);
        var (top, bottom) = (0, looks.Count - 1);
        for (var k = 1; k < looks.Count && (IsResin(looks[k], looks[0]) || Coverage(edges, k) < BubbleCoverage); k++)
            if (IsResin(looks[k], looks[0])) top = k;
        for (var k = looks.Count - 2; k > top && (IsResin(looks[k], looks[^1]) || Coverage(edges, k) < BubbleCoverage); k--)
            if (IsResin(looks[k], looks[^1])) bottom = k;
        if (bottom <= top + 1) return null;
        int[][] kept = [edges[0], .. edges[(top + 1)..(bottom + 1)], edges[^1]];
        return Of(frame, profiles, kept);
    }

    private static bool IsResin(LayerLook look, LayerLook resin) => look.Difference(resin) < ResinDifference;

    private static (int First, int Last) Ends(int[] top, int[] bottom)
    {
        var usual = Robust.Quantile(top.Zip(bottom, (t, b) => (double)(b - t)), 0.75);
        int[] there = [.. Enumerable.Range(0, top.Length).Where(p => bottom[p] - top[p] > Math.Max(1, LeastHeight * usual))];
        return there.Length < 4 ? (-1, -1) : (there[0], there[^1]);
    }

    private static List<LayerLook> LooksOf(Profiles profiles, IReadOnlyList<int[]> edges) => [.. Enumerable.Range(0, edges.Count - 1).Select(k => profiles.Looks.Of(edges[k], edges[k + 1]))];
}
