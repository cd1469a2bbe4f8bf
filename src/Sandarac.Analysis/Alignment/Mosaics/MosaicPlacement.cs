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

    /// <summary>The parts that found a place, in the order given; the others' reasons by name.</summary>
    public (IReadOnlyList<MosaicPart> Parts, IReadOnlyList<(PairImage Image, string Reason)> Left) Place()
    {
        var placed = new MosaicPart?[images.Count];
        var reasons = images.Select(_ => "It overlaps none of the others enough to be recognised.").ToArray();
        if (reference is null) placed[0] = new MosaicPart(images[0], new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1]), null);
        else PlaceOnReference(placed, reasons);
        // Each round hangs parts on those of the rounds before; the last of which are the likeliest neighbours.
        for (var before = -1; placed.Count(p => p is not null) is var now && now > before && now < images.Count; before = now)
            for (var i = 0; i < images.Count; i++) placed[i] ??= OnNeighbours(images[i], [.. placed.OfType<MosaicPart>()], i);
        return ([.. placed.OfType<MosaicPart>()], [.. images.Select((image, i) => (image, reasons[i])).Where((_, i) => placed[i] is null)]);
    }

    private void PlaceOnReference(MosaicPart?[] placed, string[] reasons)
    {
        var done = 0;
        Parallel.For(0, images.Count, parallel, i =>
        {
            var found = PairAligner.Align(reference!, images[i], new PairOptions(MapModel.Affine, likelyScales, Thorough: false), parallel);
            if (found is { Map: HomographyMap map, Log10FalseAlarms: < Certain }) placed[i] = new MosaicPart(images[i], map, found);
            else reasons[i] = found.Reason;
            progress(0.5 * Interlocked.Increment(ref done) / images.Count);
        });
    }

    private MosaicPart? OnNeighbours(PairImage image, IReadOnlyList<MosaicPart> placed, int index)
    {
        (MosaicPart Part, double Log10)? best = null;
        foreach (var neighbour in placed.OrderBy(p => Math.Abs(IndexOf(p.Image) - index)).Take(MostNeighbours))
        {
            parallel.CancellationToken.ThrowIfCancellationRequested();
            var found = PairAligner.Align(neighbour.AsTarget, image, new PairOptions(MapModel.Affine, [neighbour.Unit], Thorough: false, LeastOverlap: LeastOverlap), parallel);
            if (found is not { Verdict: not PairVerdict.NotAligned, Map: HomographyMap map }) continue;
            if (reference is null) return new MosaicPart(image, map, null);
            // Cradles and canvases repeat themselves: the guide must agree with where the neighbour puts it.
            var seen = PairAligner.Align(reference, image, new PairOptions(MapModel.Affine, Start: map, Thorough: false), parallel);
            if (seen is { Map: HomographyMap agreed } && (best is null || seen.Log10FalseAlarms < best.Value.Log10)) best = (new MosaicPart(image, agreed, seen), seen.Log10FalseAlarms);
        }
        return best?.Part;
    }

    private int IndexOf(PairImage image) => images.TakeWhile(i => i != image).Count();
}
