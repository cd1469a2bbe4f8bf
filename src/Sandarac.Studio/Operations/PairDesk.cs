using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>A pair that was looked for in the pixels.</summary>
/// <param name="Pair">The pair; its pixel has moved when something stood out.</param>
/// <param name="Score">Normalised correlation of the structure there, -1 to 1; null when nothing stood out.</param>
public sealed record SnappedPair(PointPair Pair, double? Score);

/// <summary>What a map through pairs leaves of one of them.</summary>
/// <param name="Mm">Where its pixel comes to lie, less its place: right and down, mm.</param>
/// <param name="Px">Distance between its pixel and where the map puts its place, pixels of the photograph.</param>
/// <param name="LeftOutMm">Distance when the pair itself has no part in the map, mm; null where too few pairs are left.</param>
/// <param name="OthersRmsMm">Root mean square of the others' distances then, mm: the pair without which the others agree best is the one to doubt.</param>
public sealed record PairResidual(Point2 Mm, double Px, double? LeftOutMm, double? OthersRmsMm);

/// <summary>A map through pairs, judged before anything is stored.</summary>
/// <param name="Model">The model used.</param>
/// <param name="Pairs">What it leaves of each pair, used or not, in their order.</param>
/// <param name="MmPerPixel">Size of a pixel in the middle of the photograph, mm.</param>
public sealed record PairsFit(MapModel Model, IReadOnlyList<PairResidual> Pairs, double MmPerPixel);

/// <summary>Where a place or a pixel lies in the other photograph, as far as is known.</summary>
/// <param name="Place">mm on the plane.</param>
/// <param name="Pixel">In the photograph, pixels.</param>
/// <param name="MmPerPixel">Size of a pixel there, mm.</param>
public sealed record PairPrediction(Point2 Place, Point2 Pixel, double MmPerPixel);

/// <summary>Alignment by hand: helps a person to set point pairs between a photograph and one that lies on the plane, and judges them. Stores nothing.</summary>
public sealed class PairDesk(OpenStudio studio)
{
    /// <summary>More pairs than a person sets.</summary>
    public const int MostPairs = 200;

    /// <summary>Moves a pair's pixel to where the reference's structure about its place lies best. The place holds.</summary>
    /// <param name="photographId">The photograph that is to be aligned.</param>
    /// <param name="referenceId">A photograph that lies on the plane.</param>
    /// <param name="pairs">The pairs so far: they say at what size and turn to look.</param>
    /// <param name="pair">The pair.</param>
    /// <exception cref="InputProblem">Unknown photographs, a reference that is not on the plane, pairs that cannot be.</exception>
    public SnappedPair Snap(Guid photographId, Guid referenceId, IReadOnlyList<PointPair> pairs, PointPair pair)
    {
        var (photograph, painting) = Find(photographId);
        RequirePairs(photograph, painting, [.. pairs, pair]);
        var (image, extent) = Reference(photograph, referenceId);
        var around = Around(photograph, painting, pairs);
        return studio.Pyramids.Read(image.Sha256, still => studio.Pyramids.Read(photograph.Pyramid!.Sha256, moving =>
            PointPairs.Snap(MatchingBody.TargetOf(ImageOf("reference", image, still), extent), ImageOf(photograph.FileName, photograph.Pyramid!, moving), around, pair)
                is { } found ? new SnappedPair(found.Pair, found.Score) : new SnappedPair(pair, null)));
    }

    /// <summary>Puts a map through pairs and says what it leaves of each.</summary>
    /// <param name="photographId">The photograph.</param>
    /// <param name="pairs">The pairs; those not used only get residuals.</param>
    /// <param name="model">The model; null for the fullest that so many pairs carry with something to spare.</param>
    /// <exception cref="InputProblem">Unknown photograph, too few pairs, or pairs that do not fix the model.</exception>
    public PairsFit Fit(Guid photographId, IReadOnlyList<PointPair> pairs, MapModel? model)
    {
        var (photograph, painting) = Find(photographId);
        RequirePairs(photograph, painting, pairs);
        var (width, height) = (photograph.Facts.Width, photograph.Facts.Height);
        var chosen = model ?? PointPairs.ModelFor(pairs.Count(p => p.Used));
        var fit = PointPairs.Fit(pairs, width, height, chosen);
        return new PairsFit(chosen, [.. pairs.Select((p, i) => new PairResidual(fit.Residuals[i], fit.Map.ToPixel(p.Place).DistanceTo(p.Pixel), fit.LeftOut[i], fit.OthersRms[i]))],
            fit.Map.ScaleAt(new Point2(width / 2.0, height / 2.0)));
    }

    /// <summary>Where a place on the plane lies in the photograph.</summary>
    /// <exception cref="InputProblem">Unknown photograph, or pairs that cannot be.</exception>
    public PairPrediction PredictPixel(Guid photographId, IReadOnlyList<PointPair> pairs, Point2 place)
    {
        var map = Around(photographId, pairs);
        return new PairPrediction(place, map.ToPixel(place), map.ScaleAt(map.ToPixel(place)));
    }

