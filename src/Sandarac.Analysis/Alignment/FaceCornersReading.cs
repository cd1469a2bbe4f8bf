using NetTopologySuite.Geometries;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment;

/// <summary>Finds the four corners of the painted face in one photograph.</summary>
public sealed class FaceCornersReading : Reading
{
    internal const string UncertainCode = "corners-uncertain";

    private static readonly NumberParameter LeastConfidence = new("least-confidence", "Least confidence", "Below this confidence the result is uncertain; below half of it there is no answer.", null, 0.6, 0, 1);

    private static readonly NumberParameter MostResidual = new("most-residual", "Largest residual", "Largest 95th percentile of the sides' residual, as a percentage of the longer side of the face, and never less than 2 pixels; beyond it the result is uncertain, beyond four times it there is no answer.", "%", 0.1, 0, 10);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "face-corners",
        Version = 1,
        Title = "Corners of the painted face",
        Summary = "Finds the four corners of the painted face in one photograph, so that it can be put on the plane in millimetres.",
        Citation = "Sides by voting for straight lines (Duda and Hart, Communications of the ACM 15 (1972) 11), refined on edge profiles with Tukey's biweight (Holland and Welsch, Communications in Statistics A6 (1977) 813); lens by straight lines (Brown, Photogrammetric Engineering 37 (1971) 855); uncertainty by leaving out parts of the sides (jackknife, Tukey 1958). All from memory.",
        Limits = "Needs the whole face in the frame with some even surround on all four sides, turned by less than 6 degrees. The sides must be straight: a warped panel or a slack canvas shows as residual and is partly taken for lens distortion. "
            + "X-radiographs are never more than uncertain: a film's border looks like a side. A frame around the painting, or an edge strip in another tone, may be taken for the face. Four corners leave nothing to check the alignment against: the residual tells only how straight the sides are, and the intervals know nothing of what a whole side has in common, as paint or shadow over an edge.",
        Inputs = [new("photograph", "A photograph of the whole painting with some surround.", [])],
        Parameters = [LeastConfidence, MostResidual],
        Rasters = [],
        Figures =
        [
            new("corner-x", "Corner, from the left of the photograph", "px", "For each corner; 95 % interval by leaving out each of 32 parts of the sides, with Student's t."),
            new("corner-y", "Corner, from the top of the photograph", "px", "As corner-x."),
            new("k1", "Radial distortion", "1", "With half the diagonal as unit of length; negative for a barrel. Interval as for the corners."),
            new("residual-median", "Median distance from a straight side", "px", "Over the points used, lens undone. It is itself the measure of uncertainty."),
            new("residual-p95", "95th percentile of that distance", "px", "As residual-median."),
            new("coverage", "Share of a side that is seen", "1", "For each side: profiles whose strongest change, as far as the search could err, lies within 1.5 pixels of the line. Counted."),
            new("confidence", "Confidence", "1", "The least coverage, times the share of the surround that is even; halved when there is too little surround to judge. A score, not a probability."),
        ],
        Reach = new Reach.Whole(900),
        RunsOnExamine = true,
        OnPlane = false,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var image = context.Inputs("photograph")[0];
        var search = FaceSearch.Find(image, ((Reach.Whole)Declaration.Reach).LongestSide, context);
        return search.NoAnswer is { } why ? new Outcome { NoAnswer = why } : Judge(search.Face!, image.Light == Light.Xray, context);
    }

    private static Outcome Judge(FoundFace face, bool isXray, RunContext context)
    {
        var (least, percent) = (context.Value(LeastConfidence), context.Value(MostResidual));
        var corners = face.Lines.Corners();
        var limit = Math.Max(2, percent / 100 * Enumerable.Range(0, 4).Max(i => corners[i].DistanceTo(corners[(i + 1) % 4])));
        var (weak, bent) = (face.Confidence < least, face.Residual.P95 > limit);
        var why = FormattableString.Invariant($"confidence {face.Confidence:0.00} ({least:0.00} wanted), sides straight within {face.Residual.P95:0.0} px ({limit:0.0} allowed)");
        if (face.Confidence < least / 2 || face.Residual.P95 > 4 * limit) return new Outcome { NoAnswer = $"Four sides were found, but not believably: {why}." };
        if (isXray) why += "; in an X-radiograph the border of the film may pass for the painting's";
        return new Outcome
        {
            Figures = Figures(face, corners),
            Candidates = [new Candidate(Polygon(corners), "painted-face", face.Confidence, $"four straight sides: {why}")],
            Warnings = weak || bent || isXray ? [new Warning(UncertainCode, $"The painted face's corners are uncertain: {why}. Look at them and set them by hand if need be.")] : [],
        };
    }

    private static Figure[] Figures(FoundFace face, Point2[] corners) =>
    [
        .. corners.Select((c, i) => new Figure("corner-x", c.X, face.CornerUncertainty[i].X, null, FaceCorners.Names[i])),
        .. corners.Select((c, i) => new Figure("corner-y", c.Y, face.CornerUncertainty[i].Y, null, FaceCorners.Names[i])),
        new("k1", face.Lines.Camera.K1, face.K1Uncertainty),
        new("residual-median", face.Residual.Median, null, "a measure of uncertainty itself"),
        new("residual-p95", face.Residual.P95, null, "a measure of uncertainty itself"),
        .. face.Coverage.Select((c, i) => new Figure("coverage", c, null, "counted over profiles", ((Side)i).ToString().ToLowerInvariant())),
        new("confidence", face.Confidence, null, "a score, not a probability"),
    ];

    private static Polygon Polygon(Point2[] corners) => new(new LinearRing([.. corners.Append(corners[0]).Select(c => new Coordinate(c.X, c.Y))]));
}
