using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Every photograph with its scale bar, its light, and what to know about it; and how each was put on the plane.</summary>
internal static class PhotographsSection
{
    public static Section Pictures(Draft draft, Phrase title = Phrase.SectionPhotographs)
    {
        List<Block> cautions = [.. Cautions.For(draft.Content.Photographs.Select(p => p.Light), draft.Phrases).Select(c => new Note(NoteKind.Caution, c))];
        if (draft.Content.Photographs.Count == 0) cautions.Add(new Paragraph(draft[Phrase.NoPhotographs]));
        return new Section(draft[title], cautions,
        [
            .. Group(draft, Phrase.PhotographsOnPlane, 2, p => IsOnPlane(p)),
            .. Group(draft, Phrase.PhotographsOffPlane, 2, p => !IsOnPlane(p) && !IsForCalibration(p)),
            .. Group(draft, Phrase.PhotographsCalibration, 4, p => !IsOnPlane(p) && IsForCalibration(p)),
        ]);
    }

    public static Section Alignment(Draft draft)
    {
        var belonging = draft.Content.Photographs.Where(Belongs).ToList();
        var table = new Table(draft[Phrase.AlignmentTable],
            [new Column(draft[Phrase.ColumnPhotograph], Share: 1.4), new Column(draft[Phrase.ColumnVerdict], Share: 0.6), new Column(draft[Phrase.ColumnMmInPixel], ColumnKind.Number), new Column(draft[Phrase.ColumnResidual], ColumnKind.Number), new Column(draft[Phrase.ColumnWhy], Share: 3)],
            [.. belonging.Select(p => Row(draft, p))]);
        return new Section(draft[Phrase.SectionAlignment], [new Paragraph(draft[Phrase.AlignmentHow]), .. belonging.Count > 0 ? (IEnumerable<Block>)[table] : [],
            .. draft.Content.Photographs.Where(p => !Belongs(p)).GroupBy(p => p.Alignments.InForce()!.Reason).Select(g => new Paragraph(draft.Phrases.Of(Phrase.NotOnPlane, string.Join(", ", g.Select(p => p.FileName)), g.Key), ParagraphLook.Small))]);
    }

    private static IEnumerable<Section> Group(Draft draft, Phrase title, int columns, Func<Photograph, bool> belongs)
    {
        var photographs = draft.Content.Photographs.Where(belongs).OrderBy(p => Order(p.Light)).ThenBy(p => p.Subject).ThenBy(p => p.FileName, StringComparer.Ordinal).ToList();
        if (photographs.Count == 0) yield break;
        var plates = photographs.Select(draft.Plates.Of).OfType<Plate>().ToList();
        yield return new Section(draft[title], [.. plates.Count > 0 ? (IEnumerable<Block>)[new Plates(plates, columns)] : [],
            .. photographs.Where(p => draft.Content.LayerOf(p) is null).Select(p => new Note(NoteKind.Warning, draft.Phrases.Of(Phrase.NoPicture, p.FileName)))]);
    }

    private static bool IsOnPlane(Photograph photograph) => photograph.Alignments.InForce() is { PlaneImage: not null };

    private static bool IsForCalibration(Photograph photograph) => photograph.Subject is PhotographSubject.Chart or PhotographSubject.FlatField or PhotographSubject.DarkFrame;

    private static int Order(string? light) => light is null ? int.MaxValue : Light.All.TakeWhile(l => l.Code != light).Count();

    /// <summary>Photographs of the whole painting belong on the plane; others are only named, once they have a reason.</summary>
    private static bool Belongs(Photograph photograph) => photograph.Subject == PhotographSubject.Painting || photograph.Alignments.InForce() is not { Verdict: Verdict.NotAligned };

    private static IReadOnlyList<Prose> Row(Draft draft, Photograph photograph)
    {
        var alignment = photograph.Alignments.InForce();
        return
        [
            photograph.FileName, draft.Phrases.VerdictOf(alignment?.Verdict), alignment?.MmPerPixel is { } mm ? draft.Phrases.Decimal(Rounding.Significant(mm, 4)) : "",
            alignment?.Residuals?.P95Mm is { } p95 ? draft.Phrases.Decimal(Rounding.Significant(p95, 2)) : "", $"{Words.Sentence(alignment?.Reason ?? draft[Phrase.NobodyTried])} {alignment?.Residuals?.Note}".TrimEnd(),
        ];
    }
}
