using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Walks: guided sequences of views.</summary>
public sealed class Walks(OpenStudio studio) : WrittenRecords<Walk, WalkContent>(studio, "walk")
{
    /// <summary>More than anyone would stand through.</summary>
    private const int MostSteps = 200;

    private protected override Walk Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override WalkContent Checked(StudioDb db, Walk row, WalkContent content)
    {
        if (content.Steps.Count > MostSteps) throw Wrong("walk-steps", "steps", $"A walk has at most {MostSteps} views.", "Make two of it.");
        if (content.Steps.DistinctBy(s => s.Id).Count() != content.Steps.Count) throw Wrong("walk-steps", "steps", "Two views have one key.", "Reload the page.");
        foreach (var step in content.Steps) CheckStep(db, row, step);
        return content with { Title = Name("title", content.Title) };
    }

    private static void CheckStep(StudioDb db, Walk row, WalkStep step)
    {
        foreach (var text in new[] { step.Title, step.Caption, step.LayerA, step.LayerB ?? "" }) Readable("step", text);
        if (!double.IsFinite(step.X) || !double.IsFinite(step.Y) || !(step.WidthMm > 0) || !double.IsFinite(step.WidthMm)) throw Wrong("walk-view", step.Title, "A view's place or width is no length in mm.", "Take the view again on the Easel.");
        if (!Enum.IsDefined(step.Compare) || step.Amount is not (>= 0 and <= 1)) throw Wrong("walk-compare", step.Title, "There is no such way of comparing.", "Take the view again on the Easel.");
        if (step.LampAzimuth is not null and not (>= 0 and <= 360) || step.LampElevation is not null and not (>= 0 and <= 90)) throw Wrong("walk-lamp", step.Title, "The lamp stands nowhere.", "Azimuth is 0 to 360, elevation 0 to 90 degrees.");
        foreach (var zone in step.Zones) Relations.RequireZone(db, row.PaintingId, zone);
    }
}
