using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Puts photographs on the plane.</summary>
public sealed class Aligning(OpenStudio studio)
{
    /// <summary>The alignment in force; null before the first.</summary>
    public Alignment? InForce(Guid photographId)
    {
        using var db = studio.CreateDb();
        db.RequirePhotograph(photographId);
        return db.Alignments.AsNoTracking().Where(a => a.PhotographId == photographId).AsEnumerable().InForce();
    }

    /// <summary>Every alignment a photograph has had, oldest first.</summary>
    public IReadOnlyList<Alignment> History(Guid photographId)
    {
        using var db = studio.CreateDb();
        db.RequirePhotograph(photographId);
        return [.. db.Alignments.AsNoTracking().Where(a => a.PhotographId == photographId).OrderBy(a => a.Version)];
    }

    /// <summary>Queues an alignment by corners that a person set.</summary>
    /// <param name="photographId">The photograph.</param>
    /// <param name="corners">Upper left, upper right, lower right, lower left of the painted face, pixels.</param>
    /// <param name="userName">Who set them.</param>
    /// <returns>The queued run; <see cref="Running.Execute"/> carries it out.</returns>
    /// <exception cref="InputProblem">No such photograph; not four corners, or not in that order.</exception>
    public Run QueueByHand(Guid photographId, IReadOnlyList<Point2> corners, string userName)
    {
        using var db = studio.CreateDb();
        var photograph = db.RequirePhotograph(photographId);
        var painting = db.RequirePainting(photograph.PaintingId);
        AlignmentPlan.RequireCorners(photograph, corners, painting);
        var run = Prepare(photograph, new AlignmentPlan(AlignmentPlan.ByHand, corners, 0, Verdict.Aligned, AlignmentPlan.HandReason, null).For(painting, photograph), userName);
        db.Runs.Add(run);
        db.SaveChanges();
        return run;
    }

    /// <summary>A run that carries out a plan; the caller saves it.</summary>
    internal Run Prepare(Photograph photograph, AlignmentPlan plan, string userName)
    {
        var parameters = plan.ToParameters();
        var text = string.Join('\n', parameters.OrderBy(p => p.Key, StringComparer.Ordinal).Select(p => $"{p.Key}={p.Value}"));
        return new Run
        {
            PaintingId = photograph.PaintingId,
            Kind = RunKind.Aligning,
            ReadingId = "align",
            ReadingVersion = 1,
            Parameters = parameters,
            Inputs = [new RunSource("photograph", photograph.Id, photograph.FileName, photograph.Sha256, photograph.Light, null, null)],
            Key = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"align 1\n{photograph.Sha256}\n{text}"))),
            SoftwareVersion = Analysis.Declaring.RunRecord.Software,
            UserName = userName,
            QueuedAt = studio.Now,
        };
    }
}
