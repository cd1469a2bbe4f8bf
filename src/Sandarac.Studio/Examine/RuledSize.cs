using System.Globalization;
using Sandarac.Analysis.Alignment.Rulers;
using Sandarac.Imaging;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

/// <summary>The painted face's size by a ruler in another photograph of the same camera position.</summary>
/// <param name="Face">The size.</param>
/// <param name="RulerIn">The photograph of the ruler.</param>
/// <param name="FaceIn">The photograph of the face.</param>
internal sealed record RuledSize(RuledFace Face, Photograph RulerIn, Photograph FaceIn)
{
    public const string ContradictsCode = "size-contradicts-ruler";

    /// <summary>The size; null without a ruler in a frame as large as that of a photograph whose corners are known: frames of one size are taken as of one camera position.</summary>
    /// <param name="faces">The face as photographs show it, the best first.</param>
    /// <param name="rulers">Rulers; of several the surest counts.</param>
    public static RuledSize? Of(IReadOnlyList<FaceInPhotograph> faces, IReadOnlyList<RulerInPhotograph> rulers) =>
        rulers.SelectMany(r => faces.Where(f => f.Corners.Count == 4 && Frame(f.Photograph) == Frame(r.Photograph)).Take(1).Select(f => Of(f, r)))
            .OrderBy(s => s.Face.Uncertainty).ThenBy(s => s.RulerIn.FileName, StringComparer.Ordinal).FirstOrDefault();

    /// <summary>What whoever uses this size must know.</summary>
    public Warning Told => new("size-from-ruler", string.Create(CultureInfo.InvariantCulture,
        $"No size was given: {Size} follow from the ruler in {RulerIn.FileName} and the corners in {FaceIn.FileName}, taken as of one camera position. The ruler is taken to lie in the plane of the painted face: one per cent of the camera's distance nearer or farther changes the size by one per cent."));

    /// <summary>A warning when a painting's size differs from this one by more than both can be wrong.</summary>
    /// <param name="painting">The painting with its size.</param>
    /// <param name="statedToMm">How far a stated side may be rounded, mm.</param>
    public Warning? Contradicts(Painting painting, double statedToMm)
    {
        bool Differs(double stated, double ruled) => Math.Abs(stated - ruled) > Face.Uncertainty * ruled + statedToMm;
        return !Differs(painting.WidthMm, Face.WidthMm) && !Differs(painting.HeightMm, Face.HeightMm) ? null : new Warning(ContradictsCode, string.Create(CultureInfo.InvariantCulture,
            $"The size {painting.HeightMm:0.#} x {painting.WidthMm:0.#} mm is used, but the ruler in {RulerIn.FileName} gives {Size} for the corners in {FaceIn.FileName}. Measure again; or the ruler lay nearer or farther than the painted face, or the camera was moved between the two."));
    }

    private string Size => string.Create(CultureInfo.InvariantCulture, $"{Face.HeightMm:0.0} x {Face.WidthMm:0.0} mm (give or take {100 * Face.Uncertainty:0.00} %)");

    private static RuledSize Of(FaceInPhotograph face, RulerInPhotograph ruler) => new(
        RuledFace.Of(face.Corners, face.CornerPixels, face.Lens, face.Photograph.Facts.Width, face.Photograph.Facts.Height, ruler.Scale), ruler.Photograph, face.Photograph);

    private static (int, int) Frame(Photograph photograph) => (photograph.Facts.Width, photograph.Facts.Height);
}
