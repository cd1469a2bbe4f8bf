using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Two photographs of a check in one light, and the run that compares them.</summary>
/// <param name="Baseline">The earlier one.</param>
/// <param name="Later">The later one.</param>
/// <param name="Run">The comparison; null when nobody asked for it yet.</param>
public sealed record ComparedPair(Photograph Baseline, Photograph Later, Run? Run);

/// <summary>A change that a comparison proposes.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="X">Its middle, mm from the left edge.</param>
/// <param name="Y">Mm from the upper edge.</param>
public sealed record ProposedChange(ZoneFacts Zone, double X, double Y);

/// <summary>Checks of a painting's condition against an earlier state: every finding that stood is answered again, and photographs in one light are compared.</summary>
public sealed class ConditionChecks(OpenStudio studio)
{
    /// <summary>The reading that compares two photographs.</summary>
    public const string ReadingId = "changes";

    /// <summary>Records a state without an earlier one: every finding that stands now, as it stands.</summary>
    /// <exception cref="InputProblem">"unknown-painting"; no name.</exception>
    public ConditionState Record(Guid paintingId, string name, Occasion occasion, DateOnly? on, string place, string userName) => new ConditionStates(studio).Create(paintingId, new ConditionStateContent
    {
        Name = name, Occasion = occasion, On = on, Place = place,
        Entries = [.. new Findings(studio).Of(paintingId).Select(f => new StateEntry(f.Id, Standing.AsBefore, ""))],
    }, userName);

    /// <summary>Starts a check: the findings that stood in the earlier state are carried over, each to be answered.</summary>
    /// <param name="baselineId">The earlier state.</param>
    /// <param name="name">What the check is called.</param>
    /// <param name="occasion">Its occasion.</param>
    /// <param name="on">The day.</param>
    /// <param name="place">Where.</param>
    /// <param name="userName">Who checks.</param>
    /// <exception cref="InputProblem">"unknown-state"; the earlier state was taken out ("state-deleted"); no name.</exception>
    public ConditionState Start(Guid baselineId, string name, Occasion occasion, DateOnly? on, string place, string userName)
    {
        var states = new ConditionStates(studio);
        var baseline = states.Find(baselineId);
        if (baseline.DeletedAt is not null) throw new InputProblem("state-deleted", baseline.Content.Name, "The earlier state was taken out.", "Restore it first, or choose another.");
        return states.Create(baseline.PaintingId, new ConditionStateContent
        {
            Name = name, Occasion = occasion, On = on, Place = place, BaselineId = baselineId,
            Entries = [.. baseline.Content.Entries.Where(e => e.Standing != Standing.Gone).Select(e => new StateEntry(e.FindingId, Standing.Open, ""))],
        }, userName);
    }

    /// <summary>Answers one finding; one that was not in the list is added to it.</summary>
    /// <exception cref="InputProblem">"unknown-state"; "state-changed"; the state is sealed ("state-sealed"); "unknown-finding".</exception>
    public ConditionState Answer(Guid stateId, int revision, StateEntry answer, string userName)
    {
        var states = new ConditionStates(studio);
        var content = states.Find(stateId).Content;
        var known = content.Entries.Any(e => e.FindingId == answer.FindingId);
        StateEntry[] entries = known ? [.. content.Entries.Select(e => e.FindingId == answer.FindingId ? answer : e)] : [.. content.Entries, answer];
        return states.Change(stateId, revision, content with { Entries = entries }, userName);
    }

    /// <summary>Photographs of the check with those of its baseline that are in the same light, lamp's side included.</summary>
    /// <exception cref="InputProblem">"unknown-state".</exception>
    public IReadOnlyList<ComparedPair> Pairs(Guid stateId)
    {
        var state = new ConditionStates(studio).Find(stateId);
        if (state.Content.BaselineId is not { } baselineId) return [];
        using var db = studio.CreateDb();
        var baseline = db.ConditionStates.AsNoTracking().First(s => s.Id == baselineId);
        var photographs = db.Photographs.AsNoTracking().Where(p => p.PaintingId == state.PaintingId).ToDictionary(p => p.Id);
        var runs = db.Runs.AsNoTracking().Where(r => r.PaintingId == state.PaintingId && r.ReadingId == ReadingId).OrderBy(r => r.QueuedAt).ToList();
        return [.. from later in state.Content.Photographs.Select(id => photographs[id])
                   from earlier in baseline.Content.Photographs.Select(id => photographs[id])
                   where later.Id != earlier.Id && later.Light is not null && later.Light == earlier.Light && later.LightSide == earlier.LightSide
                   select new ComparedPair(earlier, later, runs.LastOrDefault(r => IsOf(r, earlier.Id, later.Id)))];
    }

    /// <summary>Asks for the comparison of every pair that has none yet; both photographs must be aligned.</summary>
    /// <returns>The queued runs.</returns>
    /// <exception cref="InputProblem">"unknown-state"; no photographs in one light ("no-pairs"); a photograph is not aligned.</exception>
    public IReadOnlyList<Run> Compare(Guid stateId, string userName)
    {
        var state = new ConditionStates(studio).Find(stateId);
        var pairs = Pairs(stateId);
        if (pairs.Count == 0) throw new InputProblem("no-pairs", state.Content.Name, "No photograph of this check has one in the same light in the state it is compared with.", "Add photographs to both states.");
        return [.. pairs.Select(p => new Running(studio).Queue(new RunRequest(state.PaintingId, ReadingId, new Dictionary<string, string>(),
            new Dictionary<string, IReadOnlyList<Guid>> { ["baseline"] = [p.Baseline.Id], ["later"] = [p.Later.Id] }, userName)))];
    }

    /// <summary>Changes that were proposed for the check's photographs and that nobody judged yet.</summary>
    /// <exception cref="InputProblem">"unknown-state".</exception>
    public IReadOnlyList<ProposedChange> Unjudged(Guid stateId)
    {
        var state = new ConditionStates(studio).Find(stateId);
        var runs = Pairs(stateId).Select(p => p.Run?.Id).OfType<Guid>().ToHashSet();
        return [.. new Candidates(studio).Open(state.PaintingId).Where(z => z.RunId is { } run && runs.Contains(run)).Select(Placed)];
    }

    /// <summary>Keeps a proposed change as a finding, and enters it into the check as new.</summary>
    /// <exception cref="InputProblem">As for <see cref="Candidates.Keep(Guid, int, FindingContent, string)"/> and <see cref="Answer"/>.</exception>
    public Finding Keep(Guid stateId, int revision, Guid zoneId, int zoneRevision, string userName)
    {
        var state = new ConditionStates(studio).Find(stateId);
        if (state.Revision != revision) throw new InputProblem("state-changed", state.Content.Name, "This state was changed meanwhile.", "Look at it as it is now, then judge.");
        if (new Sealing(studio).Find(stateId) is not null) throw new InputProblem("state-sealed", state.Content.Name, $"\"{state.Content.Name}\" is sealed.", "Record a new state.");
        var finding = new Candidates(studio).Keep(zoneId, zoneRevision, null, userName);
        Answer(stateId, revision, new StateEntry(finding.Id, Standing.New, ""), userName);
        return finding;
    }

    private static ProposedChange Placed(ZoneFacts zone)
    {
        var middle = ZoneGeometry.Read(zone.Geometry).Centroid;
        return new ProposedChange(zone, middle.X, middle.Y);
    }

    private static bool IsOf(Run run, Guid baseline, Guid later) =>
        run.Inputs.Any(i => i.Slot == "baseline" && i.PhotographId == baseline) && run.Inputs.Any(i => i.Slot == "later" && i.PhotographId == later);
}
