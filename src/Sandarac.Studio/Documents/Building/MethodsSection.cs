using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Which readings were run with what, so that the numbers can be had again; and the warnings that go with the results.</summary>
internal static class MethodsSection
{
    public static Section Of(Draft draft)
    {
        var ended = draft.Content.Runs.Where(r => r.State is RunState.Done or RunState.NoAnswer).ToList();
        var newest = ended.GroupBy(r => r.Key).Select(g => g.MaxBy(r => r.EndedAt)!).OrderBy(r => r.ReadingId, StringComparer.Ordinal).ThenBy(r => r.Id).ToList();
        if (newest.Count == 0) return new Section(draft[Phrase.SectionMethods], new Paragraph(draft[Phrase.NoReadings]));
        var table = new Table(draft[Phrase.MethodsTable], [new Column(draft[Phrase.ColumnReading], Share: 1.2), new Column(draft[Phrase.ColumnParameters], Share: 1.5), new Column(draft[Phrase.ColumnInputs], Share: 2.4), new Column(draft[Phrase.ColumnRun], Share: 1.3)], [.. newest.Select(r => Row(draft, r))]);
        return new Section(draft[Phrase.SectionMethods], [new Paragraph(draft[Phrase.MethodsHow]), table,
            .. newest.Count < ended.Count ? (IEnumerable<Block>)[new Paragraph(draft.Phrases.Of(Phrase.RunsRepeated, newest.Count, ended.Count), ParagraphLook.Small)] : []]);
    }

    public static Section Warnings(Draft draft)
    {
        var lines = draft.Content.Photographs.SelectMany(p => p.Warnings.Select(w => (From: p.FileName, w.Message)))
            .Concat(draft.Content.Runs.Where(r => r.State is RunState.Done or RunState.NoAnswer).SelectMany(r => r.Warnings.Select(w => (From: $"{ReadingsSection.DeclarationOf(r.ReadingId)?.Title ?? r.ReadingId}, {string.Join(", ", r.Inputs.Select(i => i.FileName).Distinct().Take(3))}", w.Message))))
            .Concat(draft.Painting.SizeWarnings.Select(w => (From: draft[Phrase.IdentityFace], w.Message)))
            .GroupBy(w => w.Message).Select(g => (Prose)draft.Phrases.Of(Phrase.WarningOf, string.Join("; ", g.Select(w => w.From).Distinct()), g.Key)).ToList();
        return new Section(draft[Phrase.SectionWarnings], lines.Count == 0 ? [new Paragraph(draft[Phrase.NoWarnings])] : [new Paragraph(draft[Phrase.WarningsHow]), .. ReadingsSection.InEnglish(draft), new BulletList(lines)]);
    }

    private static IReadOnlyList<Prose> Row(Draft draft, Run run) =>
    [
        $"{ReadingsSection.DeclarationOf(run.ReadingId)?.Title ?? run.ReadingId}\n{run.ReadingId} {run.ReadingVersion}", string.Join(", ", run.Parameters.Select(p => $"{p.Key} {p.Value}")),
        new Prose([.. run.Inputs.SelectMany((i, n) => new[] { new Span($"{(n > 0 ? "\n" : "")}{i.FileName} "), new Span(i.Sha256, SpanLook.Code) })]),
        Prose.Of(draft.Phrases.Of(Phrase.MethodsBy, draft.Phrases.Time(run.EndedAt ?? run.QueuedAt), run.UserName, run.SoftwareVersion.Split('+')[0]) + "\n") + Prose.Of(run.Id.ToString(), SpanLook.Code),
    ];
}
