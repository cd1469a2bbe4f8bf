using System.Text.Json;
using Sandarac.Imaging;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>A micrograph's scale as its file gives it.</summary>
internal sealed record SectionScaleShape(double UmPerPixel, ScaleOrigin Origin);

/// <summary>A photograph by its name.</summary>
internal sealed record NamedPhotographShape(Guid Id, string FileName);

/// <summary>The grains of a layer as they were measured.</summary>
internal sealed record MeasuredGrainsShape(int Counted, double? D50, double? Uncertainty, string Unit, string? Note)
{
    public static MeasuredGrainsShape Of(MeasuredGrains grains) => new(grains.Counted, grains.D50.Value, grains.D50.Uncertainty, grains.Unit, grains.D50.Note);
}

/// <summary>A layer, or with a letter as <paramref name="Part"/> a part of one, as it was measured: thickness in <paramref name="Unit"/>, what <paramref name="Low"/> and <paramref name="High"/> are in <paramref name="Range"/>, coverage from 0 to 1, colours in words.</summary>
internal sealed record MeasuredLayerShape(int Number, string Part, string Unit, double? Mean, double? Uncertainty, double? Deviation, double? Low, double? High, string Range, double? Coverage, double? Places, string? Colour, string? Luminescence,
    MeasuredGrainsShape? Grains)
{
    public static MeasuredLayerShape Of(MeasuredLayer layer, Run? grains) => new(layer.Number, layer.Part, layer.Unit, layer.Mean?.Value, layer.Mean?.Uncertainty, layer.Deviation, layer.Low, layer.High, layer.Range, layer.Coverage, layer.Places,
        layer.Colour?.Words, layer.Luminescence?.Words, grains is not null && layer.Part.Length == 0 && MeasuredGrains.Of(grains, layer.Number) is { } counted ? MeasuredGrainsShape.Of(counted) : null);
}

/// <summary>What can be measured of a sample's section, and what was.</summary>
/// <param name="Problem">Why nothing can be measured; null when it can.</param>
/// <param name="Inputs">Photographs for each input of the readings `layers` and `particles`.</param>
/// <param name="LeftOut">Micrographs that are not used, and why.</param>
/// <param name="Scale">The file's own scale; null when it has none.</param>
/// <param name="StageMicrometers">Photographs of the painting that may show a stage micrometer: all that are not the sample's own, those under the microscope first.</param>
/// <param name="Layers">The run that was asked for, else the one last taken over, else the newest that found layers; null when there is none.</param>
/// <param name="GrainParameters">Parameters with which `particles` measures in that run's layers.</param>
/// <param name="Grains">The run of `particles` that did; null when there is none.</param>
/// <param name="Measured">That run's layers from the bottom up, with their grains, then their sublayers.</param>
internal sealed record SectionShape(string? Problem, IReadOnlyDictionary<string, IReadOnlyList<Guid>> Inputs, IReadOnlyList<string> LeftOut, SectionScaleShape? Scale, IReadOnlyList<NamedPhotographShape> StageMicrometers, RunShape? Layers,
    IReadOnlyDictionary<string, string>? GrainParameters, RunShape? Grains, IReadOnlyList<MeasuredLayerShape> Measured);

/// <summary>What a run proposed: a GeoJSON feature (RFC 7946) in pixels of its first input, y down.</summary>
internal sealed record ProposalShape(string Kind, double Confidence, string Reason, JsonElement Geometry);

/// <summary>Which run's layers to write into the record.</summary>
internal sealed record TakeOverAsk(Guid? RunId);

/// <summary>Measuring sections: the readings run as all readings do; here is what they need, what they proposed, and taking it over.</summary>
internal static class SectionsApi
{
    public static void MapSections(this RouteGroupBuilder api)
    {
        api.MapGet("/samples/{id:guid}/section", (Guid id, OpenStudio studio, Guid? run = null) => Shape(studio, id, run)).WithSummary("What can be measured of a sample's section, and what was: the run that is named, else the one last taken over, else the newest");
        api.MapGet("/runs/{id:guid}/proposals", (Guid id, OpenStudio studio) => new SectionDesk(studio).Proposals(id).Select(p => new ProposalShape(p.Kind, p.Confidence, p.Reason, JsonElement.Parse(p.Geometry))).ToList())
            .WithSummary("What a run proposed in a micrograph: boundaries of layers from the bottom up, then the layers; in pixels of its first input, y down");
        api.MapPost("/samples/{id:guid}/layers", TakeOver).WithSummary("Writes the layers that a run measured into the sample's record; names, words and stages that are there stay").Produces<IReadOnlyList<WrittenShape<LayerContent>>>();
        api.MapGet("/paintings/{id:guid}/columns.svg", (Guid id, OpenStudio studio, string? samples = null) => Results.Text(new Columns(studio).Svg(id, Keys(samples)), "image/svg+xml; charset=utf-8"))
            .WithSummary("Samples' layers as columns to one scale; of some samples alone if asked, their keys with commas").Produces<string>(StatusCodes.Status200OK, "image/svg+xml");
    }

    private static SectionShape Shape(OpenStudio studio, Guid id, Guid? wanted)
    {
        var (sample, desk) = (new Samples(studio).Find(id), new SectionDesk(studio));
        var (sources, runs) = (desk.Sources(sample), desk.Runs(sample, SectionDesk.Layers));
        var taken = new SectionLayers(studio).BySample(sample.PaintingId)[id].Where(l => l.Content.RunLayer is not null).OrderByDescending(l => l.UpdatedAt).Select(l => l.Content.RunId).FirstOrDefault();
        var layers = wanted is null ? runs.FirstOrDefault(r => r.Id == taken) ?? (runs is [var newest, ..] ? newest : null) : runs.FirstOrDefault(r => r.Id == wanted) ?? throw new InputProblem("unknown-run", wanted.Value.ToString(), "This run did not measure the layers of this sample.", "Leave the run out.");
        var grains = layers is null ? null : desk.Runs(sample, SectionDesk.Particles).FirstOrDefault(g => SectionDesk.AreOfOne(layers, g));
        return new SectionShape(sources.Problem, sources.Inputs, sources.LeftOut, sources.Scale is { } scale ? new SectionScaleShape(1000 * scale.MmPerPixel, scale.Origin) : null,
            [.. desk.StageMicrometers(sample).Select(p => new NamedPhotographShape(p.Id, p.FileName))],
            layers is null ? null : RunShape.Of(layers), layers is null ? null : SectionDesk.GrainParameters(layers), grains is null ? null : RunShape.Of(grains),
            layers is null ? [] : [.. MeasuredLayer.Of(layers).Concat(MeasuredLayer.Sublayers(layers)).Select(l => MeasuredLayerShape.Of(l, grains))]);
    }

    private static IResult TakeOver(Guid id, TakeOverAsk ask, OpenStudio studio)
    {
        var run = ask.RunId ?? throw new InputProblem("run-missing", "runId", "The request names no run.", "Name a run of the reading layers on this sample.");
        return Results.Json(new TakingOver(studio).TakeOver(id, run, Environment.UserName).Select(WrittenApi.Shape<LayerContent>).ToList());
    }

    private static IReadOnlyList<Guid>? Keys(string? samples) => string.IsNullOrWhiteSpace(samples) ? null
        : [.. samples.Split(',').Select(s => Guid.TryParse(s, out var id) ? id : throw new InputProblem("unknown-sample", s[..Math.Min(40, s.Length)], "This is no sample's key.", "Give keys with commas between."))];
}
