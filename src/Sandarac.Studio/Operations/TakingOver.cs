using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Makes what `layers` measured the record's layers.</summary>
public sealed class TakingOver(OpenStudio studio)
{
    /// <summary>
    /// Writes a run's layers into a sample's record, numbered from 1 at the bottom. A layer that is there keeps its name, its words and its stage and gets the run's thickness, as one
    /// more revision; without a scale it keeps a thickness that a person wrote. Layers that the run does not have stay. Doing so twice changes nothing.
    /// </summary>
    /// <returns>The sample's layers from the bottom up.</returns>
    /// <exception cref="InputProblem">No such sample or run; the run is of another reading or sample, or has no layers ("run-not-of-sample"); someone changed a layer meanwhile.</exception>
    public IReadOnlyList<SectionLayer> TakeOver(Guid sampleId, Guid runId, string userName)
    {
        var sample = new Samples(studio).Find(sampleId);
        var run = new SectionDesk(studio).Runs(sample, SectionDesk.Layers).FirstOrDefault(r => r.Id == runId)
            ?? throw new InputProblem("run-not-of-sample", runId.ToString(), "This run did not measure the layers of this sample.", "Propose its layers first.");
        var records = new SectionLayers(studio);
        var there = records.BySample(sample.PaintingId)[sampleId].ToDictionary(l => l.Content.Number);
        foreach (var measured in MeasuredLayer.Of(run))
        {
            if (!there.TryGetValue($"{measured.Number}", out var layer)) records.Create(sample.PaintingId, With(New(sampleId, measured), run, measured), userName);
            else if (With(layer.Content, run, measured) is var content && content != layer.Content) records.Change(layer.Id, layer.Revision, content, userName);
        }
        return [.. records.BySample(sample.PaintingId)[sampleId]];
    }

    private static LayerContent New(Guid sampleId, MeasuredLayer measured) =>
        new() { SampleId = sampleId, Number = $"{measured.Number}", Name = $"{measured.Colour?.Words ?? "unnamed"} layer", Observation = measured.Seen() };

    private static LayerContent With(LayerContent content, Run run, MeasuredLayer measured)
    {
        if (!measured.InUm && content is { MeanUm: not null } or { LowUm: not null } or { HighUm: not null }) return content;
        var scale = run.Figures.FirstOrDefault(f => f.Name == "um-per-pixel");
        return content with
        {
            MeanUm = Um(measured.Mean?.Value), LowUm = Um(measured.Low), HighUm = Um(measured.High), RunId = run.Id, RunLayer = measured.Number,
            ThicknessOrigin = $"{measured.Thickness()}; {(measured.InUm ? $"scale: {scale?.Note}" : "no scale, so in pixels only")}",
        };

        double? Um(double? value) => measured.InUm && value is { } v ? Math.Round(v, 2) : null;
    }
}
