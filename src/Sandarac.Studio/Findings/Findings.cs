using Microsoft.EntityFrameworkCore;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Findings: what people state of a painting, and what it rests on.</summary>
public sealed class Findings(OpenStudio studio) : WrittenRecords<Finding, FindingContent>(studio, "finding")
{
    /// <summary>The painting's finding with a number, taken out or not; null when there is none.</summary>
    public Finding? Numbered(Guid paintingId, int number)
    {
        using var db = Studio.CreateDb();
        return db.Findings.AsNoTracking().FirstOrDefault(f => f.PaintingId == paintingId && f.Content.Number == number);
    }

    private protected override Finding Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override void Alongside(StudioDb db, Finding row) => SearchIndex.Put(db, row);

    private protected override FindingContent Checked(StudioDb db, Finding row, FindingContent content)
    {
        if (string.IsNullOrWhiteSpace(content.Observation)) throw Wrong("finding-observation", "observation", "The finding does not say what is seen.", "Write the observation; what you make of it has its own field.");
        if (string.IsNullOrWhiteSpace(content.Author)) throw Wrong("finding-author", "author", "The finding does not say who states it.", "Give the author's name.");
        if (!Enum.IsDefined(content.Confidence)) throw Wrong("finding-confidence", "confidence", "There is no such confidence.", "Choose certain, probable or possible.");
        if (content.Term.Length > 0 && !StudioTerms.Exists(db, content.Term)) throw Wrong("unknown-term", content.Term, $"\"{StudioTerms.NameOf(content.Term)}\" is no term of this studio.", "Choose one of the list, or add it to the studio's own terms.");
        if (string.IsNullOrWhiteSpace(content.Severity) != string.IsNullOrWhiteSpace(content.SeverityDefinition))
            throw Wrong("finding-severity", "severity", "A severity says nothing without its definition, nor the other way round.", "Write both, \"severe: paint can be lost at any touch\" for instance, or neither.");
        if (content.SeenOn is { } day && day > DateOnly.FromDateTime(Studio.Now).AddDays(1)) throw Wrong("finding-date", "seenOn", "The day lies in the future.", "Give the day on which it was seen.");
        foreach (var zone in content.Zones) Relations.RequireZone(db, row.PaintingId, zone);
        foreach (var evidence in content.Evidence) CheckEvidence(db, row, evidence);
        return content with
        {
            Number = row.Revision == 0 ? 1 + (db.Findings.Where(f => f.PaintingId == row.PaintingId).Max(f => (int?)f.Content.Number) ?? 0) : row.Content.Number,
            Observation = content.Observation.Trim(), Interpretation = content.Interpretation.Trim(), Severity = content.Severity.Trim(), SeverityDefinition = content.SeverityDefinition.Trim(), Author = content.Author.Trim(),
            Zones = [.. content.Zones.Distinct()], Evidence = [.. content.Evidence.Distinct()],
        };
    }

    private static void CheckEvidence(StudioDb db, Finding row, Evidence evidence)
    {
        Readable("evidence", evidence.Note);
        if (evidence.Kind == EvidenceKind.Literature)
        {
            if (evidence.Id is not null || string.IsNullOrWhiteSpace(evidence.Note)) throw Wrong("evidence-literature", "evidence", "Literature is named in words.", "Write author, title, year and page.");
            return;
        }
        var id = evidence.Id ?? throw Wrong("evidence-key", "evidence", "The evidence does not say which one.", "Name it by its key.");
        var there = evidence.Kind switch
        {
            EvidenceKind.Photograph => db.Photographs.Any(p => p.Id == id && p.PaintingId == row.PaintingId),
            EvidenceKind.Reading => db.Runs.Any(r => r.Id == id && r.PaintingId == row.PaintingId),
            EvidenceKind.Sample => db.Samples.Any(s => s.Id == id && s.PaintingId == row.PaintingId),
            EvidenceKind.Finding => db.Findings.Any(f => f.Id == id && f.PaintingId == row.PaintingId),
            _ => throw Wrong("evidence-kind", "evidence", "There is no such kind of evidence.", "Choose one of the list."),
        };
        if (!there) throw Wrong("unknown-evidence", id.ToString(), $"This painting has no such {evidence.Kind.ToString().ToLowerInvariant()}.", "Choose one of the list.");
        if (evidence.Kind == EvidenceKind.Finding) RefuseCircle(db, row, id);
    }

    /// <summary>A finding that rests on itself, by whatever way, rests on nothing.</summary>
    private static void RefuseCircle(StudioDb db, Finding row, Guid first)
    {
        var all = db.Findings.AsNoTracking().Where(f => f.PaintingId == row.PaintingId).ToDictionary(f => f.Id);
        var (open, seen) = (new Stack<Guid>([first]), new HashSet<Guid>());
        while (open.TryPop(out var id))
        {
            if (id == row.Id) throw Wrong("evidence-circle", first.ToString(), "The finding would rest on itself, by way of the findings that it names.", "Take out one of them.");
            if (!seen.Add(id) || !all.TryGetValue(id, out var finding)) continue;
            foreach (var next in finding.Content.Evidence.Where(e => e.Kind == EvidenceKind.Finding)) open.Push(next.Id!.Value);
        }
    }
}
