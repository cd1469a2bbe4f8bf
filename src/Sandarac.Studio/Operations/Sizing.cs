using NetTopologySuite.Geometries.Utilities;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Corrects a painting's size by one distance that a person measured on the object.</summary>
public sealed class Sizing(OpenStudio studio)
{
    /// <summary>Largest correction either way. A size that is wrong by more is a slip of the hand.</summary>
    private const double MostFactor = 100;

    /// <summary>How well a tape or ruler is read, mm.</summary>
    private const double TapeMm = 0.5;

    /// <summary>
    /// Sets the painting's size and grid so that two places are as far apart as measured, moves its zones with it, and queues an alignment of every photograph on the plane.
    /// Former alignments stay in the record. Readings keep their former places until they are run again.
    /// </summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="from">A place, mm on the plane as it is believed.</param>
    /// <param name="to">Another.</param>
    /// <param name="mm">Their distance on the object, mm.</param>
    /// <param name="userName">Who measured.</param>
    /// <returns>The queued runs; <see cref="Running.Execute"/> carries them out.</returns>
    /// <exception cref="InputProblem">No such painting ("unknown-painting"); a distance that is none, the same place twice, or a correction beyond reason ("distance"); other work on it under way ("busy").</exception>
    public IReadOnlyList<Run> QueueByDistance(Guid paintingId, Point2 from, Point2 to, double mm, string userName)
    {
        using var db = studio.CreateDb();
        var painting = db.RequirePainting(paintingId);
        var factor = Factor(painting, from, to, mm);
        if (db.Runs.Any(r => r.PaintingId == paintingId && (r.State == RunState.Queued || r.State == RunState.Running)))
            throw new InputProblem("busy", painting.Title, "Other work on this painting is under way.", "Wait until it has ended, then measure again.");
        Resize(painting, factor, from.DistanceTo(to));
        MoveZones(db, paintingId, factor);
        MoveSamples(db, paintingId, factor, userName);
        MoveWalks(db, paintingId, factor, userName);
        var aligning = new Aligning(studio);
        var runs = db.PhotographsOf(paintingId).Where(p => p.Alignments.InForce()?.Map is not null).Select(p => aligning.Prepare(p, PlanOf(painting, p, factor), userName)).ToList();
        db.Runs.AddRange(runs);
        db.SaveChanges();
        return runs;
    }

    private static double Factor(Painting painting, Point2 from, Point2 to, double mm)
    {
        if (painting.WidthMm <= 0 || painting.PlaneMmPerPixel <= 0)
            throw new InputProblem("no-size", painting.Title, "Nothing of this painting is on the plane yet.", "Examine it first, or set the corners of a photograph.");
        if (!(mm > 0) || !double.IsFinite(mm)) throw new InputProblem("distance", "mm", $"{mm} mm is not a distance.", "Give the measured distance in millimetres, greater than 0.");
        var believed = from.DistanceTo(to);
        if (!(believed >= painting.PlaneMmPerPixel))
            throw new InputProblem("distance", "to", "The two places are the same, or less than a pixel apart.", "Measure between two places that lie far apart.");
        var factor = mm / believed;
        var (low, high) = (factor * Math.Min(painting.WidthMm, painting.HeightMm), factor * Math.Max(painting.WidthMm, painting.HeightMm));
        return factor is >= 1 / MostFactor and <= MostFactor && low >= 5 && high <= 30_000 ? factor
            : throw new InputProblem("distance", "mm", FormattableString.Invariant($"The painting would become {factor * painting.HeightMm:0.##} x {factor * painting.WidthMm:0.##} mm."), "Check the distance and its unit: it is in millimetres.");
    }

    /// <summary>The distance is as sure as the tape is read and as the two places are clicked, half a pixel each.</summary>
    private static void Resize(Painting painting, double factor, double believed)
    {
        var clicked = Math.Sqrt(2) * painting.PlaneMmPerPixel / 2;
        painting.SizeUncertainty = Math.Sqrt(TapeMm / (factor * believed) * (TapeMm / (factor * believed)) + clicked / believed * (clicked / believed));
        (painting.WidthMm, painting.HeightMm, painting.PlaneMmPerPixel) = (factor * painting.WidthMm, factor * painting.HeightMm, factor * painting.PlaneMmPerPixel);
        (painting.SizeOrigin, painting.SizeWarnings) = (ScaleOrigin.Distance, []);
    }

    /// <summary>Zones and marks are places on the painting; they stay there.</summary>
    private void MoveZones(StudioDb db, Guid paintingId, double factor)
    {
        foreach (var zone in db.Zones.Where(z => z.PaintingId == paintingId))
        {
            zone.Geometry = ZoneGeometry.Write(AffineTransformation.ScaleInstance(factor, factor).Transform(ZoneGeometry.Read(zone.Geometry)));
            zone.Revision++;
            zone.UpdatedAt = studio.Now;
            db.ZoneChanges.Add(ZoneChange.Of(zone, "moved with the painting's size"));
        }
        if (db.MarkSheets.FirstOrDefault(s => s.PaintingId == paintingId) is not { } sheet) return;
        sheet.Content = sheet.Content with { Marks = Marks.Scaled(sheet.Content.Marks, factor) };
        sheet.Revision++;
        sheet.UpdatedAt = studio.Now;
    }

    /// <summary>So do the places of samples.</summary>
    private void MoveSamples(StudioDb db, Guid paintingId, double factor, string userName)
    {
        foreach (var sample in db.Samples.Where(s => s.PaintingId == paintingId).AsEnumerable().Where(s => s.Content.X is not null))
        {
            sample.Content = sample.Content with { X = factor * sample.Content.X, Y = factor * sample.Content.Y };
            Samples.Note(db, sample, "moved with the painting's size", studio.Now, userName);
        }
    }

    /// <summary>And what walks look at.</summary>
    private void MoveWalks(StudioDb db, Guid paintingId, double factor, string userName)
    {
        foreach (var walk in db.Walks.Where(w => w.PaintingId == paintingId))
        {
            walk.Content = walk.Content with { Steps = [.. walk.Content.Steps.Select(s => s with { X = factor * s.X, Y = factor * s.Y, WidthMm = factor * s.WidthMm })] };
            Walks.Note(db, walk, "moved with the painting's size", studio.Now, userName);
        }
    }

    private static AlignmentPlan PlanOf(Painting painting, Photograph photograph, double factor)
    {
        var former = photograph.Alignments.InForce()!;
        return new AlignmentPlan(former.Method, former.Corners, 0, former.Verdict, former.Reason, null, painting.WidthMm, painting.HeightMm, painting.PlaneMmPerPixel, Resize: new ResizePlan(former.Id, factor));
    }
}