    /// <summary>Where a pixel of the photograph lies on the plane.</summary>
    /// <exception cref="InputProblem">Unknown photograph, or pairs that cannot be.</exception>
    public PairPrediction PredictPlace(Guid photographId, IReadOnlyList<PointPair> pairs, Point2 pixel)
    {
        var map = Around(photographId, pairs);
        return new PairPrediction(map.ToPlane(pixel), pixel, map.ScaleAt(pixel));
    }

    /// <summary>The pairs by which the alignment in force was made; none when it was made in another way.</summary>
    /// <exception cref="InputProblem">Unknown photograph.</exception>
    public IReadOnlyList<PointPair> InForce(Guid photographId)
    {
        using var db = studio.CreateDb();
        db.RequirePhotograph(photographId);
        return db.Alignments.AsNoTracking().Where(a => a.PhotographId == photographId).AsEnumerable().InForce()?.RunId is { } runId
            && AlignmentPlan.Of(db.RequireRun(runId)).Match?.Pairs is { } pairs ? pairs : [];
    }

    private (PyramidFacts Image, Box Extent) Reference(Photograph photograph, Guid referenceId)
    {
        using var db = studio.CreateDb();
        db.RequirePhotograph(referenceId);
        return Aligning.RequireReference(photograph, db.Photographs.AsNoTracking().Include(p => p.Alignments).First(p => p.Id == referenceId));
    }

    private HomographyMap Around(Guid photographId, IReadOnlyList<PointPair> pairs)
    {
        var (photograph, painting) = Find(photographId);
        RequirePairs(photograph, painting, pairs);
        return Around(photograph, painting, pairs);
    }

    /// <summary>A map of about the right size and turn: through the pairs so far, else the alignment in force, else as if the photograph showed the face and nothing else.</summary>
    private static HomographyMap Around(Photograph photograph, Painting painting, IReadOnlyList<PointPair> pairs)
    {
        var (width, height) = (photograph.Facts.Width, photograph.Facts.Height);
        return Through(pairs.Where(p => p.Used).ToList(), width, height)
            ?? photograph.Alignments.InForce()?.Map switch
            {
                HomographyMap flat => flat,
                WarpedMap bent => bent.Base,
                _ => new HomographyMap([painting.WidthMm / width, 0, 0, 0, painting.HeightMm / height, 0, 0, 0, 1]),
            };
    }

    private static HomographyMap? Through(List<PointPair> used, int width, int height)
    {
        if (used.Count < PointPairs.Fewest(MapModel.Similarity)) return null;
        try
        {
            return (HomographyMap)PointPairs.Fit(used, width, height, PointPairs.ModelFor(used.Count)).Map;
        }
        catch (InputProblem)
        {
            // Pairs on one line still fix place, turn and size.
            return used.Count == 2 ? null : Through([used[0], used.MaxBy(p => p.Place.DistanceTo(used[0].Place))!], width, height);
        }
    }

    private (Photograph Photograph, Painting Painting) Find(Guid photographId)
    {
        using var db = studio.CreateDb();
        db.RequirePhotograph(photographId);
        var photograph = db.Photographs.AsNoTracking().Include(p => p.Alignments).First(p => p.Id == photographId);
        var painting = db.RequirePainting(photograph.PaintingId);
        if (painting.WidthMm <= 0)
            throw new InputProblem("no-size", painting.Title, "The size of the painting is not known.", "Examine it with --height-mm and --width-mm first.");
        return photograph.Pyramid is not null ? (photograph, painting)
            : throw new InputProblem("no-pixels", photograph.FileName, $"{photograph.FileName} could not be read when it was imported.", "Import it again from a sound copy.");
    }

    private static void RequirePairs(Photograph photograph, Painting painting, IReadOnlyList<PointPair> pairs)
    {
        if (pairs.Count > MostPairs) throw new InputProblem("too-many-pairs", "pairs", $"{pairs.Count} pairs are more than the {MostPairs} that are taken.", "Keep those that are surest and best spread.");
        foreach (var (pair, number) in pairs.Select((p, i) => (p, i + 1)))
        {
            // Half a frame beyond is certainly a slip, as with corners.
            if (!Near(pair.Pixel, photograph.Facts.Width, photograph.Facts.Height))
                throw new InputProblem("pair-pixel", $"pair {number}", $"Pair {number} has no pixel in or near {photograph.FileName}.", "Give its pixel as x from the left and y from the top.");
            if (!Near(pair.Place, painting.WidthMm, painting.HeightMm))
                throw new InputProblem("pair-place", $"pair {number}", $"Pair {number} has no place on or near the painting.", "Give its place in mm from the upper left corner of the painted face.");
        }
    }

    /// <summary>False for what is not a number, too.</summary>
    private static bool Near(Point2 p, double width, double height) => p.X >= -width / 2 && p.X <= 1.5 * width && p.Y >= -height / 2 && p.Y <= 1.5 * height;

    private static PairImage ImageOf(string name, PyramidFacts facts, PyramidFile file) => new(name, file, facts.Bands.Count - (facts.Bands[^1] == "alpha" ? 1 : 0));
}
