using System.Globalization;
using Sandarac.Imaging;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>What the painting is, each part labelled. A part that nobody recorded says so.</summary>
internal static class IdentityFacts
{
    /// <summary>Title, number and size in one line.</summary>
    public static string Line(Draft draft) => string.Join(", ", new[] { draft.Painting.AccessionNumber, draft.Painting.Title, draft.Fields.Owner, draft.Phrases.Size(draft.Painting) }.Where(t => !string.IsNullOrEmpty(t)));

    /// <summary>The first page's facts and warnings.</summary>
    /// <param name="draft">The record.</param>
    /// <param name="isFormal">Whether what is not recorded is listed too, with purpose and author.</param>
    public static IReadOnlyList<Block> Blocks(Draft draft, bool isFormal) => [new Facts([.. Facts(draft, isFormal)]), .. Warnings(draft).Select(w => new Note(NoteKind.Warning, w))];

    /// <summary>When it was made, as far as known; null when nobody said.</summary>
    public static string? Years(Draft draft) => (draft.Painting.DateFrom, draft.Painting.DateTo) switch
    {
        ({ } from, { } to) when from == to => from.ToString(CultureInfo.InvariantCulture),
        ({ } from, { } to) => draft.Phrases.Of(Phrase.YearsBetween, Year(from), Year(to)),
        ({ } from, null) => draft.Phrases.Of(Phrase.YearFrom, Year(from)),
        (null, { } to) => draft.Phrases.Of(Phrase.YearTo, Year(to)),
        _ => null,
    };

    private static IEnumerable<Fact> Facts(Draft draft, bool isFormal)
    {
        var (painting, fields, phrases) = (draft.Painting, draft.Fields, draft.Phrases);
        (Phrase Name, string? Value, bool Always)[] known =
        [
            (Phrase.IdentityTitle, isFormal ? painting.Title : null, false), (Phrase.IdentityNumber, painting.AccessionNumber, isFormal), (Phrase.IdentityOwner, fields.Owner, isFormal), (Phrase.IdentityMaker, fields.Maker, isFormal),
            (Phrase.IdentityTechnique, painting.Technique, false), (Phrase.IdentitySupport, painting.Support, false), (Phrase.IdentityDate, Years(draft), isFormal), (Phrase.IdentityMarks, fields.Marks, isFormal),
            (Phrase.IdentityFace, Face(draft), true), (Phrase.Purpose, fields.Purpose, isFormal), (Phrase.Author, fields.Author, isFormal), (Phrase.DateOfDocument, isFormal ? phrases.Date(draft.Content.Now) : null, false),
            (Phrase.IdentityPhotographs, Counts(draft), true), (Phrase.IdentityPlaces, phrases[Phrase.PlacesHow], true), (Phrase.IdentityWritten, phrases.Of(Phrase.WrittenBy, phrases.Time(draft.Content.Now), Words.Software()), true),
            (Phrase.IdentityRecord, isFormal ? painting.Id.ToString() : null, false),
        ];
        foreach (var (name, value, always) in known)
            if (!string.IsNullOrWhiteSpace(value)) yield return new Fact(phrases[name], value);
            else if (always) yield return new Fact(phrases[name], Prose.Of(phrases[Phrase.NotRecorded], SpanLook.Emphasis));
    }

    private static string Face(Draft draft) => draft.Painting is { WidthMm: > 0 } painting
        ? draft.Phrases.Of(Phrase.FaceSize, draft.Phrases.Size(painting), draft.Phrases.Spread(painting), draft.Phrases.Origin(painting.SizeOrigin)) : draft[Phrase.FaceNotKnown];

    private static string Counts(Draft draft)
    {
        var verdicts = draft.Content.Photographs.Select(p => p.Alignments.InForce()?.Verdict ?? Verdict.NotAligned).ToLookup(v => v);
        return draft.Phrases.Of(Phrase.PhotographCounts, draft.Content.Photographs.Count, verdicts[Verdict.Aligned].Count(), verdicts[Verdict.Uncertain].Count(), verdicts[Verdict.NotAligned].Count());
    }

    private static IEnumerable<string> Warnings(Draft draft)
    {
        foreach (var warning in draft.Painting.SizeWarnings) yield return warning.Message;
        if (draft.Painting.SizeOrigin is ScaleOrigin.Metadata or ScaleOrigin.Assumed) yield return draft.Phrases.Of(Phrase.SizeUnsure, draft.Phrases.Origin(draft.Painting.SizeOrigin));
    }

    private static string Year(int year) => year.ToString(CultureInfo.InvariantCulture);
}
