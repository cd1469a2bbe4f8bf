using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Lenses;

/// <summary>A camera's lens from photographs of a flat chessboard.</summary>
public sealed class LensCalibrationReading : Reading
{
    internal const string CoverageCode = "lens-coverage";

    /// <summary>Cells of the frame each way in which corners are counted.</summary>
    private const int Cells = 8;

    private static readonly NumberParameter LeastCoverage = new("least-coverage", "Least coverage", "Below this share of the frame with corners in it a warning is given: beyond the corners the lens is only guessed.", null, 0.5, 0, 1);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "lens-calibration",
        Version = 1,
        Title = "Lens from a calibration frame",
        Summary = "Finds the inner corners of a flat chessboard in one or several photographs and from them the lens's radial distortion and its centre.",
        Citation = "Corners as saddle points of smoothed brightness (Beaudet 1978: the determinant of the second derivatives); for each frame a homography, for all one lens (Zhang, IEEE Transactions on Pattern Analysis and Machine Intelligence 22 (2000) 1330); distortion after Brown, Photogrammetric Engineering 37 (1971) 855; least squares by Gauss and Newton's method. All from memory.",
        Limits = "The board must be flat, its squares at least 12 pixels wide after larger photographs are brought down to 3000 pixels, three by three inner corners and 16 in all in view; parts may be missing. Frames of one camera with the same focal length, focus and size. The centre is held near the frame's middle, and is not told from a tilt of the board where the distortion is small. The intervals take the corners' errors as independent.",
        Inputs = [new("chessboard", "Photographs of a flat chessboard by one lens, all of one size.", [], 1, 20)],
        Parameters = [LeastCoverage],
        Rasters = [],
        Figures =
        [
            new("k1", "Radial distortion, first term", "1", "With half the frame's diagonal as unit of length; negative for a barrel. 95 % interval from the least squares' covariance."),
            new("k2", "Radial distortion, second term", "1", "As k1."),
            new("centre-x", "Centre of distortion, from the left", "px", "As k1."),
            new("centre-y", "Centre of distortion, from the top", "px", "As k1."),
            new("residual-rms", "Residual of the corners", "px", "Root mean square distance of the corners from where the fit has them. It is itself a measure of uncertainty."),
            new("corners", "Corners", "1", "For each photograph. Counted."),
            new("coverage", "Share of the frame that holds corners", "1", "Of 8 x 8 cells, over all photographs. Counted."),
        ],
        Reach = new Reach.Whole(3000),
        OnPlane = false,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var images = context.Inputs("chessboard");
        var (width, height) = (images[0].Image.Facts.Width, images[0].Image.Facts.Height);
        if (images.FirstOrDefault(i => (i.Image.Facts.Width, i.Image.Facts.Height) != (width, height)) is { } other)
            throw new InputProblem("input-size", other.Name, $"{other.Name} is not as large as {images[0].Name}.", "Give photographs of one camera, uncropped.");
        var found = images.Select(i => (Image: i, Board: BoardIn(i, context))).ToList();
        var boards = found.Where(f => f.Board is not null).Select(f => f.Board!).ToList();
        if (boards.Count == 0) return new Outcome { NoAnswer = $"No chessboard was found: no {Board.Fewest} inner corners in at least three columns and three rows." };
        var fit = LensFit.Of(boards, width, height);
        var coverage = boards.SelectMany(b => b.Places).Select(c => ((int)(c.At.X / width * Cells), (int)(c.At.Y / height * Cells))).Distinct().Count() / (double)(Cells * Cells);
        return new Outcome { Figures = [.. Figures(fit, coverage, found)], Warnings = [.. Warnings(coverage, context.Value(LeastCoverage), found)] };
    }

    private static IEnumerable<Figure> Figures(LensFit fit, double coverage, List<(InputImage Image, Board? Board)> found)
    {
        yield return new Figure("k1", fit.Lens.K1, fit.Uncertainty[0]);
        yield return new Figure("k2", fit.Lens.K2, fit.Uncertainty[1]);
        yield return new Figure("centre-x", fit.Lens.Centre.X, fit.Uncertainty[2]);
        yield return new Figure("centre-y", fit.Lens.Centre.Y, fit.Uncertainty[3]);
        yield return new Figure("residual-rms", Math.Sqrt(fit.Residuals.Sum(r => r * r) / fit.Residuals.Length), null, "a measure of uncertainty itself");
        foreach (var (image, board) in found) yield return new Figure("corners", board?.Places.Count ?? 0, null, "counted", image.Name);
        yield return new Figure("coverage", coverage, null, "counted");
    }

    private static IEnumerable<Warning> Warnings(double coverage, double least, List<(InputImage Image, Board? Board)> found)
    {
        if (coverage < least)
            yield return new Warning(CoverageCode, FormattableString.Invariant($"Corners lie in {100 * coverage:0} % of the frame only; beyond them the lens is guessed. Let the board fill the frame, or take it in several places."));
        foreach (var (image, _) in found.Where(f => f.Board is null)) yield return new Warning("lens-no-board", $"No chessboard was found in {image.Name}; it was left out.");
    }

    private Board? BoardIn(InputImage image, RunContext context)
    {
        var reduced = ReducedImage.Of(image, ((Reach.Whole)Declaration.Reach).LongestSide, context);
        return Board.Of(BoardCorner.In(reduced.Mean())) is not { } board ? null
            : new Board([.. board.Places.Select(p => (p.Column, p.Row, new Point2(p.At.X * reduced.Factor, p.At.Y * reduced.Factor)))]);
    }
}
