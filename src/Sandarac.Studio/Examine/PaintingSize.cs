using System.Globalization;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

/// <summary>The painted face as one photograph shows it.</summary>
/// <param name="Photograph">The photograph.</param>
/// <param name="WidthPx">Mean length of the upper and lower side, pixels.</param>
/// <param name="HeightPx">Mean length of the left and right side, pixels.</param>
internal sealed record FaceInPhotograph(Photograph Photograph, double WidthPx, double HeightPx)
{
    /// <summary>From the corners upper left, upper right, lower right, lower left.</summary>
    public static FaceInPhotograph FromCorners(Photograph photograph, IReadOnlyList<Point2> c) =>
        new(photograph, (c[0].DistanceTo(c[1]) + c[3].DistanceTo(c[2])) / 2, (c[0].DistanceTo(c[3]) + c[1].DistanceTo(c[2])) / 2);

    /// <summary>The whole frame, for a photograph that was cropped to the face.</summary>
    public static FaceInPhotograph WholeFrame(Photograph photograph) => new(photograph, photograph.Facts.Width, photograph.Facts.Height);
}

/// <summary>Decides how large the painted face is: as measured, else from resolution tags, else assumed. Every case but the first is said.</summary>
internal static class PaintingSize
{
    /// <summary>Longer side of a face of which nobody said anything, mm: the order of size of an easel painting.</summary>
    private const double AssumedLongerSideMm = 500;

    /// <summary>Sets a painting's size.</summary>
    /// <param name="painting">The painting; what was measured before stays when nothing new is said.</param>
    /// <param name="options">What the person said.</param>
    /// <param name="faces">The face as photographs show it, the best first; empty when none shows it whole.</param>
    /// <returns>What to know about the size.</returns>
    public static IEnumerable<Warning> Decide(Painting painting, ExamineOptions options, IReadOnlyList<FaceInPhotograph> faces)
    {
        var reference = Reference(faces);
        switch (options.HeightMm, options.WidthMm)
        {
            case ({ } height, { } width):
                Set(painting, width, height, ScaleOrigin.Measured);
                break;
            case ({ } height, null) when reference is not null:
                Set(painting, height * reference.WidthPx / reference.HeightPx, height, ScaleOrigin.Measured);
                yield return OneSide("width", reference);
                break;
            case (null, { } width) when reference is not null:
                Set(painting, width, width * reference.HeightPx / reference.WidthPx, ScaleOrigin.Measured);
                yield return OneSide("height", reference);
                break;
            default:
                if (painting is { WidthMm: > 0, SizeOrigin: ScaleOrigin.Measured } || reference is null) break;
                yield return Estimate(painting, reference);
                break;
        }
    }

    /// <summary>Visible light first; among several the one with the most pixels, then the first by name.</summary>
    private static FaceInPhotograph? Reference(IReadOnlyList<FaceInPhotograph> faces) => faces
        .OrderBy(f => f.Photograph.Light == Light.Visible.Code ? 0 : 1).ThenByDescending(f => f.WidthPx * f.HeightPx).ThenBy(f => f.Photograph.FileName, StringComparer.Ordinal).FirstOrDefault();

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

    private static void Set(Painting painting, double width, double height, ScaleOrigin origin) => (painting.WidthMm, painting.HeightMm, painting.SizeOrigin) = (width, height, origin);
}
