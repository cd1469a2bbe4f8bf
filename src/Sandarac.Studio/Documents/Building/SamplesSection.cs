using Sandarac.Studio.BuildUp;
using Sandarac.Studio.BuildUp.Drawing;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;
using Stratigraphy = Sandarac.Analysis.Sections.Drawn.Stratigraphy;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Samples with their layers, drawn to one scale, and the build-up that follows from them.</summary>
internal static class SamplesSection
{
    /// <summary>As many columns as a page's width bears.</summary>
    private const int InOneDrawing = 3;

    public static Section Of(Draft draft)
    {
        var samples = draft.Content.Samples;
        if (samples.Count == 0) return new Section(draft[Phrase.SectionStratigraphy], new Paragraph(draft[Phrase.NoSamples]));
        List<Block> blocks =
        [
            new Table(draft[Phrase.SampleTable], [new Column(draft[Phrase.ColumnSample], Share: 0.6), new Column(draft[Phrase.ColumnPlace], Share: 1.2), new Column(draft[Phrase.ColumnQuestion], Share: 2), new Column(draft[Phrase.ColumnTaken], Share: 1.2)], [.. samples.Select(s => Row(draft, s))]),
            .. new Columns(draft.Studio).Of(draft.Painting.Id).Chunk(InOneDrawing).Select(c => new Plates([new Plate(Drawing.Of(Stratigraphy.Svg(c)), draft[Phrase.StratigraphyDrawn], draft.Phrases.Of(Phrase.StratigraphyAlt, c.Length))])),
        ];
        var layers = new SectionLayers(draft.Studio).BySample(draft.Painting.Id);
        return new Section(draft[Phrase.SectionStratigraphy], blocks, [.. samples.Where(s => layers[s.Id].Any() || s.Content.Observation.Length + s.Content.Interpretation.Length > 0).Select(s => One(draft, s, [.. layers[s.Id]]))]);
    }

    public static Section BuildUp(Draft draft)
    {
        var known = new BuildUpDesk(draft.Studio).Of(draft.Painting.Id);
        if (known.Stages.Count == 0) return new Section(draft[Phrase.SectionBuildUp], new Paragraph(draft[Phrase.NoBuildUp]));
        return new Section(draft[Phrase.SectionBuildUp], [new Plates([new Plate(Drawing.Of(BuildUpDrawing.Draw(known.Order)), draft[Phrase.BuildUpDrawn], draft[Phrase.BuildUpAlt])]), new Paragraph(string.Join(' ', known.Prose)),
            .. known.Order.Contradictions.Select(c => new Note(NoteKind.Warning, draft.Phrases.Of(Phrase.BuildUpContradiction, BuildUpProse.Chain(known.Order, c.Chain))))]);
    }

    private static IReadOnlyList<Prose> Row(Draft draft, Sample sample) =>
    [
        sample.Content.Number, sample.Content is { X: { } x, Y: { } y } ? Place.Text(x, y, draft.Painting.HeightMm) : draft[Phrase.PlaceNotKnown], sample.Content.Why,
        string.Join(", ", new[] { sample.Content.TakenOn is { } day ? draft.Phrases.Date(day) : "", sample.Content.TakenBy }.Where(t => t.Length > 0)),
    ];

    private static Section One(Draft draft, Sample sample, IReadOnlyList<SectionLayer> layers)
    {
        List<Block> blocks = [];
        Fact[] facts = [.. new[] { (Phrase.Observation, sample.Content.Observation), (Phrase.Interpretation, sample.Content.Interpretation) }.Where(f => f.Item2.Length > 0).Select(f => new Fact(draft[f.Item1], f.Item2))];
        if (facts.Length > 0) blocks.Add(new Facts(facts));
        if (layers.Count > 0)
            blocks.Add(new Table(draft.Phrases.Of(Phrase.LayersOfSample, sample.Content.Number),
                [new Column(draft[Phrase.ColumnLayer], Share: 1.4), new Column(draft[Phrase.Materials], Share: 1.6), new Column(draft[Phrase.ColumnThickness], ColumnKind.Number), new Column(draft[Phrase.ColumnRange]), new Column(draft[Phrase.Observation], Share: 2), new Column(draft[Phrase.Interpretation], Share: 2)],
                [.. layers.Select(l => (IReadOnlyList<Prose>)[$"{l.Content.Number} {l.Content.Name}", l.Content.Materials, Um(draft, l.Content.MeanUm), l.Content is { LowUm: { } low, HighUm: { } high } ? $"{Um(draft, low)}, {Um(draft, high)}" : "", l.Content.Observation, l.Content.Interpretation])]));
        return new Section(draft.Phrases.Of(Phrase.EvidenceSample, sample.Content.Number) is var title ? char.ToUpper(title[0], draft.Phrases.Culture) + title[1..] : "", blocks);
    }

    private static string Um(Draft draft, double? um) => um?.ToString("0.#", draft.Phrases.Culture) ?? "";
}
