using Sandarac.Analysis.Declaring;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment;

/// <summary>How far an alignment may be trusted.</summary>
public enum FaceVerdict
{
    /// <summary>Every side is seen along most of its length and comes out straight.</summary>
    Aligned,

    /// <summary>A person must look: a side is weak or not straight.</summary>
    Uncertain,

    /// <summary>No four sides were found.</summary>
    NotAligned,
}

/// <summary>The four corners that the reading <c>face-corners</c> found, taken from its outcome.</summary>
/// <param name="Corners">Upper left, upper right, lower right, lower left, pixels; empty when there is no answer.</param>
/// <param name="CornerPixels">Largest half-width of a corner's 95 % interval, pixels.</param>
/// <param name="K1">Radial coefficient, for <see cref="FaceAlignment.FromCorners"/>.</param>
/// <param name="ResidualPx">Straightness of the sides, pixels; null when there is no answer.</param>
/// <param name="Confidence">0 to 1.</param>
/// <param name="Verdict">How far it may be trusted.</param>
/// <param name="Reason">Why, in words.</param>
public sealed record FaceCorners(IReadOnlyList<Point2> Corners, double CornerPixels, double K1, SideResidual? ResidualPx, double Confidence, FaceVerdict Verdict, string Reason)
{
    internal static readonly string[] Names = ["upper left", "upper right", "lower right", "lower left"];

    /// <summary>Reads an outcome of <c>face-corners</c>; its figures and warnings are enough.</summary>
    public static FaceCorners From(Outcome outcome)
    {
        if (outcome.NoAnswer is { } why) return new FaceCorners([], 0, 0, null, 0, FaceVerdict.NotAligned, why);
        double Value(string name, string? subject = null) => outcome.Figures.Single(f => f.Name == name && (subject is null || f.Subject == subject)).Value!.Value;
        var uncertain = outcome.Warnings.FirstOrDefault(w => w.Code == FaceCornersReading.UncertainCode);
        return new FaceCorners([.. Names.Select(n => new Point2(Value("corner-x", n), Value("corner-y", n)))],
            outcome.Figures.Where(f => f.Name is "corner-x" or "corner-y").Max(f => f.Uncertainty!.Value), Value("k1"),
            new SideResidual(Value("residual-median"), Value("residual-p95")), Value("confidence"),
            uncertain is null ? FaceVerdict.Aligned : FaceVerdict.Uncertain,
            uncertain?.Message ?? FormattableString.Invariant($"four sides seen along {outcome.Figures.Where(f => f.Name == "coverage").Min(f => f.Value) * 100:0} % at least, straight within {Value("residual-p95"):0.0} px"));
    }
}
