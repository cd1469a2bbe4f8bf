using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Something the viewer can show.</summary>
/// <param name="Id">"p-PHOTOGRAPH" for a plane image, "o-PHOTOGRAPH" for original pixels, "r-RUN-RASTER" for a reading's raster.</param>
/// <param name="IsReading">Whether it was computed by a reading.</param>
/// <param name="Light">Canonical code of the light; null for a map of numbers or when unknown.</param>
/// <param name="Label">What a person calls it: the file's name without suffix, or the raster's title.</param>
/// <param name="Detail">One line more: where the lamp stood, what the reading says.</param>
/// <param name="OnPlane">Whether the extent is in mm on the plane; otherwise it is in the photograph's pixels.</param>
/// <param name="Verdict">How far the alignment may be trusted.</param>
/// <param name="Residual">How well it fits, in words; null when unknown.</param>
/// <param name="Extent">Where it lies: mm, y down; or pixels.</param>
/// <param name="MmPerPixel">Size of a full-level pixel on the plane; null when not on the plane.</param>
/// <param name="Pyramid">The object and what it holds.</param>
/// <param name="PhotographId">The photograph it is made of.</param>
/// <param name="RunId">The run that made it.</param>
/// <param name="Warnings">What whoever looks at it must know.</param>
/// <param name="Classes">What its values 0, 1, 2, ... are called; null when they are measures.</param>
public sealed record Layer(string Id, bool IsReading, string? Light, string Label, string Detail, bool OnPlane, Verdict? Verdict, string? Residual,
    Box Extent, double? MmPerPixel, PyramidFacts Pyramid, Guid? PhotographId, Guid? RunId, IReadOnlyList<Warning> Warnings, IReadOnlyList<string>? Classes = null);

/// <summary>Resolves what a painting has to show into pyramids and facts.</summary>
public sealed class Layers(OpenStudio studio)
{
    /// <summary>All layers of a painting: photographs in the order of their lights, each on the plane when it is aligned and else in its own pixels; then readings.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public IReadOnlyList<Layer> Of(Guid paintingId)
    {
        using var db = studio.CreateDb();
        db.RequirePainting(paintingId);
        var photographs = db.PhotographsOf(paintingId).OrderBy(p => Order(p.Light)).ThenBy(p => p.Subject).ThenBy(p => p.FileName, StringComparer.Ordinal);
        return [.. photographs.Select(p => OnPlane(p) ?? InOwnPixels(p)).OfType<Layer>(), .. db.ReadingsOf(paintingId).SelectMany(r => r.Rasters.Where(x => OutputOf(r, x) is not { IsTable: true }).OrderBy(x => x.Name, StringComparer.Ordinal).Select(x => OfRaster(r, x)))];
    }

    /// <summary>One layer. Every photograph has "o-" too, whether or not it is aligned.</summary>
    /// <exception cref="InputProblem">There is none with this id ("unknown-layer").</exception>
    public Layer Find(string layerId)
    {
        using var db = studio.CreateDb();
        var rest = layerId.Length > 2 ? layerId.AsSpan(2) : "";
        var layer = !Guid.TryParse(rest[..Math.Min(36, rest.Length)], out var id) ? null : layerId[..2] switch
        {
            "p-" when rest.Length == 36 => Photograph(db, id) is { } p ? OnPlane(p) : null,
            "o-" when rest.Length == 36 => Photograph(db, id) is { } p ? InOwnPixels(p) : null,
            "r-" when rest.Length > 37 => Raster(db, id, layerId[39..]),
            _ => null,
        };
        return layer ?? throw new InputProblem("unknown-layer", layerId, "There is no such layer in this studio.", "The painting's list of layers shows what there is.");
    }

    /// <summary>Where a layer's pyramid lies; a tiled TIFF.</summary>
    public string PathOf(Layer layer) => studio.Objects.PathOf(layer.Pyramid.Sha256);

    private static Photograph? Photograph(StudioDb db, Guid id) => db.Photographs.AsNoTracking().Include(p => p.Alignments).FirstOrDefault(p => p.Id == id);

    private static Layer? Raster(StudioDb db, Guid runId, string name) =>
        db.Runs.AsNoTracking().Include(r => r.Rasters).FirstOrDefault(r => r.Id == runId) is { } run && run.Rasters.FirstOrDefault(r => r.Name == name) is { } raster ? OfRaster(run, raster) : null;

    private static int Order(string? light) => light is null ? int.MaxValue : Analysis.Lights.Light.All.TakeWhile(l => l.Code != light).Count();

    private static Layer? OnPlane(Photograph photograph) => photograph.Alignments.InForce() is not { PlaneImage: { } image, PlaneExtent: { } extent } alignment ? null
        : new Layer($"p-{photograph.Id}", false, photograph.Light, Label(photograph), Words.Lamp(photograph), true, alignment.Verdict,
            alignment.Residuals?.P95Mm is { } p95 ? $"{Words.Mm(p95)} (95 %)" : null, extent, extent.Width / image.Width, image, photograph.Id, alignment.RunId, photograph.Warnings);

    private static Layer? InOwnPixels(Photograph photograph) => photograph.Pyramid is not { } pyramid ? null
        : new Layer($"o-{photograph.Id}", false, photograph.Light, Label(photograph), Detail(photograph), false, photograph.Alignments.InForce()?.Verdict ?? Record.Verdict.NotAligned,
            null, new Box(0, 0, pyramid.Width, pyramid.Height), null, pyramid, photograph.Id, null, photograph.Warnings);

    private static Layer OfRaster(Run run, RunRaster raster)
    {
        var output = OutputOf(run, raster);
        var light = output?.LightFrom is { } slot ? run.Inputs.FirstOrDefault(i => i.Slot == slot)?.Light : output?.Light?.Code;
        var from = $"from {string.Join(", ", run.Inputs.Select(i => Path.GetFileNameWithoutExtension(i.FileName)))}";
        return new Layer($"r-{run.Id}-{raster.Name}", true, light, output?.Title ?? raster.Name, from, raster.Extent is not null, raster.Extent is null ? null : Record.Verdict.Aligned,
            null, raster.Extent ?? new Box(0, 0, raster.Pyramid.Width, raster.Pyramid.Height), raster.Extent?.Width / raster.Pyramid.Width, raster.Pyramid, null, run.Id, run.Warnings, output?.Classes);
    }

    private static RasterOutput? OutputOf(Run run, RunRaster raster) => raster.Name == ResidualMap.Output.Name ? ResidualMap.Output
        : ReadingCatalogue.All.FirstOrDefault(r => r.Declaration.Id == run.ReadingId)?.Declaration.Rasters.FirstOrDefault(r => r.Name == raster.Name);

    private static string Label(Photograph photograph) => Path.GetFileNameWithoutExtension(photograph.FileName);

    private static string Detail(Photograph photograph)
    {
        var lamp = Words.Lamp(photograph);
        var subject = photograph.Subject == PhotographSubject.Painting ? "" : Words.SubjectOf(photograph);
        return string.Join(", ", new[] { subject, lamp }.Where(t => t.Length > 0));
    }
}
