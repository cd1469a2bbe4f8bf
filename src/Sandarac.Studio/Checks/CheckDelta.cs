using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>An area with what it is uncertain by.</summary>
/// <param name="Mm2">Area, mm2.</param>
/// <param name="Uncertainty">Half a pixel of the plane along the outline, mm2.</param>
public sealed record StatedArea(double Mm2, double Uncertainty);

/// <summary>One finding in a check.</summary>
/// <param name="FindingId">The finding.</param>
/// <param name="Number">Its number.</param>
/// <param name="Observation">What is seen.</param>
/// <param name="Standing">The answer.</param>
/// <param name="Note">What is said of it.</param>
/// <param name="Before">Area of its zones as the earlier state was sealed; null when that was not sealed, or it had no zone.</param>
/// <param name="After">Area of its zones in this state: as sealed, else as they stand now.</param>
public sealed record DeltaRow(Guid FindingId, int Number, string Observation, Standing Standing, string Note, StatedArea? Before, StatedArea? After);

/// <summary>What is new, changed and gone since an earlier state.</summary>
public sealed class CheckDelta(OpenStudio studio)
{
    /// <summary>A check's findings: open ones first, then new, changed and gone ones, then those as before; by number.</summary>
    /// <exception cref="Imaging.InputProblem">"unknown-state".</exception>
    public IReadOnlyList<DeltaRow> Of(Guid stateId)
    {
        var state = new ConditionStates(studio).Find(stateId);
        var findings = new Findings(studio);
        var (before, sealedNow) = (state.Content.BaselineId is { } baseline ? Sealed(baseline) : null, Sealed(stateId));
        var zones = new Zones(studio).Of(state.PaintingId).ToDictionary(z => z.Id);
        using var db = studio.CreateDb();
        var half = db.RequirePainting(state.PaintingId).PlaneMmPerPixel / 2;
        return [.. state.Content.Entries.Select(entry =>
        {
            var content = sealedNow?.Findings.FirstOrDefault(f => f.Id == entry.FindingId)?.Content ?? findings.Find(entry.FindingId).Content;
            ZoneFacts[] own = [.. content.Zones.Where(zones.ContainsKey).Select(id => zones[id])];
            var after = sealedNow is not null ? sealedNow.AreaOf(entry.FindingId) : own.Length == 0 ? null : (own.Sum(z => z.AreaMm2), own.Sum(z => z.LengthMm));
            return new DeltaRow(entry.FindingId, content.Number, content.Observation, entry.Standing, entry.Note, Stated(before?.AreaOf(entry.FindingId)), entry.Standing == Standing.Gone ? null : Stated(after));
        }).OrderBy(r => Array.IndexOf(Order, r.Standing)).ThenBy(r => r.Number)];

        StatedArea? Stated((double Area, double Outline)? area) => area is { } a ? new StatedArea(a.Area, a.Outline * half) : null;
    }

    private static readonly Standing[] Order = [Standing.Open, Standing.New, Standing.Changed, Standing.Gone, Standing.AsBefore];

    private SealedState? Sealed(Guid stateId) => new Sealing(studio).Find(stateId) is { } seal ? Sealing.TextOf(seal) : null;
}
