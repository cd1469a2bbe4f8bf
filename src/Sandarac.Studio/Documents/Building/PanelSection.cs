using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;
using Sandarac.Studio.Rings;

namespace Sandarac.Studio.Documents.Building;

/// <summary>The rings of the panel's boards, and the dates that a person accepted, with what they rest on.</summary>
internal static class PanelSection
{
    /// <summary>The section; null when no board's rings are on record.</summary>
    public static Section? Of(Draft draft) => new RingSeriesRecords(draft.Studio).Of(draft.Painting.Id) is { Count: > 0 } series
        ? new Section(draft[Phrase.SectionPanel],
            new Table(draft[Phrase.PanelTable],
                [new Column(draft[Phrase.ColumnSeries]), new Column(draft[Phrase.ColumnBoard], Share: 1.4), new Column(draft[Phrase.ColumnRings], ColumnKind.Number), new Column(draft[Phrase.ColumnMeanWidth], ColumnKind.Number), new Column(draft[Phrase.ColumnSapwood]), new Column(draft[Phrase.ColumnGrown], Share: 1.2), new Column(draft[Phrase.ColumnDateBasis], Share: 2.4)],
                [.. series.Select(s => Row(draft, s.Content))]),
            new Note(NoteKind.Remark, draft[Phrase.PanelCaution]))
        : null;

    private static IReadOnlyList<Prose> Row(Draft draft, RingSeriesContent c) =>
    [
        c.Name, c.Board, c.WidthsMm.Count.ToString(draft.Phrases.Culture), c.WidthsMm.Average().ToString("0.00", draft.Phrases.Culture), c.HasWaneyEdge ? draft[Phrase.SapwoodToBark] : c.SapwoodRings?.ToString(draft.Phrases.Culture) ?? draft[Phrase.SapwoodNone],
        c.FirstYear is { } first ? $"{first}\u2013{RingSeriesRecords.Recorded(RingSeriesRecords.Widths(c).LastYear)}" : draft[Phrase.NoDate], string.Join("; ", new[] { c.DateBasis, c.Origin, c.Note }.Where(t => t.Length > 0)),
    ];
}
