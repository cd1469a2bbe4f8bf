using Sandarac.Imaging.Formats;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Studio.Documents.Building;

/// <summary>The files the document rests on, so that anyone can tell later whether they have the same ones.</summary>
internal static class FilesSection
{
    public static Section Of(Draft draft)
    {
        var table = new Table(draft[Phrase.FilesTable],
            [new Column(draft[Phrase.ColumnFile], Share: 1.2), new Column(draft[Phrase.ColumnPixels], Share: 0.8), new Column(draft[Phrase.ColumnKind], Share: 0.8), new Column(draft[Phrase.ColumnProfile]), new Column(draft[Phrase.ColumnCamera]), new Column("SHA-256", Share: 2)],
            [.. draft.Content.Photographs.Select(p => (IReadOnlyList<Prose>)[p.FileName, $"{p.Facts.Width} x {p.Facts.Height}", $"{p.Facts.Kind}, {Depth(draft, p.Facts)}", p.Facts.IccDescription ?? draft[Phrase.NoProfile], p.Facts.Camera ?? "", Prose.Of(p.Sha256, SpanLook.Code)])]);
        return new Section(draft[Phrase.SectionFiles], [new Paragraph(draft[Phrase.FilesHow]), .. table.Rows.Count > 0 ? (IEnumerable<Block>)[table] : []]);
    }

    private static string Depth(Draft draft, ImageFacts facts) => facts.Format switch
    {
        SampleFormat.UInt8 => draft.Phrases.Of(Phrase.BitsOf, facts.Bands, 8),
        SampleFormat.UInt16 => draft.Phrases.Of(Phrase.BitsOf, facts.Bands, 16),
        SampleFormat.UInt32 => draft.Phrases.Of(Phrase.BitsOf, facts.Bands, 32),
        SampleFormat.Float => draft.Phrases.Of(Phrase.BandsFloat, facts.Bands),
        _ => draft.Phrases.Of(Phrase.BandsSigned, facts.Bands),
    };
}
