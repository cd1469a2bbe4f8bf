using System.Text.Json.Serialization;

namespace Sandarac.Imaging.Geometry;

/// <summary>A flat painting seen by a camera: a homography from ideal pixels to millimetres, after the lens's radial distortion is undone.</summary>
/// <remarks>
/// Radial model (Brown, Photogrammetric Engineering 37 (1971) 855, first two terms): with r the distance of an ideal pixel to
/// <see cref="Centre"/> divided by <see cref="Radius"/>, the observed pixel lies at Centre + (ideal - Centre)(1 + k1 r^2 + k2 r^4). Where that never reaches an observed pixel (a barrel that
/// folds back before the corners), there is no ideal one, and what is returned for it is no place.
/// </remarks>
public sealed record HomographyMap : PlaneMap
{
    private readonly Homography _toPlane;
    private readonly Homography _toPixel;

    /// <summary>Makes the map.</summary>
    /// <param name="pixelToPlane">Nine row-major coefficients from ideal pixels to mm.</param>
    /// <param name="centre">Centre of distortion, pixels.</param>
    /// <param name="radius">Pixel distance at which r = 1 (half the image's diagonal by custom); greater than 0.</param>
    /// <param name="k1">First radial coefficient.</param>
    /// <param name="k2">Second radial coefficient.</param>
    [JsonConstructor]
    public HomographyMap(IReadOnlyList<double> pixelToPlane, Point2 centre = default, double radius = 1, double k1 = 0, double k2 = 0)
    {
        PixelToPlane = pixelToPlane;
        Centre = centre;
        Radius = radius;
        K1 = k1;
        K2 = k2;
        _toPlane = new Homography(pixelToPlane);
        _toPixel = _toPlane.Inverse();
    }

    /// <summary>Nine row-major coefficients from ideal pixels to mm.</summary>
    public IReadOnlyList<double> PixelToPlane { get; }

    /// <summary>Centre of distortion, pixels.</summary>
    public Point2 Centre { get; }

    /// <summary>Pixel distance at which r = 1.</summary>
    public double Radius { get; }

    /// <summary>First radial coefficient.</summary>
    public double K1 { get; }

    /// <summary>Second radial coefficient.</summary>
    public double K2 { get; }

    /// <inheritdoc/>
    public override Point2 ToPlane(Point2 pixel) => _toPlane.Apply(Undistort(pixel));

    /// <inheritdoc/>
    public override Point2 ToPixel(Point2 mm) => Distort(_toPixel.Apply(mm));

    /// <inheritdoc/>
    public override HomographyMap Scaled(double factor) => Then(new Homography([factor, 0, 0, 0, factor, 0, 0, 0, 1]));

    /// <summary>This map followed by a transformation of the plane.</summary>
    public HomographyMap Then(Homography onPlane) => new(onPlane.After(_toPlane).Coefficients, Centre, Radius, K1, K2);

    private Point2 Distort(Point2 p)
    {
        var (dx, dy) = ((p.X - Centre.X) / Radius, (p.Y - Centre.Y) / Radius);
        var r2 = dx * dx + dy * dy;
        var f = 1 + r2 * (K1 + r2 * K2);
        return new Point2(Centre.X + (p.X - Centre.X) * f, Centre.Y + (p.Y - Centre.Y) * f);
    }

    /// <summary>Newton's method on the observed radius; converges in a few steps for the distortions of real lenses.</summary>
    private Point2 Undistort(Point2 p)
    {
        if (K1 == 0 && K2 == 0) return p;
        var observed = p.DistanceTo(Centre) / Radius;
        var r = observed;
        for (var i = 0; i < 20 && observed > 0; i++)
        {
            var r2 = r * r;
            var step = (r * (1 + r2 * (K1 + r2 * K2)) - observed) / (1 + r2 * (3 * K1 + r2 * 5 * K2));
            r -= step;
            if (Math.Abs(step) < 1e-14) break;
        }
        var f = observed > 0 ? r / observed : 1;
        return new Point2(Centre.X + (p.X - Centre.X) * f, Centre.Y + (p.Y - Centre.Y) * f);
    }
}
