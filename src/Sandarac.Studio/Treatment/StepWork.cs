using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Overlay;
using Sandarac.Imaging;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>Work on a step, entry by entry: where, and what it added to what was done before.</summary>
internal sealed class StepWork
{
    private readonly TreatmentRecord _record;
    private readonly List<(LogEntry Entry, Geometry Covered, double NewMm2)> _entries = [];

    public StepWork(TreatmentRecord record, TreatmentStep step)
    {
        (_record, Step, Target) = (record, step, record.Target(step.Content));
        Geometry covered = GeometryFactory.Default.CreatePolygon();
        foreach (var entry in record.Entries.Where(e => e.Content.StepId == step.Id))
        {
            var more = TreatmentRecord.Overlay(covered, record.Area(entry), SpatialFunction.Union);
            _entries.Add((entry, more, more.Area - covered.Area));
            covered = more;
        }
    }

    public TreatmentStep Step { get; }

    /// <summary>Where it is to be done, mm on the plane.</summary>
    public Geometry Target { get; }

    /// <summary>Entries with hours that covered a place for the first time: what a pace can be told from.</summary>
    public IEnumerable<WorkSession> Sessions => _entries.Where(e => e.Entry.Content.Hours > 0 && e.NewMm2 > LeastMm2)
        .Select(e => new WorkSession(e.Entry.Id, Step.Id, _record.Painting.Id, _record.Painting.Title, e.Entry.Content.On!.Value, e.Entry.Content.Hours!.Value, e.NewMm2 / 100, e.Entry.Content.IsTimedTest));

    /// <summary>Hours that covered no new place: preparing, going over a place again.</summary>
    public double HoursBeside => _entries.Where(e => e.NewMm2 <= LeastMm2).Sum(e => e.Entry.Content.Hours ?? 0);

    /// <summary>What was done until the end of a day, within the step's place; each place once.</summary>
    public Geometry Done(DateOnly day) => TreatmentRecord.Overlay(_entries.LastOrDefault(e => e.Entry.Content.On <= day).Covered ?? GeometryFactory.Default.CreatePolygon(), Target, SpatialFunction.Intersection);

    /// <summary>What was still to do at the end of a day.</summary>
    public Geometry ToDo(DateOnly day) => Left(Done(day));

    /// <summary>How far it was at the end of each day of the log.</summary>
    public StepProgress Progress()
    {
        if (Target.IsEmpty) return new StepProgress(Step, null, [], _record.Face.IsEmpty ? "The painting's size is not known, so nothing of it is on a plane." : "The step's zones cover no area.", Warnings());
        var target = ZoneExtents.Of(Target, _record.Painting, _record.Alignments);
        return new StepProgress(Step, target, [.. _entries.Select(e => e.Entry.Content.On!.Value).Distinct().Select(d => At(d, target))], null, Warnings());
    }

    private DayProgress At(DateOnly day, ZoneExtent target)
    {
        var done = Done(day);
        var left = Left(done);
        // The border between done and to do is all that can move the share: where both end, the step's own outline is the same for both.
        var frontier = Math.Max(0, (done.Length + left.Length - Target.Length) / 2);
        return new DayProgress(day, ZoneExtents.Of(done, _record.Painting, _record.Alignments), done.Area / Target.Area, target.BoundaryMm is { } off ? frontier * off / Target.Area : null, left.Area, _entries.Where(e => e.Entry.Content.On <= day).Sum(e => e.Entry.Content.Hours ?? 0));
    }

    private Geometry Left(Geometry done) => TreatmentRecord.Overlay(Target, done, SpatialFunction.Difference);

    private List<Warning> Warnings()
    {
        List<Warning> warnings = [];
        var boundary = Target.IsEmpty ? 0 : ZoneExtents.Of(Target, _record.Painting, _record.Alignments).BoundaryMm ?? 0;
        var reach = boundary > 0 ? Target.Buffer(boundary) : Target;
        foreach (var entry in _entries.Select(e => e.Entry))
        {
            var outside = TreatmentRecord.Overlay(_record.Area(entry), reach, SpatialFunction.Difference).Area;
            if (outside > LeastMm2) warnings.Add(new Warning("outside-step", FormattableString.Invariant($"Entry of {entry.Content.On:yyyy-MM-dd}: {outside / 100:0.##} cm2 of its zones lie outside the step's.")));
            if (entry.Content.Zones.Count(z => _record.Zones.At(z, entry.UpdatedAt) is null) is > 0 and var gone) warnings.Add(new Warning("zone-gone", FormattableString.Invariant($"Entry of {entry.Content.On:yyyy-MM-dd}: {gone} of its zones had been deleted and are not counted.")));
            if (_record.Zones.Changed(entry.Content.Zones, entry.UpdatedAt) is [var zone, ..]) warnings.Add(new Warning("zone-changed", FormattableString.Invariant($"Entry of {entry.Content.On:yyyy-MM-dd}: \"{zone}\" was drawn anew since and is counted as it stood. Store the entry again if it was the outline that was wrong.")));
        }
        if (_record.ApprovedAt(Step.Content) is { } approved && _record.Zones.Changed(Step.Content.Zones, approved) is [var moved, ..]) warnings.Add(new Warning("zone-changed-since-approval", $"\"{moved}\" was drawn anew since the approval. The step is measured against the place that was approved."));
        return warnings;
    }

    /// <summary>Less is rounding of coordinates, no place: the square of a tenth of a millimetre.</summary>
    private const double LeastMm2 = 0.01;
}
