using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>The log of treatments: what was done on which day, by whom, where and with what. Corrected, never overwritten.</summary>
public sealed class TreatmentLog(OpenStudio studio) : WrittenRecords<LogEntry, LogEntryContent>(studio, "entry")
{
    private const double HoursOfADay = 24;

    /// <summary>A painting's entries in the order of their days.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public IReadOnlyList<LogEntry> ByDay(Guid paintingId) => InOrder(Of(paintingId));

    /// <summary>Materials that stand on the studio's shelf and were not used up, to be named in an entry.</summary>
    public IReadOnlyList<ShelfItem> Shelf()
    {
        using var db = Studio.CreateDb();
        return [.. db.ShelfItems.AsNoTracking().Where(i => i.RemovedAt == null).AsEnumerable().OrderBy(i => i.Name, StringComparer.CurrentCulture).ThenBy(i => i.At)];
    }

    /// <summary>Entries in the order of their days; of one day as they were written.</summary>
    internal static IReadOnlyList<LogEntry> InOrder(IEnumerable<LogEntry> entries) => [.. entries.OrderBy(e => e.Content.On).ThenBy(e => e.CreatedAt).ThenBy(e => e.Id)];

    private protected override LogEntry Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override void Alongside(StudioDb db, LogEntry row) => SearchIndex.Put(db, row);

    private protected override LogEntryContent Checked(StudioDb db, LogEntry row, LogEntryContent content)
    {
        if (content.On is not { } day || day > Studio.Today) throw Wrong("entry-date", "on", "The entry has no day, or one that lies in the future.", "Give the day on which the work was done.");
        RequireStep(db, row, content.StepId, day);
        if (string.IsNullOrWhiteSpace(content.Who)) throw Wrong("entry-who", "who", "The entry does not say who did it.", "Give a name; each person's work has its own entry.");
        if (string.IsNullOrWhiteSpace(content.What)) throw Wrong("entry-what", "what", "The entry does not say what was done.", "Say it in a sentence.");
        foreach (var zone in content.Zones.Distinct()) Relations.RequireZone(db, row.PaintingId, zone);
        foreach (var id in content.Photographs.Distinct()) db.RequirePhotograph(row.PaintingId, id);
        var sound = content with
        {
            Who = content.Who.Trim(), What = content.What.Trim(), Zones = [.. content.Zones.Distinct()], Photographs = [.. content.Photographs.Distinct()], Materials = [.. content.Materials.Select(Checked)],
            NewlySeen = content.NewlySeen.Trim(), Departure = content.Departure.Trim(),
        };
        RequireHours(db, row, sound, day);
        if (sound.IsTimedTest && !(sound.Hours > 0 && sound.Zones.Count > 0)) throw Wrong("timed-test", "isTimedTest", "A timed test needs its hours and the zones that were done in them.", "Give both, or take the mark off.");
        return sound;
    }

    /// <summary>A step that nobody approved takes no entries, but where waiting would have done harm. What stands in the log already may be corrected.</summary>
    private static void RequireStep(StudioDb db, LogEntry row, Guid stepId, DateOnly day)
    {
        if (db.TreatmentSteps.AsNoTracking().FirstOrDefault(s => s.Id == stepId && s.PaintingId == row.PaintingId && s.DeletedAt == null)?.Content is not { } step)
            throw Wrong("unknown-step", stepId.ToString(), "There is no such step in this painting's treatment.", "Choose one of its steps.");
        if (day > step.EndedOn) throw Wrong("step-ended", step.Name, FormattableString.Invariant($"\"{step.Name}\" was ended on {step.EndedOn:yyyy-MM-dd}."), "Take the end off the step if the work goes on, or correct the day.");
        if (row.Revision > 0 && row.Content.StepId == stepId || step.UrgentReason.Length > 0) return;
        if (Mandate.Read(db, row.PaintingId).Of(step) is not StepStanding.Approved)
            throw Wrong("step-not-approved", step.Name, $"\"{step.Name}\" is not approved as it stands.", "Have it approved; if waiting would have done harm, say so in the step.");
    }

    private static void RequireHours(StudioDb db, LogEntry row, LogEntryContent content, DateOnly day)
    {
        if (content.Hours is not { } hours) return;
        if (!(hours is > 0 and <= HoursOfADay)) throw Wrong("entry-hours", "hours", $"{hours} hours cannot be worked on one day.", "Give more than 0 and at most 24 hours, or leave them out.");
        var others = db.LogEntries.AsNoTracking().Where(e => e.Id != row.Id && e.DeletedAt == null && e.Content.On == day).AsEnumerable().Where(e => string.Equals(e.Content.Who, content.Who, StringComparison.OrdinalIgnoreCase)).Sum(e => e.Content.Hours ?? 0);
        if (others + hours > HoursOfADay) throw Wrong("entry-hours", "hours", FormattableString.Invariant($"With what stands in the log already, {content.Who} would have worked {others + hours:0.##} hours on {day:yyyy-MM-dd}."), "Correct the hours or the day; each person's work has its own entry.");
    }

    private static LogMaterial Checked(LogMaterial? material)
    {
        if (material is null) throw Wrong("value-missing", "materials", "A material is null.", "Leave it out, or give a value.");
        if (!Enum.IsDefined(material.Use)) throw Wrong("material-use", "materials", "A material is used, added or removed.", "Choose one of these.");
        if (material.Amount is { } amount && !(double.IsFinite(amount) && amount > 0)) throw Wrong("material-amount", "materials", $"{amount} is no amount.", "Give a number above 0, or leave the amount out.");
        var (unit, batch) = (Readable("unit", material.Unit).Trim(), Readable("batch", material.Batch).Trim());
        if (material.Amount is null != (unit.Length == 0)) throw Wrong("material-unit", "materials", "An amount says nothing without its unit, nor the other way round.", "Give both, \"20 mL\" for instance, or neither.");
        return material with { Name = Name("material", Readable("material", material.Name)), Unit = unit, Batch = batch };
    }
}
