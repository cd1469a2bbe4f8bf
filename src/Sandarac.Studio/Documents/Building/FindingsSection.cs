using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>What people state, each finding with what is seen apart from what is made of it, and what it rests on.</summary>
internal static class FindingsSection
{
    public static Section Of(Draft draft, Phrase title = Phrase.SectionFindings)
    {
        List<Block> blocks = [];
        if (draft.Content.Findings.Count == 0) blocks.Add(new Paragraph(draft[Phrase.NoFindings]));
        if (draft.Content.Zones.Count(z => z.IsCandidate) is > 0 and var left) blocks.Add(new Note(NoteKind.Remark, draft.Phrases.Of(Phrase.CandidatesLeft, left)));
        return new Section(draft[title], blocks, [.. draft.Content.Findings.Select(f => One(draft, f))]);
    }

    private static Section One(Draft draft, Finding finding)
    {
        var content = finding.Content;
        List<Fact> facts = [new Fact(draft[Phrase.Observation], content.Observation), new Fact(draft[Phrase.Interpretation], content.Interpretation.Length > 0 ? content.Interpretation : Prose.Of(draft[Phrase.NotRecorded], SpanLook.Emphasis))];
        facts.Add(new Fact(draft[Phrase.Confidence], draft[content.Confidence switch { Certainty.Certain => Phrase.ConfidenceCertain, Certainty.Probable => Phrase.ConfidenceProbable, _ => Phrase.ConfidencePossible }]));
        if (content.Term.Length > 0) facts.Add(new Fact(draft[Phrase.Term], content.Term.Replace("/", ": ", StringComparison.Ordinal)));
        facts.Add(new Fact(draft[Phrase.Zones], PlanSection.Zones(draft, finding)));
        if (content.Severity.Length > 0) facts.Add(new Fact(draft[Phrase.Severity], draft.Phrases.Of(Phrase.SeverityBy, content.Severity, content.SeverityDefinition)));
        facts.Add(new Fact(draft[Phrase.Evidence], content.Evidence.Count == 0 ? Prose.Of(draft[Phrase.NotRecorded], SpanLook.Emphasis) : string.Join("; ", content.Evidence.Select(e => Words(draft, e)))));
        facts.Add(new Fact(draft[Phrase.SeenOn], draft.Phrases.Of(Phrase.SeenBy, content.SeenOn is { } day ? draft.Phrases.Date(day) : draft[Phrase.NotRecorded], content.Author)));
        if (finding.Revision > 1) facts.Add(new Fact(draft[Phrase.Revision], draft.Phrases.Of(Phrase.RevisionOf, finding.Revision, draft.Phrases.Date(finding.UpdatedAt))));
        var title = content.Term.Length > 0 ? draft.Phrases.Of(Phrase.FindingTitled, content.Number, StudioTerms.NameOf(content.Term)) : draft.Phrases.Of(Phrase.FindingTitle, content.Number);
        return new Section(title, new Facts(facts));
    }

    private static string Words(Draft draft, Evidence evidence)
    {
        var named = evidence.Kind switch
        {
            EvidenceKind.Photograph => draft.Phrases.Of(Phrase.EvidencePhotograph, draft.Content.Photographs.FirstOrDefault(p => p.Id == evidence.Id)?.FileName ?? draft[Phrase.EvidenceGone]),
            EvidenceKind.Reading => draft.Phrases.Of(Phrase.EvidenceReading, draft.Content.Runs.FirstOrDefault(r => r.Id == evidence.Id) is { } run ? $"{run.ReadingId} {run.ReadingVersion} ({run.Id})" : draft[Phrase.EvidenceGone]),
            EvidenceKind.Sample => draft.Phrases.Of(Phrase.EvidenceSample, draft.Content.Samples.FirstOrDefault(s => s.Id == evidence.Id)?.Content.Number ?? draft[Phrase.EvidenceGone]),
            EvidenceKind.Finding => draft.Phrases.Of(Phrase.EvidenceFinding, draft.Content.Findings.FirstOrDefault(f => f.Id == evidence.Id) is { } other ? other.Content.Number : draft[Phrase.EvidenceGone]),
            _ => "",
        };
        return string.Join(": ", new[] { named, evidence.Note }.Where(t => t.Length > 0));
    }
}
