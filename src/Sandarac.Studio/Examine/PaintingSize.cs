using System.Globalization;
using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

/// <summary>The painted face as one photograph shows it.</summary>
/// <param name="Photograph">The photograph.</param>
/// <param name="WidthPx">Mean length of the upper and lower side, pixels.</param>
/// <param name="HeightPx">Mean length of the left and right side, pixels.</param>
/// <param name="Corners">Upper left, upper right, lower right, lower left, pixels; empty for a whole frame.</param>
/// <param name="Lens">The lens through which they are seen.</param>
/// <param name="CornerPixels">Half-width of a corner's 95 % interval, pixels.</param>
internal sealed record FaceInPhotograph(Photograph Photograph, double WidthPx, double HeightPx, IReadOnlyList<Point2> Corners, CameraLens Lens, double CornerPixels)
{
    /// <summary>How well a person sets a corner under the loupe, pixels.</summary>
    public const double HandPixels = 1;

    /// <summary>From the corners upper left, upper right, lower right, lower left.</summary>
    public static FaceInPhotograph FromCorners(Photograph photograph, IReadOnlyList<Point2> c, CameraLens lens, double cornerPixels) =>
        new(photograph, (c[0].DistanceTo(c[1]) + c[3].DistanceTo(c[2])) / 2, (c[0].DistanceTo(c[3]) + c[1].DistanceTo(c[2])) / 2, c, lens, cornerPixels);

    /// <summary>The whole frame, for a photograph that was cropped to the face.</summary>
    public static FaceInPhotograph WholeFrame(Photograph photograph) => new(photograph, photograph.Facts.Width, photograph.Facts.Height, [], CameraLens.AboutMiddle(0, photograph.Facts.Width, photograph.Facts.Height), 0);
}

/// <summary>Decides how large the painted face is: as measured, else by a ruler, else from resolution tags, else assumed. Every case but the first is said.</summary>
internal static class PaintingSize
{
    /// <summary>Longer side of a face of which nobody said anything, mm: the order of size of an easel painting.</summary>
    private const double AssumedLongerSideMm = 500;

    /// <summary>Sizes are stated in whole millimetres.</summary>
    private const double StatedToMm = 0.5;

    /// <summary>Sets a painting's size.</summary>
    /// <param name="painting">The painting; what was measured before stays when nothing new is said.</param>
    /// <param name="options">What the person said.</param>
    /// <param name="faces">The face as photographs show it; empty when none shows it whole.</param>
    /// <param name="rulers">Rulers in other photographs.</param>
    /// <returns>What to know about the size; kept with the painting too.</returns>
    public static IReadOnlyList<Warning> Decide(Painting painting, ExamineOptions options, IReadOnlyList<FaceInPhotograph> faces, IReadOnlyList<RulerInPhotograph> rulers)
    {
        var best = Best(faces);
        var (reference, ruled) = (best.Count > 0 ? best[0] : null, RuledSize.Of(best, rulers));
        List<Warning> warnings = [];
        if (options is { HeightMm: null, WidthMm: null })
        {
            var isKnown = painting is { WidthMm: > 0, SizeOrigin: ScaleOrigin.Measured or ScaleOrigin.Distance };
            if (reference is null && !isKnown) return warnings;
            if (isKnown) warnings.AddRange(painting.SizeWarnings.Where(w => w.Code != RuledSize.ContradictsCode));
            else warnings.Add(ruled is null ? Estimate(painting, reference!) : ByRuler(painting, ruled));
        }
        else if (Stated(painting, options, reference) is { } warning) warnings.Add(warning);
        if (painting.SizeOrigin is ScaleOrigin.Measured or ScaleOrigin.Distance && ruled?.Contradicts(painting, StatedToMm) is { } contradiction) warnings.Add(contradiction);
        painting.SizeWarnings = warnings;
        return warnings;
    }

    /// <summary>The size that the person stated; a side that they did not state follows from the other.</summary>
    private static Warning? Stated(Painting painting, ExamineOptions options, FaceInPhotograph? reference)
    {
        switch (options.HeightMm, options.WidthMm)
        {
            case ({ } height, { } width):
                Set(painting, width, height, ScaleOrigin.Measured);
                return null;
            case ({ } height, null) when reference is not null:
                Set(painting, height * reference.WidthPx / reference.HeightPx, height, ScaleOrigin.Measured);
                return OneSide("width", reference);
            case (null, { } width) when reference is not null:
                Set(painting, width, width * reference.HeightPx / reference.WidthPx, ScaleOrigin.Measured);
                return OneSide("height", reference);
            default:
                return null;
        }
    }

    private static Warning ByRuler(Painting painting, RuledSize ruled)
    {
        Set(painting, ruled.Face.WidthMm, ruled.Face.HeightMm, ScaleOrigin.Ruler, ruled.Face.Uncertainty);
        return ruled.Told;
    }

    /// <summary>Visible light first; among several the one with the most pixels, then the first by name.</summary>
    private static IReadOnlyList<FaceInPhotograph> Best(IReadOnlyList<FaceInPhotograph> faces) => [.. faces
        .OrderBy(f => f.Photograph.Light == Light.Visible.Code ? 0 : 1).ThenByDescending(f => f.WidthPx * f.HeightPx).ThenBy(f => f.Photograph.FileName, StringComparer.Ordinal)];

    private static Warning Estimate(Painting painting, FaceInPhotograph reference)
    {
        var name = reference.Photograph.FileName;
        if (reference.Photograph.Facts.Scale is { } scale)
        {
            Set(painting, reference.WidthPx * scale.MmPerPixel, reference.HeightPx * scale.MmPerPixel, ScaleOrigin.Metadata);
            return new Warning("size-from-metadata", string.Create(CultureInfo.InvariantCulture,
                $"No size was given: {painting.HeightMm:0} x {painting.WidthMm:0} mm follow from the resolution tags of {name} ({scale.PixelsPerInch:0} pixels per inch), which cameras often fill with a default."));
        }
        var mmPerPixel = AssumedLongerSideMm / Math.Max(reference.WidthPx, reference.HeightPx);
        Set(painting, reference.WidthPx * mmPerPixel, reference.HeightPx * mmPerPixel, ScaleOrigin.Assumed);
        return new Warning("size-assumed", string.Create(CultureInfo.InvariantCulture,
            $"No size was given and no file states one: the longer side is assumed to be {AssumedLongerSideMm:0} mm, with the proportions of {name}. Every length is relative until the painting is measured."));
    }

    private static Warning OneSide(string side, FaceInPhotograph reference) => new("size-one-side",
        $"Only one side was given; the {side} follows from the proportions in {reference.Photograph.FileName}, which a tilted camera changes by some per cent. Give both for a measured plane.");

    private static void Set(Painting painting, double width, double height, ScaleOrigin origin, double? uncertainty = null) =>
        (painting.WidthMm, painting.HeightMm, painting.SizeOrigin, painting.SizeUncertainty) = (width, height, origin, uncertainty);
}
