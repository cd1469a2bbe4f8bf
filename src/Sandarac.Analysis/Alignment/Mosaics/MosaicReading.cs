using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>Joins overlapping photographs of parts - plates, tiles, details - into one picture.</summary>
public sealed class MosaicReading : Reading
{
    /// <summary>The figure of each part that is held as a whole.</summary>
    public const string WholeError = "whole-error";

    private const int Window = 512;

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "mosaic",
        Version = 3,
        Title = "Mosaic of parts",
        Summary = "Joins overlapping photographs of parts of a painting into one picture, with a photograph of the whole as a guide where there is one.",
        Citation = "Joint adjustment after Triggs, McLauchlan, Hartley and Fitzgibbon, Bundle adjustment - a modern synthesis, LNCS 1883 (2000) 298; exposure and two-band blending after Brown and Lowe, Int. J. Computer Vision 74 (2007) 59 (both from memory, not re-read).",
        Limits = "Parts are taken as flat films or frames without lens distortion. A part that shows too little that the others or the guide show is left out, and said so. Exposures are made alike by a factor and an offset each: values compare within the mosaic, not with the parts. Seams in detail lie where two parts are equally far from their edges.",
        Inputs =
        [
            new("reference", "A photograph of the whole, which says where the parts lie; without one the first part stays as it is.", [], 0, 1),
            new("parts", "The photographs of parts, all in one light.", [], 2, 64, InOwnPixels: true),
        ],
        Parameters = [],
        Rasters = [new("mosaic", "Mosaic", "counts", ["grey"], null, LightFrom: "parts"), new("placement", "Where the parts lie", "1", ["coefficient"], IsTable: true)],
        Figures =
        [
            new("parts-placed", "Parts that found their place", "1", "Counted; exact."),
            new("ties", "Places that two parts, or a part and the guide, both show", "1", "Counted; exact."),
            new("tie-median", "Half of the places agree within", "px", "Pixels of the guide, or of the first part; after the joint adjustment, so not held out."),
            new("tie-p95", "95 of 100 places agree within", "px", "As the median."),
            new(WholeError, "Exactness of a part that is held as a whole", "px", "One pixel of the search, for each part of which patches say too little: the whole of it agrees with the guide best where it is."),
            new("factor", "Factor by which a part's values were multiplied", "1", "One for each part; from the values of all overlaps."),
        ],
        Reach = new Reach.Blocks(Window),
        OnPlane = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        using var opened = new OpenedImages(context);
        var parallel = new ParallelOptions { CancellationToken = context.Cancellation, MaxDegreeOfParallelism = context.Tiling.Threads };
        var (parts, left) = new MosaicPlacement(opened.Reference, opened.Parts, opened.LikelyScales, parallel, done => context.Report(0.6 * done)).Place();
        var ties = new TieSearch(opened.Reference, parts, parallel).Find();
        (parts, ties, left) = Tied(parts, ties, left);
        if (parts.Count < 2) return new Outcome { NoAnswer = $"Fewer than two of the {opened.Parts.Count} parts hold together. {string.Join(" ", left.Select(l => $"{l.Image.Name}: {l.Reason}"))}" };
        (parts, var residuals) = new JointAdjustment(parts, [.. ties, .. AlikeSearch.Holding(parts)], opened.Reference is null).Run();
        residuals = [.. residuals.Take(ties.Count)];
        context.Report(0.5);
        var insides = parts.Select(p => TileBorder.Inside(p.Image)).ToList();
        var exposures = Exposures.Balance(parts, insides);
        var grid = GridOf(opened, parts);
        Write(context, opened, new MosaicBlend(parts, insides, exposures, grid), grid, parallel);
        WritePlacement(context, opened.Parts, parts);
        return new Outcome
        {
            Figures =
            [
                new("parts-placed", parts.Count, null, "counted: exact"), new("ties", ties.Count, null, "counted: exact"),
                new("tie-median", Robust.Median(residuals), null, "not held out"), new("tie-p95", Robust.Quantile(residuals, 0.95), null, "not held out"),
                .. parts.Where(p => p.Whole is not null).Select(p => new Figure(WholeError, p.Whole!.Unit, null, "one pixel of the search", p.Image.Name)),
                .. parts.Select((p, i) => new Figure("factor", exposures[i].Factor, null, "fitted to the overlaps", p.Image.Name)),
            ],
            Warnings = [.. left.Select(l => new Warning("part-left-out", $"{l.Image.Name} is not in the mosaic. {l.Reason}"))],
        };
    }

    /// <summary>Without the parts that no tie, or chain of ties, holds to the reference or to the first part: nothing says where they lie.</summary>
    private static (IReadOnlyList<MosaicPart>, IReadOnlyList<Tie>, IReadOnlyList<(PairImage Image, string Reason)>) Tied(IReadOnlyList<MosaicPart> parts, IReadOnlyList<Tie> ties, IReadOnlyList<(PairImage Image, string Reason)> left)
    {
        var held = parts.Select((p, i) => p.Whole is not null || (i == 0 && ties.All(t => t.From >= 0))).ToArray();
        for (var grew = true; grew;)
        {
            grew = false;
            foreach (var t in ties)
            {
                var from = t.From < 0 || held[t.From];
                if (from == held[t.To]) continue;
                held[t.To] = true;
                if (t.From >= 0) held[t.From] = true;
                grew = true;
            }
        }
        int[] kept = [.. Enumerable.Range(0, parts.Count).Where(i => held[i])];
        int Index(int part) => part < 0 ? -1 : Array.IndexOf(kept, part);
        return ([.. kept.Select(i => parts[i])], [.. ties.Where(t => held[t.To]).Select(t => t with { From = Index(t.From), To = Index(t.To) })],
            [.. left, .. parts.Where((_, i) => !held[i]).Select(p => (p.Image, "No place in it was found again in the others."))]);
    }

    /// <summary>Over the guide's whole area; without one over all parts. As fine as the finest part, where that is not finer than a quarter of the guide's pixel.</summary>
    private static PlaneGrid GridOf(OpenedImages opened, IReadOnlyList<MosaicPart> parts)
    {
        var finest = parts.Min(p => p.Unit);
        if (opened.Frame is { } frame) return new PlaneGrid(frame, 1 / Math.Clamp(Math.Floor(1 / finest + 0.1), 1, 4));
        var (l, t) = (parts.Min(p => p.Area.Left), parts.Min(p => p.Area.Top));
        return PlaneGrid.Covering(new Box(l, t, parts.Max(p => p.Area.Right) - l, parts.Max(p => p.Area.Bottom) - t), 1);
    }

    private static void Write(RunContext context, OpenedImages opened, MosaicBlend blend, PlaneGrid grid, ParallelOptions parallel)
    {
        PixelScale? scale = opened.Scale is { } s ? s with { MmPerPixel = s.MmPerPixel * grid.MmPerPixel } : null;
        var writer = context.CreateRaster("mosaic", grid.Width, grid.Height, scale);
        var rows = (grid.Height + Window - 1) / Window;
        for (var row = 0; row < rows; row++)
        {
            var top = row * Window;
            Parallel.For(0, (grid.Width + Window - 1) / Window, parallel, column =>
            {
                var bands = blend.Window(column * Window, top, Math.Min(Window, grid.Width - column * Window), Math.Min(Window, grid.Height - top));
                // One picture in grey: plates and infrared tiles have no colours that would compare.
                var grey = bands.Length == 1 ? bands[0] : Mean(bands);
                lock (writer) writer.WriteWindow(column * Window, top, [grey]);
            });
            context.Report(0.6 + 0.4 * (row + 1) / rows);
        }
    }

    private static Plane Mean(Plane[] bands)
    {
        var mean = new Plane(bands[0].Width, bands[0].Height);
        for (var i = 0; i < mean.Data.Length; i++) mean.Data[i] = bands.Average(b => b.Data[i]);
        return mean;
    }

    /// <summary>A row for each part given: its homography to the guide's pixels, row-major; NaN for a part that was left out.</summary>
    private static void WritePlacement(RunContext context, IReadOnlyList<PairImage> given, IReadOnlyList<MosaicPart> parts)
    {
        var table = new Plane(9, given.Count);
        table.Data.AsSpan().Fill(float.NaN);
        for (var i = 0; i < given.Count; i++)
            if (parts.FirstOrDefault(p => p.Image == given[i]) is { } part)
                for (var k = 0; k < 9; k++) table[k, i] = (float)part.Map.PixelToPlane[k];
        context.CreateRaster("placement", 9, given.Count, null).WriteWindow(0, 0, [table]);
    }
}
