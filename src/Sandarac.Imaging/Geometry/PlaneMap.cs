using System.Text.Json.Serialization;

namespace Sandarac.Imaging.Geometry;

/// <summary>
/// The mapping between a photograph's pixels and the plane in millimetres. Stored as JSON with a <c>model</c> discriminator, so that a new
/// model is a new derived type and no change of storage.
/// </summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "model")]
[JsonDerivedType(typeof(HomographyMap), "homography")]
[JsonDerivedType(typeof(WarpedMap), "smooth")]
public abstract record PlaneMap
{
    /// <summary>Where a pixel position lies on the plane, mm.</summary>
    public abstract Point2 ToPlane(Point2 pixel);

    /// <summary>Where a place on the plane lies in the photograph, pixels.</summary>
    public abstract Point2 ToPixel(Point2 mm);
}
