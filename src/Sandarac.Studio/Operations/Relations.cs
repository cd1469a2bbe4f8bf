using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Relations between stages that people state. Those that sections show need not be stated.</summary>
public sealed class Relations(OpenStudio studio) : WrittenRecords<Relation, RelationContent>(studio, "relation")
{
    /// <exception cref="InputProblem">The painting has no such zone ("unknown-zone").</exception>
    internal static void RequireZone(StudioDb db, Guid paintingId, Guid zoneId)
    {
        if (!db.Zones.Any(z => z.Id == zoneId && z.PaintingId == paintingId)) throw Wrong("unknown-zone", zoneId.ToString(), "There is no such zone on this painting.", "The Easel lists its zones.");
    }

    private protected override Relation Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override RelationContent Checked(StudioDb db, Relation row, RelationContent content)
    {
        if (!Enum.IsDefined(content.Kind)) throw Wrong("relation-kind", "kind", "A relation is over, under or same.", "Choose one of these.");
        if (content.StageId == content.OtherId) throw Wrong("relation-self", "other", "A stage cannot lie over itself or be compared with itself.", "Choose two stages.");
        Stages.Require(db, row.PaintingId, content.StageId);
        Stages.Require(db, row.PaintingId, content.OtherId);
        if (content.ZoneId is { } zone) RequireZone(db, row.PaintingId, zone);
        if (content.SampleId is { } sample && !db.Samples.Any(s => s.Id == sample && s.PaintingId == row.PaintingId)) throw Wrong("unknown-sample", sample.ToString(), "There is no such sample of this painting.", "The page of its sections lists them.");
        if (content.PhotographId is { } photograph) db.RequirePhotograph(row.PaintingId, photograph);
        if (content is { ZoneId: null, SampleId: null, PhotographId: null } && string.IsNullOrWhiteSpace(content.Note))
            throw Wrong("relation-evidence", "note", "The relation does not say what it rests on.", "Name a sample, a zone or a photograph, or say what was seen.");
        return content with { Note = content.Note.Trim() };
    }
}
