using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Conditions of paintings at one time. A sealed one is not changed any more; a later one supersedes it.</summary>
public sealed class ConditionStates(OpenStudio studio) : WrittenRecords<ConditionState, ConditionStateContent>(studio, "state")
{
    private protected override ConditionState Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override void Alongside(StudioDb db, ConditionState row)
    {
        if (db.StateSeals.Any(s => s.StateId == row.Id)) throw Wrong("state-sealed", row.Content.Name, $"\"{row.Content.Name}\" is sealed; what people signed is not changed.", "Record a new state.");
    }

    private protected override ConditionStateContent Checked(StudioDb db, ConditionState row, ConditionStateContent content)
    {
        if (!Enum.IsDefined(content.Occasion)) throw Wrong("state-occasion", "occasion", "There is no such occasion.", "Choose one of the list.");
        if (content.BaselineId is { } baseline && (baseline == row.Id || !db.ConditionStates.Any(s => s.Id == baseline && s.PaintingId == row.PaintingId)))
            throw Wrong("unknown-baseline", baseline.ToString(), "There is no such state of this painting to compare with.", "Choose one of the list.");
        var findings = db.Findings.Where(f => f.PaintingId == row.PaintingId).Select(f => f.Id).ToHashSet();
        foreach (var entry in content.Entries)
        {
            if (!findings.Contains(entry.FindingId)) throw Wrong("unknown-finding", entry.FindingId.ToString(), "There is no such finding on this painting.", "The findings page lists them.");
            if (!Enum.IsDefined(entry.Standing)) throw Wrong("state-standing", "standing", "A finding is open, as before, changed, new or gone.", "Choose one of these.");
            Readable("note", entry.Note);
        }
        foreach (var id in content.Photographs) db.RequirePhotograph(row.PaintingId, id);
        return content with { Name = Name("name", content.Name), Entries = [.. content.Entries.DistinctBy(e => e.FindingId)], Photographs = [.. content.Photographs.Distinct()] };
    }
}
