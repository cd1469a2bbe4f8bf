using System.Globalization;
using Sandarac.Studio.Cleaning;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Cleaning tests: what was tried where, what it did to each layer, and what went further than planned.</summary>
internal static class CleaningSection
{
    /// <summary>The section; null when no test is on record.</summary>
    public static Section? Of(Draft draft)
    {
        var tests = new CleaningTests(draft.Studio).Of(draft.Painting.Id).OrderBy(t => t.Content.Number).ToList();
        if (tests.Count == 0) return null;
        List<Block> blocks = [.. Cautions.For(["UVL"], draft.Phrases).Append(draft[Phrase.CautionAgents]).Select(c => new Note(NoteKind.Caution, c)), new Paragraph(draft[Phrase.TestsHow])];
        var done = tests.Where(t => t.Content.DoneOn is not null).ToList();
        if (done.Count > 0) blocks.Add(new Table(draft[Phrase.TestsTable], Columns(draft, (Phrase.ColumnEffects, 2), (Phrase.ColumnSwab, 1.3), (Phrase.ColumnVerdict, 0.9)), [.. done.Select(t => Done(draft, t))]));
        if (tests.Count > done.Count) blocks.Add(new Table(draft[Phrase.TestsPlanned], Columns(draft, (Phrase.ColumnSeconds, 1)), [.. tests.Except(done).Select(t => Planned(draft, t))]));
        blocks.AddRange(done.SelectMany(t => TestFlags.Of(t.Content).Select(f => new Note(NoteKind.Warning, draft.Phrases.Of(Phrase.TestFlag, t.Content.Number, f.Message)))));
        return new Section(draft[Phrase.SectionTests], blocks);
    }

    private static IReadOnlyList<Column> Columns(Draft draft, params IEnumerable<(Phrase Title, double Share)> results) =>
        [new Column(draft[Phrase.ColumnTest]), new Column(draft[Phrase.ColumnAgent], Share: 2), new Column(draft[Phrase.ColumnPlace], Share: 1.5), .. results.Select(r => new Column(draft[r.Title], Share: r.Share))];

    private static IReadOnlyList<Prose> Done(Draft draft, CleaningTest test)
    {
        var c = test.Content;
        return [.. Begin(draft, test), Effects(draft, c), string.Join("; ", new[] { c.SwabColour, c.UltravioletAfter }.Where(t => t.Length > 0)), draft[WordOf(c.Verdict)]];
    }

    /// <summary>A line for each layer of which something is stated: a column for each would leave the verdict to another part of the table.</summary>
    private static string Effects(Draft draft, CleaningTestContent c) => string.Join('\n', new[] { (Phrase.ColumnDirt, c.OnDirt), (Phrase.ColumnVarnish, c.OnVarnish), (Phrase.ColumnOverpaint, c.OnOverpaint), (Phrase.ColumnOriginal, c.OnOriginal) }
        .Where(e => e.Item2 != TestEffect.NotStated).Select(e => $"{draft[e.Item1]}: {draft[WordOf(e.Item2)]}"));

    private static IReadOnlyList<Prose> Planned(Draft draft, CleaningTest test) => [.. Begin(draft, test), test.Content.PlannedSeconds is { } s ? draft.Phrases.Decimal(s.ToString("0.#", CultureInfo.InvariantCulture)) : draft[Phrase.NotRecorded]];

    private static IEnumerable<Prose> Begin(Draft draft, CleaningTest test)
    {
        var c = test.Content;
        yield return c.DoneOn is { } day ? $"{c.Number}, {draft.Phrases.Date(day)}, {c.DoneBy}" : $"{c.Number}";
        yield return string.Join("; ", new[] { AgentText.Of(c.Agent), c.Carrier, c.AgentNote, c.Seconds is { } s ? draft.Phrases.Decimal(s.ToString("0.# s", CultureInfo.InvariantCulture)) : "" }.Where(t => t.Length > 0));
        yield return $"{PlaceOf(draft, c)}, {draft[WordOf(c.Passage)]}";
    }

    private static string PlaceOf(Draft draft, CleaningTestContent test) => test.ZoneId is { } zone && draft.Content.Zones.FirstOrDefault(z => z.Id == zone) is { } there ? there.Name
        : test is { X: { } x, Y: { } y } ? draft.Phrases.Decimal(Place.Text(x, y, draft.Painting.HeightMm)) : draft[Phrase.PlaceNotKnown];

    private static Phrase WordOf(Passage passage) => passage switch { Passage.Light => Phrase.PassageLight, Passage.Dark => Phrase.PassageDark, _ => Phrase.PassageParticular };

    private static Phrase WordOf(TestEffect effect) => effect switch { TestEffect.None => Phrase.EffectNone, TestEffect.Softened => Phrase.EffectSoftened, TestEffect.Reduced => Phrase.EffectReduced, _ => Phrase.EffectRemoved };

    private static Phrase WordOf(TestVerdict verdict) => verdict switch { TestVerdict.TooWeak => Phrase.VerdictTooWeak, TestVerdict.AsIntended => Phrase.VerdictAsIntended, TestVerdict.TooStrong => Phrase.VerdictTooStrong, _ => Phrase.VerdictOpen };
}
