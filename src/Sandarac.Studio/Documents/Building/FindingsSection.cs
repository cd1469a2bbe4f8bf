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

    /// <summary>Zones of the findings with their areas. The drawing of the plan is a <see cref="DrawingPicture"/> of its own.</summary>
    public static Section Plan(Draft draft)
    {
        List<IReadOnlyList<Prose>> rows = [.. draft.Content.Findings.SelectMany(f => Zones(draft, f).Select(z => (IReadOnlyList<Prose>)[draft.Phrases.Of(Phrase.FindingTitle, f.Content.Number), StudioTerms.NameOf(f.Content.Term), z.Name, Area(draft, z), Share(draft, z), Length(draft, z)]))];
        if (rows.Count == 0) return new Section(draft[Phrase.SectionPlan], new Paragraph(draft[Phrase.NoZones]));
        return new Section(draft[Phrase.SectionPlan], new Paragraph(draft[Phrase.PlanDrawingMissing]),
            new Table(draft[Phrase.PlanTable],
                [new Column(draft[Phrase.ColumnFinding]), new Column(draft[Phrase.ColumnTerm], Share: 1.4), new Column(draft[Phrase.ColumnZone], Share: 1.4), new Column(draft[Phrase.ColumnArea], ColumnKind.Number), new Column(draft[Phrase.ColumnShare], ColumnKind.Number), new Column(draft[Phrase.ColumnLength], ColumnKind.Number)], rows),
            new Paragraph(draft[draft.Painting.SizeUncertainty is null ? Phrase.SizeUncertaintyUnknown : Phrase.AreaUncertaintyHow], ParagraphLook.Small));
    }

    private static Section One(Draft draft, Finding finding)
    {
        var content = finding.Content;
        List<Fact> facts = [new Fact(draft[Phrase.Observation], content.Observation), new Fact(draft[Phrase.Interpretation], content.Interpretation.Length > 0 ? content.Interpretation : Prose.Of(draft[Phrase.NotRecorded], SpanLook.Emphasis))];
        facts.Add(new Fact(draft[Phrase.Confidence], draft[content.Confidence switch { Certainty.Certain => Phrase.ConfidenceCertain, Certainty.Probable => Phrase.ConfidenceProbable, _ => Phrase.ConfidencePossible }]));
        if (content.Term.Length > 0) facts.Add(new Fact(draft[Phrase.Term], content.Term.Replace("/", ": ", StringComparison.Ordinal)));
        var zones = Zones(draft, finding).ToList();
        facts.Add(new Fact(draft[Phrase.Zones], zones.Count == 0 ? draft[Phrase.NoZone] : new Prose([.. zones.SelectMany((z, i) => Extent(draft, z).Spans.Prepend(new Span($"{(i > 0 ? "; " : "")}{z.Name} ")))])));
        if (content.Severity.Length > 0) facts.Add(new Fact(draft[Phrase.Severity], draft.Phrases.Of(Phrase.SeverityBy, content.Severity, content.SeverityDefinition)));
        facts.Add(new Fact(draft[Phrase.Evidence], content.Evidence.Count == 0 ? Prose.Of(draft[Phrase.NotRecorded], SpanLook.Emphasis) : string.Join("; ", content.Evidence.Select(e => Words(draft, e)))));
        facts.Add(new Fact(draft[Phrase.SeenOn], draft.Phrases.Of(Phrase.SeenBy, content.SeenOn is { } day ? draft.Phrases.Date(day) : draft[Phrase.NotRecorded], content.Author)));
        if (finding.Revision > 1) facts.Add(new Fact(draft[Phrase.Revision], draft.Phrases.Of(Phrase.RevisionOf, finding.Revision, draft.Phrases.Date(finding.UpdatedAt))));
        var title = content.Term.Length > 0 ? draft.Phrases.Of(Phrase.FindingTitled, content.Number, StudioTerms.NameOf(content.Term)) : draft.Phrases.Of(Phrase.FindingTitle, content.Number);
        return new Section(title, new Facts(facts));
    }

    private static IEnumerable<ZoneFacts> Zones(Draft draft, Finding finding) => draft.Content.Zones.Where(z => finding.Content.Zones.Contains(z.Id));

    private static Prose Extent(Draft draft, ZoneFacts zone) => zone.AreaMm2 > 0
        ? "(" + Area(draft, zone) + Prose.Of("\u00A0mm2", SpanLook.Small) + ", " + Share(draft, zone) + Prose.Of("\u00A0%", SpanLook.Small) + ")"
        : zone.LengthMm > 0 ? "(" + Length(draft, zone) + Prose.Of("\u00A0mm", SpanLook.Small) + ")" : Prose.Empty;

    /// <summary>An area is as the square of the size: its relative uncertainty is twice the size's (Guide to the Expression of Uncertainty in Measurement, 5.1.6).</summary>
    private static Prose Area(Draft draft, ZoneFacts zone) => zone.AreaMm2 > 0 ? Prose.Measured(zone.AreaMm2, 2 * draft.Painting.SizeUncertainty * zone.AreaMm2, draft.Phrases) : Prose.Empty;

    private static Prose Share(Draft draft, ZoneFacts zone) => zone.AreaMm2 > 0 && draft.Painting is { WidthMm: > 0, HeightMm: > 0 } painting ? Prose.Of((100 * zone.AreaMm2 / (painting.WidthMm * painting.HeightMm)).ToString("0.00", draft.Phrases.Culture)) : Prose.Empty;

    private static Prose Length(Draft draft, ZoneFacts zone) => zone is { AreaMm2: 0, LengthMm: > 0 } ? Prose.Measured(zone.LengthMm, draft.Painting.SizeUncertainty * zone.LengthMm, draft.Phrases) : Prose.Empty;

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
