using System.Globalization;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Makes what `layers` measured the record's layers.</summary>
public sealed class TakingOver(OpenStudio studio)
{
    /// <summary>A layer on record and the measured one that it is.</summary>
    private sealed record Pair(SectionLayer Layer, MeasuredLayer Measured, MeasuredLayer? Before);

    /// <summary>
    /// Writes a run's layers into a sample's record, numbered from 1 at the bottom. A layer that was taken over before is recognised by its place in the micrograph, one written by hand by its
    /// number; it keeps what a person wrote and gets the run's thickness, as one more revision; without a scale it keeps its thickness. A layer taken over before that the run does not
    /// have any more is taken out if nobody wrote anything of it. Sublayers become layers of their own, 2a and 2b, beside the layer whose parts they are, unless those numbers are a person's.
    /// Doing so twice changes nothing.
    /// </summary>
    /// <returns>The sample's layers from the bottom up.</returns>
    /// <exception cref="InputProblem">No such sample; the run is of another reading or sample ("run-not-of-sample"); a layer of which a person wrote is not among those measured
    /// ("layers-differ"), then nothing is written; someone changed a layer meanwhile.</exception>
    public IReadOnlyList<SectionLayer> TakeOver(Guid sampleId, Guid runId, string userName)
    {
        var sample = new Samples(studio).Find(sampleId);
        var runs = new SectionDesk(studio).Runs(sample, SectionDesk.Layers);
        var run = runs.FirstOrDefault(r => r.Id == runId) ?? throw new InputProblem("run-not-of-sample", runId.ToString(), "This run did not measure the layers of this sample.", "Propose its layers first.");
        var records = new SectionLayers(studio);
        List<SectionLayer> there = [.. records.BySample(sample.PaintingId)[sampleId]];
        var measured = MeasuredLayer.Of(run);
        var pairs = Pairs(there, measured, run, runs);
        foreach (var left in Left(there, pairs, measured.Count, runs)) records.Delete(left.Id, left.Revision, userName);
        foreach (var pair in InOrder(pairs))
            if (With(pair.Layer.Content, run, pair.Measured, pair.Before) is var content && content != pair.Layer.Content) records.Change(pair.Layer.Id, pair.Layer.Revision, content, userName);
        foreach (var layer in measured.ExceptBy(pairs.Select(p => p.Measured.Number), m => m.Number))
            records.Create(sample.PaintingId, With(new LayerContent { SampleId = sampleId, Number = $"{layer.Number}", Name = NameOf(layer), Observation = layer.Seen() }, run, layer, null), userName);
        TakeOverParts(sample, run, runs, userName);
        return [.. records.BySample(sample.PaintingId)[sampleId]];
    }

    /// <summary>Sublayers by their numbers: what an earlier run called 2a is the later one's 2a, or is taken out.</summary>
    private void TakeOverParts(Sample sample, Run run, IReadOnlyList<Run> runs, string userName)
    {
        var (records, parts) = (new SectionLayers(studio), MeasuredLayer.Sublayers(run));
        List<SectionLayer> there = [.. records.BySample(sample.PaintingId)[sample.Id]];
        foreach (var layer in there)
        {
            if (PartBefore(layer, runs) is not { } before) continue;
            if (parts.FirstOrDefault(p => p.Name == before.Name) is not { } part)
            {
                if (IsUntouched(layer.Content, before)) records.Delete(layer.Id, layer.Revision, userName);
            }
            else if (With(layer.Content, run, part, before) is var content && content != layer.Content) records.Change(layer.Id, layer.Revision, content, userName);
        }
        foreach (var part in parts.ExceptBy(there.Select(l => l.Content.Number), p => p.Name))
            records.Create(sample.PaintingId, With(new LayerContent { SampleId = sample.Id, Number = part.Name, Name = NameOf(part), Observation = part.Seen() }, run, part, null), userName);
    }

    /// <summary>The sublayer that was taken over; null for a layer and for what is written by hand.</summary>
    private static MeasuredLayer? PartBefore(SectionLayer layer, IReadOnlyList<Run> runs) => layer.Content is { RunLayer: null, RunId: { } id, Number: var number }
        && runs.FirstOrDefault(r => r.Id == id) is { } run ? MeasuredLayer.Sublayers(run).FirstOrDefault(p => p.Name == number) : null;

