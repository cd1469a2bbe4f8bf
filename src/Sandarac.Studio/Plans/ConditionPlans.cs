using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Plans;

/// <summary>
/// Gathers what a condition plan shows. A state shows its findings and zones as they stood when it was last written, or once it is sealed when it was sealed: a plan of "before treatment" does not change when a zone is
/// drawn anew after treatment. Who corrected a zone and wants the state to have it records the state again, which is one more revision of it.
/// </summary>
public sealed class ConditionPlans(OpenStudio studio)
{
    /// <summary>The plan of a state, or of the findings as they stand.</summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="stateId">The state; null for findings as they stand.</param>
    /// <exception cref="InputProblem">"unknown-painting"; the painting has no such state ("unknown-state"); its size is not known ("no-size"); what is wrong with the studio's appearances.</exception>
    public ConditionPlan Of(Guid paintingId, Guid? stateId = null)
    {
        using var db = studio.CreateDb();
        var painting = db.RequirePainting(paintingId);
        if (!(painting.WidthMm > 0 && painting.HeightMm > 0)) throw new InputProblem("no-size", painting.Title, "The painting's size is not known, so nothing of it is on a plane.", "Examine it, or set the corners of a photograph.");
        var state = stateId is null ? null : db.ConditionStates.AsNoTracking().FirstOrDefault(s => s.Id == stateId && s.PaintingId == paintingId)
            ?? throw new InputProblem("unknown-state", stateId.Value.ToString(), "There is no such state of this painting.", "The plan's page lists its states.");
        var seal = state is null ? null : db.StateSeals.AsNoTracking().FirstOrDefault(s => s.StateId == state.Id);
        var asOf = seal?.At ?? state?.UpdatedAt ?? studio.Now;
        var (zones, appearances) = (PastZones.At(db, paintingId, asOf), StudioAppearances.Of(studio));
        PlanFinding Placed(Guid id, FindingContent content, Standing standing) => new(id, content, standing, appearances.Find(content.Term), [.. content.Zones.Select(z => zones.GetValueOrDefault(z)).OfType<PlanZone>()]);
        var all = Stood(db, paintingId, state, asOf).Select(f => Placed(f.Id, f.Content, f.Standing)).OrderBy(f => f.Number).ToList();
        return new ConditionPlan(painting, state, asOf, seal is not null, [.. all.Where(f => f.Standing != Standing.Gone)], [.. all.Where(f => f.Standing == Standing.Gone)], [.. db.PhotographsOf(paintingId).Select(p => p.Alignments.InForce()).OfType<Alignment>()],
            state is null ? 0 : ChangedSince(db, all, asOf), new StudioTerms(studio).All().ToDictionary(t => t.Key));
    }

    /// <summary>What differs between two states; null for the findings as they stand.</summary>
    /// <exception cref="InputProblem">As for <see cref="Of"/>.</exception>
    public PlanDifference Difference(Guid paintingId, Guid? before, Guid? after) => PlanDifference.Between(Of(paintingId, before), Of(paintingId, after));

    /// <summary>Findings and what was written of them: of a state those that it names, otherwise all that are not taken out.</summary>
    private static IEnumerable<(Guid Id, FindingContent Content, Standing Standing)> Stood(StudioDb db, Guid paintingId, ConditionState? state, DateTime asOf)
    {
        if (state is null)
        {
            foreach (var finding in db.Findings.AsNoTracking().Where(f => f.PaintingId == paintingId && f.DeletedAt == null)) yield return (finding.Id, finding.Content, Standing.AsBefore);
            yield break;
        }
        var ids = state.Content.Entries.Select(e => e.FindingId).ToList();
        var then = db.WrittenChanges.AsNoTracking().Where(c => ids.Contains(c.SubjectId) && c.At <= asOf).AsEnumerable().GroupBy(c => c.SubjectId).ToDictionary(g => g.Key, g => g.MaxBy(c => c.Revision)!);
        foreach (var entry in state.Content.Entries)
            if (then.GetValueOrDefault(entry.FindingId) is { } change) yield return (entry.FindingId, JsonSerializer.Deserialize<FindingContent>(change.Content, StudioJson.Options)!, entry.Standing);
    }

    private static int ChangedSince(StudioDb db, IReadOnlyList<PlanFinding> findings, DateTime moment)
    {
        var ids = findings.Select(f => f.Id).ToList();
        return PastZones.ChangedSince(db, findings.SelectMany(f => f.Content.Zones).ToHashSet(), moment) + db.WrittenChanges.AsNoTracking().Where(c => ids.Contains(c.SubjectId) && c.At > moment).Select(c => c.SubjectId).Distinct().Count();
    }
}
