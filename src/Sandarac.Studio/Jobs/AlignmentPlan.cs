using System.Text.Json;
using Sandarac.Analysis.Alignment;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>What an alignment run is to do.</summary>
/// <param name="Method">How the corners were got.</param>
/// <param name="Corners">Upper left, upper right, lower right, lower left, pixels.</param>
/// <param name="K1">Radial distortion as <see cref="FaceAlignment"/> takes it.</param>
/// <param name="Verdict">How far it may be trusted.</param>
/// <param name="Reason">Why, in words.</param>
/// <param name="ResidualPx">The sides' residual, when corners were found.</param>
internal sealed record AlignmentPlan(string Method, IReadOnlyList<Point2> Corners, double K1, Verdict Verdict, string Reason, SideResidual? ResidualPx)
{
    public const string Found = "corners-found";
    public const string ByHand = "corners-by-hand";
    public const string WholeFrame = "whole-frame";
    public const string None = "none";

    /// <summary>The plan as a run's parameters, so that the run can be repeated.</summary>
    public IReadOnlyDictionary<string, string> ToParameters() => new Dictionary<string, string> { ["plan"] = JsonSerializer.Serialize(this, StudioJson.Options) };

    public static AlignmentPlan Of(Run run) => JsonSerializer.Deserialize<AlignmentPlan>(run.Parameters["plan"], StudioJson.Options)!;

    /// <exception cref="InputProblem">Not four corners near the photograph, or not in order.</exception>
    public static void RequireCorners(Photograph photograph, IReadOnlyList<Point2> corners, Painting painting)
    {
        var (w, h) = (photograph.Facts.Width, photograph.Facts.Height);
        // A corner may lie a little outside the frame: half the frame is certainly a slip.
        if (corners.Count != 4 || corners.Any(c => !(c.X >= -w / 2.0 && c.X <= 1.5 * w && c.Y >= -h / 2.0 && c.Y <= 1.5 * h)))
            throw new InputProblem("corners", photograph.FileName, "Four corners are needed, each in or near the photograph.", "Set them in the order upper left, upper right, lower right, lower left.");
        try
        {
            FaceAlignment.FromCorners(corners, 0, w, h, painting.HeightMm, painting.WidthMm);
        }
        catch (ArgumentException e)
        {
            throw new InputProblem("corners", photograph.FileName, "The four corners do not enclose a face seen from the front.", "Set them in the order upper left, upper right, lower right, lower left.", e);
        }
    }
}