    private List<Pair> Pairs(List<SectionLayer> there, IReadOnlyList<MeasuredLayer> measured, Run run, IReadOnlyList<Run> runs)
    {
        var desk = new SectionDesk(studio);
        var now = desk.Proposals(run.Id);
        var matches = there.Select(l => l.Content.RunId).OfType<Guid>().Distinct().Where(id => runs.Any(r => r.Id == id)).ToDictionary(id => id, id => LayerMatching.Match(desk.Proposals(id), now));
        var pairs = new List<Pair>();
        foreach (var layer in there.Where(l => IsTakenOver(l, runs)))
            if (matches[layer.Content.RunId!.Value].TryGetValue(layer.Content.RunLayer!.Value, out var number) && !pairs.Any(p => p.Measured.Number == number)) pairs.Add(new Pair(layer, measured[number - 1], Before(layer, runs)));
        foreach (var layer in there.Where(l => !IsTakenOver(l, runs)))
            if (measured.FirstOrDefault(m => $"{m.Number}" == layer.Content.Number) is { } same && !pairs.Any(p => p.Measured == same)) pairs.Add(new Pair(layer, same, null));
        return pairs;
    }

    /// <summary>Layers that stand in the way of those measured, or were taken over and are not among them: to be taken out.</summary>
    private static List<SectionLayer> Left(List<SectionLayer> there, List<Pair> pairs, int count, IReadOnlyList<Run> runs)
    {
        List<SectionLayer> left = [.. there.ExceptBy(pairs.Select(p => p.Layer.Id), l => l.Id).Where(l => IsTakenOver(l, runs) || (Whole(l) is { } number && number <= count))];
        return left.FirstOrDefault(l => Before(l, runs) is not { } before || !IsUntouched(l.Content, before)) is not { } written ? left
            : throw new InputProblem("layers-differ", written.Content.Number, $"Layer {written.Content.Number} on record, {written.Content.Name}, is not among the layers measured.", "Steer the boundaries until it is, give it a number of its own such as 2a, or take it out; then take over again.");
    }

    /// <summary>Numbers fall from the bottom up, then rise from the top down: so that none is ever given twice.</summary>
    private static IEnumerable<Pair> InOrder(List<Pair> pairs) => pairs.Where(p => Whole(p.Layer) >= p.Measured.Number).OrderBy(p => p.Measured.Number).Concat(pairs.Where(p => !(Whole(p.Layer) >= p.Measured.Number)).OrderByDescending(p => p.Measured.Number));

    private static LayerContent With(LayerContent content, Run run, MeasuredLayer measured, MeasuredLayer? before)
    {
        content = content with
        {
            Number = int.TryParse(content.Number, CultureInfo.InvariantCulture, out _) ? $"{measured.Number}" : content.Number,
            Name = before is not null && content.Name == NameOf(before) ? NameOf(measured) : content.Name,
            Observation = before is not null && content.Observation == before.Seen() ? measured.Seen() : content.Observation,
        };
        if (!measured.InUm && content is { MeanUm: not null } or { LowUm: not null } or { HighUm: not null }) return content;
        var scale = run.Figures.FirstOrDefault(f => f.Name == "um-per-pixel");
        return content with
        {
            MeanUm = Um(measured.Mean?.Value), LowUm = Um(measured.Low), HighUm = Um(measured.High), RunId = run.Id, RunLayer = measured.Part.Length == 0 ? measured.Number : null,
            ThicknessOrigin = $"{measured.Thickness()}; {(measured.InUm ? $"scale: {scale?.Note}" : "no scale, so in pixels only")}",
        };

        double? Um(double? value) => measured.InUm && value is { } v ? Math.Round(v, 2) : null;
    }

    private static string NameOf(MeasuredLayer measured) => $"{measured.Colour?.Words ?? "unnamed"} layer";

    private static bool IsTakenOver(SectionLayer layer, IReadOnlyList<Run> runs) => Before(layer, runs) is not null;

    /// <summary>What was taken over last; null for a layer written by hand.</summary>
    private static MeasuredLayer? Before(SectionLayer layer, IReadOnlyList<Run> runs) =>
        runs.FirstOrDefault(r => r.Id == layer.Content.RunId) is { } run ? MeasuredLayer.Of(run).FirstOrDefault(m => m.Number == layer.Content.RunLayer) : null;

    /// <summary>Whether nobody wrote anything of a layer since it was taken over.</summary>
    private static bool IsUntouched(LayerContent content, MeasuredLayer before) =>
        content is { StageId: null, Materials: "", Interpretation: "" } && content.Name == NameOf(before) && content.Observation == before.Seen();

    private static int? Whole(SectionLayer layer) => int.TryParse(layer.Content.Number, CultureInfo.InvariantCulture, out var number) ? number : null;
}
