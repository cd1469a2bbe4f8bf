using Sandarac.Analysis.Declaring;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Readings with their figures, uncertainties, notes and warnings. Readings made of one photograph at a time share a table.</summary>
internal static class ReadingsSection
{
    /// <param name="draft">The record.</param>
    /// <param name="isWhole">Whether every figure of a band, region or corner is given too: for pages, which fold them away.</param>
    public static Section? Of(Draft draft, bool isWhole)
    {
        var ended = draft.Content.Runs.Where(r => r.State is RunState.Done or RunState.NoAnswer or RunState.Failed).ToList();
        if (ended.Count == 0) return null;
        return new Section(draft[Phrase.SectionReadings], [.. InEnglish(draft)],
            [.. ended.GroupBy(r => (r.ReadingId, r.ReadingVersion)).OrderBy(g => g.Key.ReadingId, StringComparer.Ordinal).Select(g => Group(draft, g.Key.ReadingId, g.Key.ReadingVersion, [.. g], isWhole))]);
    }

    private static Section Group(Draft draft, string id, int version, IReadOnlyList<Run> runs, bool isWhole)
    {
        var declaration = DeclarationOf(id);
        List<Block> blocks = [new Paragraph(Prose.Of($"{declaration?.Summary} ") + Prose.Of($"{declaration?.Limits}", SpanLook.Small))];
        if (runs.All(r => r.Rasters.Count == 0)) blocks.AddRange(Together(draft, declaration, id, [.. runs.OrderBy(r => r.Inputs[0].FileName, StringComparer.Ordinal)], isWhole));
        else foreach (var run in runs) blocks.AddRange(One(draft, declaration, run));
        blocks.Add(new Paragraph($"{declaration?.Citation} {draft.Phrases.Of(Phrase.ReadingVersion, id, version)}".Trim(), ParagraphLook.Small));
        return new Section(declaration?.Title ?? id, blocks);
    }

    private static IEnumerable<Block> Together(Draft draft, Declaration? declaration, string id, IReadOnlyList<Run> runs, bool isWhole)
    {
        var names = runs.SelectMany(r => r.Figures).Where(f => f.Subject is null).Select(f => f.Name).Distinct().ToList();
        if (names.Count > 0)
            yield return new Table(draft.Phrases.Of(Phrase.ReadingTable, declaration?.Title ?? id), [new Column(draft[Phrase.ColumnPhotograph]), .. names.Select(n => new Column(Heading(declaration, n), ColumnKind.Number))],
                [.. runs.Select(r => (IReadOnlyList<Prose>)[r.Inputs[0].FileName, .. names.Select(n => Value(draft, r.Figures.FirstOrDefault(f => f.Name == n && f.Subject is null)))])]);
        foreach (var note in runs.SelectMany(r => Remarks(draft, r, $"{r.Inputs[0].FileName}: "))) yield return note;
        if (isWhole && runs.Any(r => r.Figures.Any(f => f.Subject is not null)))
            yield return new Aside(draft[Phrase.EveryFigure], [.. runs.Where(r => r.Figures.Count > 0).Select(r => Figures(draft, declaration, r))]);
    }

    private static IEnumerable<Block> One(Draft draft, Declaration? declaration, Run run)
    {
        yield return new Paragraph(draft.Phrases.Of(Phrase.ReadingFrom, string.Join(", ", run.Inputs.Select(i => $"{i.FileName} ({i.Slot})")), string.Join(", ", run.Parameters.Select(p => $"{p.Key} {p.Value}"))), ParagraphLook.Small);
        var rasters = draft.Content.Layers.Where(l => l.RunId == run.Id && l.IsReading).Select(draft.Plates.Of).ToList();
        if (rasters.Count > 0) yield return new Plates(rasters, rasters.Count == 1 ? 1 : 2);
        if (run.Figures.Count > 0) yield return Figures(draft, declaration, run);
        foreach (var note in Remarks(draft, run, "")) yield return note;
    }

    private static Table Figures(Draft draft, Declaration? declaration, Run run) => new(draft.Phrases.Of(Phrase.ReadingRunTable, declaration?.Title ?? run.ReadingId, string.Join(", ", run.Inputs.Select(i => i.FileName).Distinct().Take(3))),
        [new Column(draft[Phrase.ColumnFigure], Share: 2), new Column(draft[Phrase.ColumnValue], ColumnKind.Number), new Column(draft[Phrase.ColumnUnit], Share: 0.5), new Column(draft[Phrase.ColumnNote], Share: 2)],
        [.. run.Figures.Select(f => (IReadOnlyList<Prose>)[$"{Title(declaration, f.Name)}{(f.Subject is null ? "" : $", {f.Subject}")}", Value(draft, f), Unit(declaration, f.Name), f.Note ?? ""])]);

    private static IEnumerable<Note> Remarks(Draft draft, Run run, string before)
    {
        foreach (var warning in run.Warnings) yield return new Note(NoteKind.Warning, $"{before}{warning.Message}");
        if (run.NoAnswer is { } none) yield return new Note(NoteKind.Remark, $"{before}{draft.Phrases.Of(Phrase.NoAnswerBecause, none)}");
        if (run.Problem is { } problem) yield return new Note(NoteKind.Warning, $"{before}{problem.Message} {problem.Remedy}");
    }

    private static Prose Value(Draft draft, Figure? figure) => figure switch
    {
        null => Prose.Empty,
        { Value: null } => draft[Phrase.NoAnswer],
        { Value: { } value } => Prose.Measured(value, figure.Uncertainty, draft.Phrases),
    };

    private static Prose Heading(Declaration? declaration, string name) => Unit(declaration, name) is { Length: > 0 } unit ? Prose.Of(Title(declaration, name)) + Prose.Of($" {unit}", SpanLook.Small) : Title(declaration, name);

    /// <summary>What a document in another language says of the record's own texts.</summary>
    internal static IEnumerable<Block> InEnglish(Draft draft) => draft.Phrases.Language == "en" ? [] : [new Paragraph(draft[Phrase.EnglishRecord], ParagraphLook.Small)];

    internal static Declaration? DeclarationOf(string id) => ReadingCatalogue.All.FirstOrDefault(r => r.Declaration.Id == id)?.Declaration;

    private static string Title(Declaration? declaration, string name) => declaration?.Figures.FirstOrDefault(f => f.Name == name)?.Title ?? name;

    private static string Unit(Declaration? declaration, string name) => declaration?.Figures.FirstOrDefault(f => f.Name == name)?.Unit is { } unit && unit != "1" ? unit : "";
}
