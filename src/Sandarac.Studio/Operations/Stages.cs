using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Stages of build-ups.</summary>
public sealed class Stages(OpenStudio studio) : WrittenRecords<Stage, StageContent>(studio, "stage")
{
    /// <exception cref="InputProblem">The painting has no such stage, or it was taken out ("unknown-stage").</exception>
    internal static void Require(StudioDb db, Guid paintingId, Guid stageId)
    {
        if (!db.Stages.Any(s => s.Id == stageId && s.PaintingId == paintingId && s.DeletedAt == null))
            throw Wrong("unknown-stage", stageId.ToString(), "There is no such stage in this painting's build-up.", "The build-up page lists its stages.");
    }

    private protected override Stage Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override StageContent Checked(StudioDb db, Stage row, StageContent content)
    {
        if (!Enum.IsDefined(content.Kind)) throw Wrong("stage-kind", "kind", "There is no such kind of stage.", "Choose one of the list.");
        foreach (var zone in content.Zones) Relations.RequireZone(db, row.PaintingId, zone);
        return content with { Name = Name("name", content.Name), Zones = [.. content.Zones.Distinct()] };
    }
}
