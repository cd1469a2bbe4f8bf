using NetTopologySuite.Geometries;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>One finding in a check.</summary>
/// <param name="FindingId">The finding.</param>
/// <param name="Number">Its number.</param>
/// <param name="Observation">What is seen.</param>
/// <param name="Standing">The answer.</param>
/// <param name="Note">What is said of it.</param>
/// <param name="Before">Area of its zones as the earlier state was sealed; null when that was not sealed, or it had no zone.</param>
/// <param name="After">Area of its zones in this state: as sealed, else as they stand now.</param>
public sealed record DeltaRow(Guid FindingId, int Number, string Observation, Standing Standing, string Note, ZoneExtent? Before, ZoneExtent? After);

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
        var (painting, alignments) = (db.RequirePainting(state.PaintingId), FindingPlaces.Alignments(db, state.PaintingId));
        return [.. state.Content.Entries.Select(entry =>
        {
            var content = sealedNow?.Findings.FirstOrDefault(f => f.Id == entry.FindingId)?.Content ?? findings.Find(entry.FindingId).Content;
            var after = sealedNow?.ZonesOf(entry.FindingId) ?? content.Zones.Where(zones.ContainsKey).Select(id => ZoneGeometry.Read(zones[id].Geometry));
            return new DeltaRow(entry.FindingId, content.Number, content.Observation, entry.Standing, entry.Note, Measured(before?.ZonesOf(entry.FindingId) ?? []), entry.Standing == Standing.Gone ? null : Measured(after));
        }).OrderBy(r => Array.IndexOf(Order, r.Standing)).ThenBy(r => r.Number)];

        ZoneExtent? Measured(IEnumerable<Geometry> own) => FindingPlaces.Extent(own, painting, alignments);
    }

    private static readonly Standing[] Order = [Standing.Open, Standing.New, Standing.Changed, Standing.Gone, Standing.AsBefore];

    private SealedState? Sealed(Guid stateId) => new Sealing(studio).Find(stateId) is { } seal ? Sealing.TextOf(seal) : null;
}
