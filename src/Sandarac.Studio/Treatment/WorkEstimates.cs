using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>Work of which the pace is known.</summary>
/// <param name="EntryId">The entry of the log.</param>
/// <param name="StepId">Its step.</param>
/// <param name="PaintingId">The painting.</param>
/// <param name="Painting">What it is called.</param>
/// <param name="Day">The day.</param>
/// <param name="Hours">Working time.</param>
/// <param name="AreaCm2">What it covered for the first time, cm2.</param>
/// <param name="IsTimedTest">Whether it was timed as a test.</param>
public sealed record WorkSession(Guid EntryId, Guid StepId, Guid PaintingId, string Painting, DateOnly Day, double Hours, double AreaCm2, bool IsTimedTest)
{
    /// <summary>Pace, cm2 in an hour.</summary>
    public double Pace => AreaCm2 / Hours;
}

/// <summary>What an estimate rests on: always the studio's own log, never a figure that came with the program.</summary>
/// <param name="IsThisPainting">Whether it rests on sessions on this painting; otherwise on whole steps, on this painting and others.</param>
/// <param name="Count">How many sessions, or steps.</param>
/// <param name="Paintings">The paintings, by title.</param>
/// <param name="First">The first day.</param>
/// <param name="Last">The last.</param>
public sealed record EstimateBasis(bool IsThisPainting, int Count, IReadOnlyList<string> Paintings, DateOnly First, DateOnly Last);

/// <summary>How long the rest takes.</summary>
/// <param name="Operation">The operation.</param>
/// <param name="LeftCm2">What is left to do, cm2, taken as measured.</param>
/// <param name="Hours">Working hours with their 95 % prediction interval; null without enough to go by.</param>
/// <param name="Days">Working days, from what a day covered; a timed test is no day's work. Null without enough days.</param>
/// <param name="Basis">What it rests on; null without an estimate.</param>
/// <param name="NoAnswer">Why there is none, and what is missing; null when there is.</param>
/// <param name="Own">Sessions of this operation on this painting, timed tests among them.</param>
/// <param name="HoursBeside">Hours of this operation on this painting that covered no new place: the estimate is without such hours.</param>
public sealed record WorkEstimate(string Operation, double LeftCm2, Prediction? Hours, Prediction? Days, EstimateBasis? Basis, string? NoAnswer, IReadOnlyList<WorkSession> Own, double HoursBeside);

/// <summary>Estimates working time from the paces in the studio's own log.</summary>
public sealed class WorkEstimates(OpenStudio studio)
{
    /// <summary>How long the rest of a step takes; null when its area cannot be measured.</summary>
    /// <exception cref="InputProblem">"unknown-step".</exception>
    public WorkEstimate? OfStep(Guid stepId)
    {
        var step = new TreatmentSteps(studio).Find(stepId);
        return new StepWork(TreatmentRecord.Read(studio, step.PaintingId), step).Progress().LeftMm2 is { } left ? For(step.PaintingId, step.Content.Operation, left / 100) : null;
    }

    /// <summary>How long an operation takes on some zones of a painting, before anything of it is done; null when their area cannot be measured.</summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="operation">The operation.</param>
    /// <param name="zones">Where; none for the whole face.</param>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public WorkEstimate? OfZones(Guid paintingId, string operation, IReadOnlyList<Guid> zones) =>
        TreatmentRecord.Read(studio, paintingId).Target(new TreatmentStepContent { Zones = zones }) is { IsEmpty: false } target ? For(paintingId, operation, target.Area / 100) : null;

    private WorkEstimate For(Guid paintingId, string operation, double leftCm2)
    {
        var steps = StepsOf(operation);
        List<WorkSession> all = [.. steps.SelectMany(s => s.Sessions)], own = [.. all.Where(s => s.PaintingId == paintingId)];
        var beside = steps.Where(s => s.Step.PaintingId == paintingId).Sum(s => s.HoursBeside);
        if (own.Count >= PaceInterval.Fewest) return Estimate(own, Paces(own, s => s.EntryId), Paces(own.Where(s => !s.IsTimedTest), s => s.Day), isOwn: true);
        var others = all.GroupBy(s => s.StepId).ToList();
        if (others.Count >= PaceInterval.Fewest) return Estimate(all, Paces(all, s => s.StepId), Paces(all, s => s.StepId), isOwn: false);
        return new WorkEstimate(operation, leftCm2, null, null, null, Missing(own.Count, others.Count), own, beside);

        WorkEstimate Estimate(List<WorkSession> from, IReadOnlyList<Work> paces, IReadOnlyList<Work> days, bool isOwn) => new(operation, leftCm2, PaceInterval.Of([.. paces.Select(p => (p.AreaCm2, p.Hours))], leftCm2, !isOwn),
            days.Count < PaceInterval.Fewest ? null : PaceInterval.Of([.. days.Select(d => (d.AreaCm2, (double)d.Days))], leftCm2, !isOwn),
            new EstimateBasis(isOwn, paces.Count, [.. from.Select(s => s.Painting).Distinct()], from.Min(s => s.Day), from.Max(s => s.Day)), null, own, beside);
    }

    /// <summary>All work of the studio by one operation.</summary>
    private List<StepWork> StepsOf(string operation)
    {
        using var db = studio.CreateDb();
        var paintings = db.TreatmentSteps.AsNoTracking().Where(s => s.DeletedAt == null).AsEnumerable().Where(s => IsSame(s.Content.Operation, operation)).Select(s => s.PaintingId).Distinct().ToList();
        return [.. paintings.Select(p => TreatmentRecord.Read(studio, p)).SelectMany(r => r.Steps.Where(s => IsSame(s.Content.Operation, operation)).Select(s => new StepWork(r, s)))];
    }

    private static bool IsSame(string one, string other) => string.Equals(one.Trim(), other.Trim(), StringComparison.OrdinalIgnoreCase);

    private static IReadOnlyList<Work> Paces<TKey>(IEnumerable<WorkSession> sessions, Func<WorkSession, TKey> by) => [.. sessions.GroupBy(by).Select(g => new Work(g.Sum(s => s.AreaCm2), g.Sum(s => s.Hours), g.Select(s => s.Day).Distinct().Count()))];

    private static string Missing(int sessions, int steps) => FormattableString.Invariant($"Sessions of this operation with hours and new places: {sessions} on this painting; steps with such sessions in the studio: {steps}. An interval needs {PaceInterval.Fewest} of either.");

    private sealed record Work(double AreaCm2, double Hours, int Days);
}
