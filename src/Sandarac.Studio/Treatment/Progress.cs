using NetTopologySuite.Geometries;
using Sandarac.Imaging;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>How far a step was at the end of a day.</summary>
/// <param name="Day">The day.</param>
/// <param name="Done">What was done within the step's place until then, each place once.</param>
/// <param name="Share">Its share of the step's place, 0 to 1.</param>
/// <param name="ShareUncertainty">Half-width of the 95 % interval of the share, from the border between done and to do alone; null when no photograph that was matched touches the step.</param>
/// <param name="LeftMm2">What is still to do, mm2.</param>
/// <param name="Hours">Working hours until then.</param>
public sealed record DayProgress(DateOnly Day, ZoneExtent Done, double Share, double? ShareUncertainty, double LeftMm2, double Hours)
{
    /// <summary>The share in percent as it is told: to a tenth where no border between done and to do says how sure it is.</summary>
    public double Percent => ShareUncertainty > 0 ? 100 * Share : Math.Round(100 * Share, 1);
}

/// <summary>How far a step is.</summary>
/// <param name="Step">The step.</param>
/// <param name="Target">Where it is to be done; null when nothing can be measured.</param>
/// <param name="Days">Each day of its log.</param>
/// <param name="NoAnswer">Why nothing can be measured; null when it can.</param>
/// <param name="Warnings">What is to be known of its entries' zones.</param>
public sealed record StepProgress(TreatmentStep Step, ZoneExtent? Target, IReadOnlyList<DayProgress> Days, string? NoAnswer, IReadOnlyList<Warning> Warnings)
{
    /// <summary>What is left to do now, mm2; null when nothing can be measured.</summary>
    public double? LeftMm2 => Days.Count > 0 ? Days[^1].LeftMm2 : Target?.AreaMm2;
}

/// <summary>Where a step was done and where it was still to do at the end of a day; GeoJSON in mm on the plane, y down. Either is null when there is no such place.</summary>
/// <param name="Done">What was done.</param>
/// <param name="ToDo">What was still to do.</param>
/// <param name="At">How far that is; null before the first entry, or when nothing can be measured.</param>
public sealed record PlacesOfDay(string? Done, string? ToDo, DayProgress? At);

/// <summary>Progress of treatments by area: the union of the zones that the log names, each place once, against the place of the step.</summary>
public sealed class TreatmentProgress(OpenStudio studio)
{
    /// <summary>How far each step of a painting is.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public IReadOnlyList<StepProgress> Of(Guid paintingId)
    {
        var record = TreatmentRecord.Read(studio, paintingId);
        return [.. record.Steps.Select(s => new StepWork(record, s).Progress())];
    }

    /// <summary>Where a step was done at the end of a day, and where not yet.</summary>
    /// <param name="stepId">The step.</param>
    /// <param name="day">The day; null for today.</param>
    /// <exception cref="InputProblem">"unknown-step".</exception>
    public PlacesOfDay Places(Guid stepId, DateOnly? day = null)
    {
        var step = new TreatmentSteps(studio).Find(stepId);
        var work = new StepWork(TreatmentRecord.Read(studio, step.PaintingId), step);
        var until = day ?? studio.Today;
        return new PlacesOfDay(Written(work.Done(until)), Written(work.ToDo(until)), work.Progress().Days.LastOrDefault(d => d.Day <= until));
    }

    private static string? Written(Geometry area) => area.IsEmpty ? null : ZoneGeometry.Write(area);
}
