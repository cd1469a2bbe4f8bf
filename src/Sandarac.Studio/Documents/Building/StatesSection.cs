using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Condition states in the order of their days, each with how its findings stand to the baseline, and with what was signed.</summary>
internal static class StatesSection
{
    public static Section Of(Draft draft) => draft.Content.States.Count == 0 ? new Section(draft[Phrase.SectionStates], new Paragraph(draft[Phrase.NoStates])) : new Section(draft[Phrase.SectionStates], [], [.. draft.Content.States.Select(s => One(draft, s))]);

    private static Section One(Draft draft, ConditionState state)
    {
        var (content, seal) = (state.Content, draft.Content.Seals.FirstOrDefault(s => s.StateId == state.Id));
        List<Fact> facts = [new Fact(draft[Phrase.DateOfDocument], content.On is { } day ? draft.Phrases.Date(day) : draft[Phrase.NotRecorded])];
        if (content.Place.Length > 0) facts.Add(new Fact(draft[Phrase.StatePlace], content.Place));
        facts.Add(new Fact(draft[Phrase.StateBaseline], content.BaselineId is { } id ? draft.Content.States.FirstOrDefault(s => s.Id == id)?.Content.Name ?? draft[Phrase.EvidenceGone] : draft[Phrase.StateIsBaseline]));
        if (content.Note.Length > 0) facts.Add(new Fact(draft[Phrase.ColumnNote], content.Note));
        if (seal is null) facts.Add(new Fact("SHA-256", draft[Phrase.NotSealed]));
        else
        {
            facts.Add(new Fact("SHA-256", Prose.Of(draft.Phrases.Of(Phrase.StateSealed, draft.Phrases.Time(seal.At), seal.By) + ". ") + Prose.Of(seal.Sha256, SpanLook.Code)));
            if (seal.OpenReason.Length > 0) facts.Add(new Fact(draft[Phrase.StandingOpen], seal.OpenReason));
        }
        List<Block> blocks = [new Facts(facts)];
        if (content.Entries.Count > 0)
            blocks.Add(new Table(draft[Phrase.StateEntries], [new Column(draft[Phrase.ColumnFinding]), new Column(draft[Phrase.ColumnStanding]), new Column(draft[Phrase.ColumnNote], Share: 3)], [.. content.Entries.Select(e => Row(draft, e))]));
        if (seal is { Signatures.Count: > 0 })
            blocks.Add(new Signatures([.. seal.Signatures.OrderBy(s => s.Number).Select(s => new SignatureLine(s.Organisation.Length > 0 ? draft.Phrases.Of(Phrase.SignedAs, s.Role, s.Organisation) : s.Role, s.Name, draft.Phrases.Time(s.At)))]));
        return new Section($"{content.Name}, {draft[WordOf(content.Occasion)]}", blocks);
    }

    private static IReadOnlyList<Prose> Row(Draft draft, StateEntry entry)
    {
        var finding = draft.Content.Findings.FirstOrDefault(f => f.Id == entry.FindingId);
        return [finding is null ? draft[Phrase.EvidenceGone] : $"{draft.Phrases.Of(Phrase.FindingTitle, finding.Content.Number)} {StudioTerms.NameOf(finding.Content.Term)}".TrimEnd(), draft[WordOf(entry.Standing)], entry.Note];
    }

    private static Phrase WordOf(Standing standing) => standing switch
    {
        Standing.AsBefore => Phrase.StandingAsBefore,
        Standing.Changed => Phrase.StandingChanged,
        Standing.New => Phrase.StandingNew,
        Standing.Gone => Phrase.StandingGone,
        _ => Phrase.StandingOpen,
    };

    private static Phrase WordOf(Occasion occasion) => occasion switch
    {
        Occasion.BeforeTreatment => Phrase.OccasionBeforeTreatment,
        Occasion.DuringTreatment => Phrase.OccasionDuringTreatment,
        Occasion.AfterTreatment => Phrase.OccasionAfterTreatment,
        Occasion.Outgoing => Phrase.OccasionOutgoing,
        Occasion.Incoming => Phrase.OccasionIncoming,
        Occasion.Check => Phrase.OccasionCheck,
        _ => Phrase.OccasionExamination,
    };
}
