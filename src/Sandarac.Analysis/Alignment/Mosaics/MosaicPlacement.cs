using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>Finds where each part lies: on the reference where it can, else on neighbours that have their place already; without a reference the first part stays and the others grow round it.</summary>
internal sealed class MosaicPlacement(AlignmentTarget? reference, IReadOnlyList<PairImage> images, IReadOnlyList<double> likelyScales, ParallelOptions parallel, Action<double> progress)
{
    /// <summary>Agreement with the guide that is beyond doubt, even where it is not all over the part.</summary>
    private const double Certain = -12;

    /// <summary>Plates and tiles are laid to overlap by a tenth or more.</summary>
    private const double LeastOverlap = 0.07;

    private const int MostNeighbours = 8;

    /// <summary>A neighbour keeps its place once it has one, so what a part found on it holds for later rounds too.</summary>
    private readonly Dictionary<(int Part, int Neighbour, SearchDepth Depth), PairAlignment> _looked = [];

    /// <summary>How many parts had their place when a part was last looked for as a whole: beside the same ones nothing else comes of it.</summary>
    private readonly Dictionary<int, int> _besides = [];

    /// <summary>The parts that found a place, in the order given; the others' reasons by name.</summary>
    public (IReadOnlyList<MosaicPart> Parts, IReadOnlyList<(PairImage Image, string Reason)> Left) Place()
    {
        var placed = new MosaicPart?[images.Count];
        var reasons = images.Select(_ => "It overlaps none of the others enough to be recognised.").ToArray();
        if (reference is null) placed[0] = new MosaicPart(images[0], new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1]), null);
        // What a quick look finds spares the others the slow one: neighbours in one light are alike where a guide in another is only faintly so.
        foreach (var depth in new[] { SearchDepth.Quick, SearchDepth.Likely })
        {
            if (reference is not null) PlaceOnReference(placed, reasons, depth);
            Grow(placed, depth);
            if (reference is not null) PlaceLikeOthers(placed);
        }
        return ([.. placed.OfType<MosaicPart>()], [.. images.Select((image, i) => (image, reasons[i])).Where((_, i) => placed[i] is null)]);
    }

    /// <summary>Each round hangs parts on those of the rounds before; the last of which are the likeliest neighbours.</summary>
    private void Grow(MosaicPart?[] placed, SearchDepth depth)
    {
        for (var before = -1; placed.Count(p => p is not null) is var now && now > before && now < images.Count; before = now)
            for (var i = 0; i < images.Count; i++) placed[i] ??= OnNeighbours(i, placed, depth);
    }

    private void PlaceOnReference(MosaicPart?[] placed, string[] reasons, SearchDepth depth)
    {
        var done = placed.Count(p => p is not null);
        Parallel.For(0, images.Count, parallel, i =>
        {
            if (placed[i] is not null) return;
            var found = PairAligner.Align(reference!, images[i], new PairOptions(MapModel.Affine, likelyScales, Depth: depth, IsPart: true), parallel);
            if (found is { Map: HomographyMap map } && (found.Verdict == PairVerdict.Aligned || found.Log10FalseAlarms < Certain)) placed[i] = new MosaicPart(images[i], map, found);
            else reasons[i] = found.Reason;
            progress(0.5 * Interlocked.Increment(ref done) / images.Count);
        });
    }

    /// <summary>Places the rest where the whole part agrees with the guide best at the others' size and turn, if patches of the guide or of a neighbour confirm it.</summary>
    private void PlaceLikeOthers(MosaicPart?[] placed)
    {
        var search = new AlikeSearch(reference!, parallel);
        for (var i = 0; i < images.Count; i++)
        {
            MosaicPart[] others = [.. placed.OfType<MosaicPart>()];
            if (placed[i] is not null || _besides.GetValueOrDefault(i) == others.Length) continue;
            _besides[i] = others.Length;
            placed[i] = Confirmed(images[i], search.Find(images[i], others), others);
        }
    }

    private MosaicPart? Confirmed(PairImage image, Placement? found, IReadOnlyList<MosaicPart> others)
    {
        if (found is null) return null;
        var seen = Near(reference!, image, found.Map);
        if (seen is { Map: HomographyMap agreed } && AlikeSearch.Confirms(agreed, found, image)) return new MosaicPart(image, agreed, seen, found);
        // A neighbour shows too little of the part to place all of it: it only confirms.
        return IsConfirmed(image, found.Map, others) ? new MosaicPart(image, found.Map, null, found) : null;
    }

    private MosaicPart? OnNeighbours(int part, MosaicPart?[] placed, SearchDepth depth)
    {
        (MosaicPart Part, double Log10)? best = null;
        foreach (var i in Enumerable.Range(0, images.Count).Where(i => placed[i] is not null).OrderBy(i => Math.Abs(i - part)).Take(MostNeighbours))
        {
            parallel.CancellationToken.ThrowIfCancellationRequested();
            if (Look(part, i, placed[i]!, depth) is not { Verdict: not PairVerdict.NotAligned, Map: HomographyMap map } found) continue;
            if (reference is null)
            {
                if (found.Verdict == PairVerdict.Aligned || IsConfirmed(images[part], map, [.. placed.Where((_, k) => k != i).OfType<MosaicPart>()])) return new MosaicPart(images[part], map, null);
                continue;
            }
            // Cradles and canvases repeat themselves: the guide must agree with where the neighbour puts it.
            var seen = Near(reference, images[part], map);
            if (seen is { Map: HomographyMap agreed } && (best is null || seen.Log10FalseAlarms < best.Value.Log10)) best = (new MosaicPart(images[part], agreed, seen), seen.Log10FalseAlarms);
        }
        return best?.Part;
    }

    private PairAlignment Look(int part, int on, MosaicPart neighbour, SearchDepth depth)
    {
        if (!_looked.TryGetValue((part, on, depth), out var found))
            _looked[(part, on, depth)] = found = PairAligner.Align(neighbour.AsTarget, images[part], new PairOptions(MapModel.Affine, [neighbour.Unit], Depth: depth, LeastOverlap: LeastOverlap, IsPart: true), parallel);
        return found;
    }

    /// <summary>Whether another of the parts that it would overlap agrees: without a guide a doubtful neighbour alone may be a pattern that repeats itself.</summary>
    private bool IsConfirmed(PairImage image, HomographyMap map, IReadOnlyList<MosaicPart> others)
    {
        var area = map.Bounds(image.File.Width, image.File.Height);
        return others.Any(o => o.Area.Shared(area) is { Width: > 0, Height: > 0 } shared && shared.Width * shared.Height >= LeastOverlap * area.Width * area.Height
            && Near(o.AsTarget, image, map).Verdict != PairVerdict.NotAligned);
    }

    private PairAlignment Near(AlignmentTarget target, PairImage image, HomographyMap map) => PairAligner.Align(target, image, new PairOptions(MapModel.Affine, Start: map, Depth: SearchDepth.Quick), parallel);
}
