using System.Text.Json;
using System.Text.Json.Serialization;
using Sandarac.Analysis.Alignment;
using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>How a photograph is to be aligned to another one.</summary>
/// <param name="ReferenceId">The photograph that stays.</param>
/// <param name="ReferenceSha256">Its plane image then.</param>
/// <param name="ReferenceExtent">Where that lies, mm on the plane.</param>
/// <param name="Model">Name of the model (<see cref="ModelNames"/>).</param>
/// <param name="Start">Where the photograph is believed to lie; null to search.</param>
/// <param name="Pairs">Point pairs that a person set; null to match by itself.</param>
internal sealed record MatchPlan(Guid ReferenceId, string ReferenceSha256, Box ReferenceExtent, string Model, PlaneMap? Start = null, IReadOnlyList<PointPair>? Pairs = null);

/// <summary>Where a mosaic has put a photograph of a part.</summary>
/// <param name="MosaicId">The mosaic's run.</param>
/// <param name="Map">From the photograph's pixels to the plane.</param>
/// <param name="Residuals">How well all parts agree.</param>
internal sealed record JointPlan(Guid MosaicId, PlaneMap Map, Residuals Residuals);

/// <summary>An alignment whose plane has come out larger or smaller than was believed.</summary>
/// <param name="AlignmentId">The alignment until then.</param>
/// <param name="Factor">New millimetres over old ones.</param>
internal sealed record ResizePlan(Guid AlignmentId, double Factor);

/// <summary>What an alignment run is to do.</summary>
/// <param name="Method">How the corners were got.</param>
/// <param name="Corners">Upper left, upper right, lower right, lower left, pixels.</param>
/// <param name="K1">Radial distortion about the photograph's middle, as its sides show it.</param>
/// <param name="Verdict">How far it may be trusted.</param>
/// <param name="Reason">Why, in words.</param>
/// <param name="ResidualPx">The sides' residual, when corners were found.</param>
/// <param name="WidthMm">Width of the painted face then, mm.</param>
/// <param name="HeightMm">Height of the painted face then, mm.</param>
/// <param name="MmPerPixel">Size of a pixel of the plane's grid then, mm.</param>
/// <param name="Joint">Set when a mosaic has placed the photograph.</param>
/// <param name="Match">Set when the photograph is aligned to another one instead of by its corners.</param>
/// <param name="Resize">Set when only the painting's size has changed, by one measured distance.</param>
/// <param name="Lens">The lens from calibration frames; it counts instead of <paramref name="K1"/>.</param>
internal sealed record AlignmentPlan(string Method, IReadOnlyList<Point2> Corners, double K1, Verdict Verdict, string Reason, SideResidual? ResidualPx,
    double WidthMm = 0, double HeightMm = 0, double MmPerPixel = 0, MatchPlan? Match = null, JointPlan? Joint = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] ResizePlan? Resize = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] MeasuredLens? Lens = null)
{
    public const string HandReason = "The corners were set by hand.";

    /// <summary>The plan of an alignment that a person made, to be made again when the painting's size changes.</summary>
    public static AlignmentPlan FromHand(Alignment alignment) => new(AlignmentMethod.ByHand, alignment.Corners, 0, Verdict.Aligned, HandReason, null);

    /// <summary>A photograph that stays by itself.</summary>
    public static AlignmentPlan Without(string reason) => new(AlignmentMethod.None, [], 0, Verdict.NotAligned, reason, null);

    /// <summary>The plan with its corners seen through a measured lens. How straight the sides came out was judged through another: it is not said any more.</summary>
    public AlignmentPlan Through(MeasuredLens? lens) => lens is null || Corners.Count == 0 ? this
        : this with { K1 = 0, Lens = lens, ResidualPx = null, Reason = $"{Reason} The lens is held at that of {lens.Names}." };

    /// <summary>The lens through which the corners are seen.</summary>
    public CameraLens LensOf(Photograph photograph) => Lens?.Lens ?? CameraLens.AboutMiddle(K1, photograph.Facts.Width, photograph.Facts.Height);

    /// <summary>The plan for a painting's size and grid. A painting without a grid gets the one on which this photograph loses nothing.</summary>
    public AlignmentPlan For(Painting painting, Photograph photograph)
    {
        if (Match is not null || Joint is not null) return this with { WidthMm = painting.WidthMm, HeightMm = painting.HeightMm, MmPerPixel = painting.PlaneMmPerPixel };
        if (Corners.Count == 0) return this;
        var sized = this with { WidthMm = painting.WidthMm, HeightMm = painting.HeightMm };
        return sized with { MmPerPixel = painting.PlaneMmPerPixel > 0 ? painting.PlaneMmPerPixel : PlaneGrid.For(sized.MapOf(photograph).Map, sized.Face).MmPerPixel };
    }

    /// <summary>The painted face, mm.</summary>
    [JsonIgnore]
    public Box Face => new(0, 0, WidthMm, HeightMm);

    /// <summary>The map that the corners fix.</summary>
    public (HomographyMap Map, FaceFit Fit) MapOf(Photograph photograph) =>
        FaceAlignment.FromCorners(Corners, LensOf(photograph), HeightMm, WidthMm, ResidualPx);

    /// <summary>The plan as a run's parameters, so that the run can be repeated.</summary>
    public IReadOnlyDictionary<string, string> ToParameters() => new Dictionary<string, string> { ["plan"] = JsonSerializer.Serialize(this, StudioJson.Options) };

    public static AlignmentPlan Of(Run run) => JsonSerializer.Deserialize<AlignmentPlan>(run.Parameters["plan"], StudioJson.Options)!;

    /// <exception cref="InputProblem">Not four corners near the photograph, or not in order.</exception>
    public static void RequireCorners(Photograph photograph, IReadOnlyList<Point2> corners, Painting painting)
    {
        var (w, h) = (photograph.Facts.Width, photograph.Facts.Height);
        if (painting.WidthMm <= 0)
            throw new InputProblem("no-size", painting.Title, "The size of the painting is not known.", "Examine it with --height-mm and --width-mm first.");
        // A corner may lie a little outside the frame: half the frame is certainly a slip.
        if (corners.Count != 4 || corners.Any(c => !(c.X >= -w / 2.0 && c.X <= 1.5 * w && c.Y >= -h / 2.0 && c.Y <= 1.5 * h)))
            throw new InputProblem("corners", photograph.FileName, "Four corners are needed, each in or near the photograph.", "Set them in the order upper left, upper right, lower right, lower left.");
        try
        {
            FaceAlignment.FromCorners(corners, CameraLens.AboutMiddle(0, w, h), painting.HeightMm, painting.WidthMm);
        }
        catch (ArgumentException e)
        {
            throw new InputProblem("corners", photograph.FileName, "The four corners do not enclose a face seen from the front.", "Set them in the order upper left, upper right, lower right, lower left.", e);
        }
    }
}
