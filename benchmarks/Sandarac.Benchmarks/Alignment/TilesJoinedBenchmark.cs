using MathNet.Numerics.Statistics;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>Forty infrared tiles joined by the <c>mosaic</c> reading, with the photograph in visible light as a guide and without: places, exposures, time, memory.</summary>
internal sealed class TilesJoinedBenchmark : Benchmark
{
    private const string Visible = "VIS_01.tif", Infrared = "IR_01.tif";

    public override string Name => "align-tiles";

    public override string Summary => "a mosaic of 40 infrared tiles, with a guide and without: places and exposures against truth, time, memory";

    public override IReadOnlyList<string> Takes => ["--ppi"];

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var ppi = settings.PixelsPerInch ?? (settings.Quick ? 100 : 200);
        var folder = Path.Combine(settings.Folder, "specimen");
        Child.Ours("photographs", $"{ppi}", folder, Visible, Infrared);
        using var whole = Opened(SpecimenTruth.Photograph(folder, Infrared), settings.Folder);
        var tiles = InfraredTile.TakeAll(whole, ppi, settings.Folder);
        Say($"{tiles.Count} tiles of {whole.Width} x {whole.Height} pixels; steps of exposure as taken: {Percent(SeamSteps.AsTaken(tiles, whole))}");
        var truth = SpecimenTruth.Read(folder);
        foreach (var figure in Join(tiles, truth, SpecimenTruth.Photograph(folder, Visible), whole, settings)) yield return figure;
        foreach (var figure in Join(tiles, truth, null, whole, settings)) yield return figure;
    }

    private static PyramidFile Opened(string photograph, string folder)
    {
        using var file = ImageFile.Open(photograph);
        var path = Path.Combine(folder, "whole.pyramid");
        PyramidFile.Write(file, path);
        return PyramidFile.Open(path);
    }

    private static IEnumerable<Figure> Join(IReadOnlyList<InfraredTile> tiles, SpecimenTruth truth, string? guide, PyramidFile whole, Settings settings)
    {
        var what = $"40 tiles {(guide is null ? "without a guide" : "with a guide")}";
        var result = Path.Combine(settings.Folder, guide is null ? "alone" : "guided");
        var images = tiles.Select(t => "parts=" + t.File).Concat(guide is null ? [] : ["reference=" + guide]);
        var process = Child.Run(Child.Sandarac(["read", "mosaic", .. images.SelectMany(i => new[] { "--image", i }), "--out", result]));
        var maps = File.Exists(Path.Combine(result, "placement.tif")) ? BareMosaic.Read(Path.Combine(result, "placement.tif"), tiles.Count) : new HomographyMap?[tiles.Count];
        var errors = tiles.Select((t, i) => maps[i] is { } map ? Errors(t, map, p => guide is null ? tiles[0].ToWhole.ToPixel(p) : truth.MapOf(Visible).ToPixel(truth.MapOf(Infrared).ToPlane(p)), whole) : []).ToList();
        for (var i = 0; i < tiles.Count; i++)
            if (errors[i].Count == 0 || !(Worst(errors[i]) < PoseOutcome.Right)) Say($"{what}: {Path.GetFileName(tiles[i].File)} {(maps[i] is null ? "left out" : $"p95 {Worst(errors[i]):0.0} px")}");
        yield return new Figure($"{what}: left out", "tiles", maps.Count(m => m is null)) { Note = $"{process.Seconds:0} s, peak memory {process.PeakMegabytes:0} MB" };
        double[] all = [.. errors.SelectMany(e => e)];
        yield return new Figure($"{what}: p95 of points", "px", all.Length == 0 ? null : Worst(all)) { Note = all.Length == 0 ? "" : $"median {all.Median():0.00} px; {errors.Count(e => e.Count > 0 && !(Worst(e) < PoseOutcome.Right))} tiles {PoseOutcome.Right} px or more; pixels of {(guide is null ? "the first tile" : "the guide")}" };
        if (all.Length == 0) yield break;
        var steps = Steps(tiles, maps, guide is null, whole, Path.Combine(result, "mosaic.tif"), settings.Folder);
        yield return new Figure($"{what}: steps of exposure, p95", "%", 100 * Worst(steps)) { Note = Percent(steps) };
    }

    private static double Worst(IEnumerable<double> values) => values.QuantileCustom(0.95, QuantileDefinition.R7);

    private static string Percent(IReadOnlyList<double> steps) => $"median {100 * steps.Median():0.0} %, largest {100 * steps.Max():0.0} % of {steps.Count}";

    /// <summary>Distances at points all over a tile, as far as they lie on the painted face.</summary>
    private static List<double> Errors(InfraredTile tile, HomographyMap found, Func<Point2, Point2> truth, PyramidFile whole)
    {
        const int across = 7;
        var (w, h) = InfraredTile.SizeIn(whole);
        return [.. from j in Enumerable.Range(0, across) from i in Enumerable.Range(0, across)
                   let p = new Point2((i + 0.5) / across * w, (j + 0.5) / across * h)
                   let inWhole = tile.ToWhole.ToPlane(p)
                   where inWhole is { X: >= 0, Y: >= 0 } && inWhole.X <= whole.Width && inWhole.Y <= whole.Height
                   select found.ToPlane(p).DistanceTo(truth(inWhole))];
    }

    private static IReadOnlyList<double> Steps(IReadOnlyList<InfraredTile> tiles, IReadOnlyList<HomographyMap?> maps, bool alone, PyramidFile whole, string mosaic, string folder)
    {
        var path = Path.Combine(folder, "mosaic.pyramid");
        using (var file = ImageFile.Open(mosaic)) PyramidFile.Write(file, path);
        using var joined = PyramidFile.Open(path);
        // Without a guide the raster begins at the parts' upper left corner.
        var (w, h) = InfraredTile.SizeIn(whole);
        var areas = maps.OfType<HomographyMap>().Select(m => m.Bounds(w, h)).ToList();
        var (left, top) = alone ? (areas.Min(a => a.Left), areas.Min(a => a.Top)) : (0.0, 0.0);
        return SeamSteps.In(tiles, whole, joined, [.. maps.Select(m => m?.Then(new Homography([1, 0, -left, 0, 1, -top, 0, 0, 1])))]);
    }
}
