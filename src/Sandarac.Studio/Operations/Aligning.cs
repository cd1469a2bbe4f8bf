using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Alignment.Pairs;
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
        var run = Prepare(photograph, new AlignmentPlan(AlignmentMethod.ByHand, corners, 0, Verdict.Aligned, AlignmentPlan.HandReason, null).For(painting, photograph), userName);
        db.Runs.Add(run);
        db.SaveChanges();
        return run;
    }

    /// <summary>Queues an alignment of a photograph to another one that is on the plane, by what both show.</summary>
    /// <param name="photographId">The photograph.</param>
    /// <param name="referenceId">The one that stays.</param>
    /// <param name="model">The model; null to choose.</param>
    /// <param name="userName">Who asked.</param>
    /// <returns>The queued run; <see cref="Running.Execute"/> carries it out. When the two do not agree it ends without an answer, and the former alignment stays.</returns>
    /// <exception cref="InputProblem">No such photographs of one painting; the reference is not on the plane; both are the same.</exception>
    public Run QueueMatch(Guid photographId, Guid referenceId, MapModel? model, string userName) => Queue(photographId, referenceId, model, null, userName);

    /// <summary>Queues an alignment through point pairs that a person set on a reference and on the photograph.</summary>
    /// <param name="photographId">The photograph.</param>
    /// <param name="referenceId">The one that stays.</param>
    /// <param name="pairs">Places in mm on the plane, and pixels of the photograph's original.</param>
    /// <param name="model">The model; null for the fullest that so many pairs can carry.</param>
    /// <param name="userName">Who set them.</param>
    /// <exception cref="InputProblem">As <see cref="QueueMatch"/>; too few pairs, or all on one line.</exception>
    public Run QueueByPairs(Guid photographId, Guid referenceId, IReadOnlyList<PointPair> pairs, MapModel? model, string userName)
    {
        using (var db = studio.CreateDb())
        {
            var photograph = db.RequirePhotograph(photographId);
            PointPairs.Fit(pairs, photograph.Facts.Width, photograph.Facts.Height, model ?? PointPairs.ModelFor(pairs.Count(p => p.Used)));
        }
        return Queue(photographId, referenceId, model, pairs, userName);
    }

    private Run Queue(Guid photographId, Guid referenceId, MapModel? model, IReadOnlyList<PointPair>? pairs, string userName)
    {
        using var db = studio.CreateDb();
        var (photograph, other) = (db.RequirePhotograph(photographId), db.RequirePhotograph(referenceId));
        var painting = db.RequirePainting(photograph.PaintingId);
        var reference = db.PhotographsOf(other.PaintingId).First(p => p.Id == referenceId);
        var plan = MatchTo(painting, photograph, reference, model is { } m ? ModelNames.Of(m) : ModelNames.Automatic, null, pairs);
        var run = Prepare(photograph, plan, userName);
        db.Runs.Add(run);
        db.SaveChanges();
        return run;
    }

    /// <summary>The plan of an alignment to another photograph.</summary>
    internal static AlignmentPlan MatchTo(Painting painting, Photograph photograph, Photograph reference, string model, PlaneMap? start, IReadOnlyList<PointPair>? pairs)
    {
        var (image, extent) = RequireReference(photograph, reference);
        return new AlignmentPlan(pairs is null ? AlignmentMethod.Matched : AlignmentMethod.ByPairs, [], 0, Verdict.Aligned, "", null,
            Match: new MatchPlan(reference.Id, image.Sha256, extent, model, start, pairs)).For(painting, photograph);
    }

    /// <summary>A reference's plane image and where it lies, mm.</summary>
    /// <exception cref="InputProblem">It is the same photograph, of another painting, or not on the plane.</exception>
    internal static (PyramidFacts Image, Box Extent) RequireReference(Photograph photograph, Photograph reference)
    {
        if (reference.Id == photograph.Id || reference.PaintingId != photograph.PaintingId)
            throw new InputProblem("reference", reference.FileName, "A photograph is aligned to another one of the same painting.", "Choose another reference.");
        return reference.Alignments.InForce() is { PlaneImage: { } image, PlaneExtent: { } extent } ? (image, extent)
            : throw new InputProblem("reference-not-aligned", reference.FileName, $"{reference.FileName} is not on the plane itself.", "Choose a reference that is, or set its corners first.");
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
