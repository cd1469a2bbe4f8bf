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

    /// <summary>This map on a plane whose millimetres are so many times as long: every place lies at <paramref name="factor"/> times its coordinates.</summary>
    public abstract PlaneMap Scaled(double factor);

    /// <summary>Side of a pixel on the plane, there: the root of its area, mm.</summary>
    public double ScaleAt(Point2 pixel)
    {
        var (o, x, y) = (ToPlane(pixel), ToPlane(pixel with { X = pixel.X + 1 }), ToPlane(pixel with { Y = pixel.Y + 1 }));
        return Math.Sqrt(Math.Abs((x.X - o.X) * (y.Y - o.Y) - (x.Y - o.Y) * (y.X - o.X)));
    }

    /// <summary>The rectangle of the plane in which a photograph of so many pixels lies, mm; its sides are followed, for a lens may bulge them.</summary>
    public Box Bounds(int width, int height)
    {
        const int steps = 32;
        Point2[] outline = [.. Enumerable.Range(0, steps + 1).Select(i => (double)i / steps)
            .SelectMany(t => new Point2[] { new(t * width, 0), new(t * width, height), new(0, t * height), new(width, t * height) }).Select(ToPlane)];
        var (left, top) = (outline.Min(p => p.X), outline.Min(p => p.Y));
        return new Box(left, top, outline.Max(p => p.X) - left, outline.Max(p => p.Y) - top);
    }
}
