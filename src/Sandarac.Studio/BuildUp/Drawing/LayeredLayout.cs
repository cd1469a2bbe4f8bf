namespace Sandarac.Studio.BuildUp.Drawing;

/// <summary>A link's way through a layered drawing: one place for each layer that it passes, from the lower end to the upper.</summary>
/// <param name="Link">Its number in the list given.</param>
/// <param name="Places">Middles: x in units of a box and its gap; layer, 0 at the bottom.</param>
public sealed record LinkWay(int Link, IReadOnlyList<(double X, int Layer)> Places);

/// <summary>Places boxes in layers so that links rise, cross little and bend little.</summary>
/// <remarks>The steps are those of K. Sugiyama, S. Tagawa, M. Toda, Methods for visual understanding of hierarchical system structures, IEEE Trans. SMC 11 (1981) 109-125.</remarks>
public sealed class LayeredLayout
{
    /// <summary>As many boxes as fit side by side on a screen, links that pass between them counted with the room they need; a build-up of many stages grows in height, where pages scroll.</summary>
    public const int MostInLayer = 7;

    private LayeredLayout(IReadOnlyList<(double, int)> boxes, IReadOnlyList<LinkWay> ways, int crossings) => (Boxes, Ways, Crossings) = (boxes, ways, crossings);

    /// <summary>Middle of each box: x in units of a box with its gap, the leftmost at 0; layer, 0 at the bottom.</summary>
    public IReadOnlyList<(double X, int Layer)> Boxes { get; }

    /// <summary>The links' ways.</summary>
    public IReadOnlyList<LinkWay> Ways { get; }

    /// <summary>How often two links cross between layers.</summary>
    public int Crossings { get; }

    /// <summary>Lays out boxes.</summary>
    /// <param name="count">How many; they are numbered from the bottom up.</param>
    /// <param name="links">Upper and lower box. A link whose upper end has the smaller number is drawn downwards.</param>
    /// <param name="isLowest">Which boxes stand in the lowest layer, alone there; all others may rise towards what lies over them.</param>
    public static LayeredLayout Of(int count, IReadOnlyList<(int Upper, int Lower)> links, Func<int, bool> isLowest)
    {
        var rising = links.Select(l => l.Upper > l.Lower ? l : (Upper: l.Lower, Lower: l.Upper)).ToList();
        var layer = Layers(count, rising, isLowest);
        List<int> levels = [.. layer];
        List<(int Upper, int Lower)> steps = [];
        List<List<int>> ways = [];
        foreach (var (upper, lower) in rising)
        {
            List<int> way = [lower];
            for (var l = layer[lower] + 1; l < layer[upper]; l++)
            {
                way.Add(levels.Count);
                levels.Add(l);
            }
            way.Add(upper);
            steps.AddRange(way.Zip(way.Skip(1), (a, b) => (b, a)));
            ways.Add(way);
        }
        var rows = CrossingReduction.Of(levels, steps, out var crossings);
        var x = RowPlacing.Of(rows, steps, levels.Count, count);
        return new LayeredLayout([.. Enumerable.Range(0, count).Select(i => (x[i], layer[i]))],
            [.. ways.Select((w, i) => new LinkWay(i, [.. w.Select(n => (x[n], levels[n]))]))], crossings);
    }

    /// <summary>From the bottom up, as many a layer as find room beside the links that pass it, those with the longest way above them first; then up, where that shortens more links than it lengthens.</summary>
    /// <remarks>T. C. Hu, Parallel sequencing and assembly line problems, Operations Research 9 (1961) 841-848, with layers for steps of time.</remarks>
    private static int[] Layers(int count, IReadOnlyList<(int Upper, int Lower)> links, Func<int, bool> isLowest)
    {
        var (lowers, uppers) = (links.ToLookup(l => l.Upper, l => l.Lower), links.ToLookup(l => l.Lower, l => l.Upper));
        var (layer, way, widths, open) = (new int[count], new int[count], new List<double>(), 0);
        for (var i = count - 1; i >= 0; i--) way[i] = uppers[i].Select(u => way[u] + 1).DefaultIfEmpty(0).Max();
        bool StandsLowest(int i) => isLowest(i) && !lowers[i].Any();
        double Room(int i) => 1 - RowPlacing.PassingWidth * lowers[i].Count();
        var waiting = Enumerable.Range(0, count).Where(i => !StandsLowest(i)).OrderByDescending(i => way[i]).ToList();
        if (waiting.Count < count) widths.Add(MostInLayer);
        open = Enumerable.Range(0, count).Where(StandsLowest).Sum(i => uppers[i].Count());
        while (waiting.Count > 0)
        {
            var (above, taken, width) = (waiting.ToHashSet(), new HashSet<int>(), RowPlacing.PassingWidth * open);
            foreach (var i in waiting.Where(i => !lowers[i].Any(above.Contains)))
            {
                if (taken.Count > 0 && (taken.Count == MostInLayer || width + Room(i) > MostInLayer)) continue;
                taken.Add(i);
                width += Room(i);
            }
            foreach (var i in taken) (layer[i], open) = (widths.Count, open + uppers[i].Count() - lowers[i].Count());
            widths.Add(width);
            waiting.RemoveAll(taken.Contains);
        }
        var boxes = layer.CountBy(l => l).ToDictionary();
        for (var i = count - 1; i >= 0; i--)
        {
            var (up, down) = (uppers[i].Count(), lowers[i].Count());
            if (StandsLowest(i) || up <= down || boxes[layer[i]] == 1) continue;
            var rise = 1 - RowPlacing.PassingWidth * up;
            var best = Enumerable.Range(layer[i], uppers[i].Min(u => layer[u]) - layer[i]).Last(l => l == layer[i] || (boxes[l] < MostInLayer && widths[l] + rise <= MostInLayer));
            if (best == layer[i]) continue;
            (widths[layer[i]], widths[best]) = (widths[layer[i]] - Room(i), widths[best] + rise);
            for (var l = layer[i] + 1; l < best; l++) widths[l] -= RowPlacing.PassingWidth * (up - down);
            (boxes[layer[i]], boxes[best], layer[i]) = (boxes[layer[i]] - 1, boxes[best] + 1, best);
        }
        return layer;
    }
}
