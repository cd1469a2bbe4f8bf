using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment;

/// <summary>How straight the sides are that the corners were found from: distances of edge points from their fitted side.</summary>
/// <param name="Median">Median distance.</param>
/// <param name="P95">95th percentile.</param>
public sealed record SideResidual(double Median, double P95);

/// <summary>What is known of an alignment by four corners.</summary>
/// <param name="MmPerPixel">Millimetres per pixel at the middle of the face.</param>
/// <param name="Proportion">Horizontal over vertical mm per pixel at the middle of the face: 1 when seen square on; a tilt of 20 degrees gives 6 % more or less,
/// and a figure far from 1 means that the stated height and width do not fit the photograph.</param>
/// <param name="ResidualMm">The sides' residual in mm; null for corners set by hand.</param>
/// <param name="Note">What the residual does not say.</param>
public sealed record FaceFit(double MmPerPixel, double Proportion, SideResidual? ResidualMm, string Note);

/// <summary>Puts a photograph on the plane by the painted face's four corners.</summary>
public static class FaceAlignment
{
    /// <summary>The map that takes the corners to a rectangle of the painting's size.</summary>
    /// <param name="corners">Upper left, upper right, lower right, lower left, as seen in the photograph, pixels.</param>
    /// <param name="lens">The lens through which they are seen.</param>
    /// <param name="heightMm">Height of the painted face, mm.</param>
    /// <param name="widthMm">Width of the painted face, mm.</param>
    /// <param name="residualPx">Residual of the sides in pixels, when the corners were found and not set by hand.</param>
    /// <exception cref="ArgumentException">Not four corners, or corners that are not those of a convex quadrilateral in this order.</exception>
    public static (HomographyMap Map, FaceFit Fit) FromCorners(IReadOnlyList<Point2> corners, CameraLens lens, double heightMm, double widthMm, SideResidual? residualPx = null)
    {
        if (corners.Count != 4 || !IsConvexClockwise(corners))
            throw new ArgumentException("The four corners go clockwise from the upper left and form a convex shape.", nameof(corners));
        Point2[] ideal = [.. corners.Select(lens.Alone.ToPlane)];
        Point2[] face = [new(0, 0), new(widthMm, 0), new(widthMm, heightMm), new(0, heightMm)];
        var map = lens.Under(Homography.Fit(ideal, face).Coefficients);
        var (x, y, area) = PixelSize(map, widthMm, heightMm);
        var mm = Math.Sqrt(area);
        return (map, new FaceFit(mm, x / y, residualPx is null ? null : new SideResidual(residualPx.Median * mm, residualPx.P95 * mm),
            "Four corners fix the map exactly; no held-out points check it. How straight the sides come out is the only test."));
    }

    /// <summary>Size of a pixel at the middle of the face: along a row and along a column (mm), and its area (mm2).</summary>
    private static (double X, double Y, double Area) PixelSize(HomographyMap map, double widthMm, double heightMm)
    {
        var p = map.ToPixel(new Point2(widthMm / 2, heightMm / 2));
        var (a, b, c) = (map.ToPlane(p), map.ToPlane(new Point2(p.X + 1, p.Y)), map.ToPlane(new Point2(p.X, p.Y + 1)));
        return (a.DistanceTo(b), a.DistanceTo(c), Math.Abs((b.X - a.X) * (c.Y - a.Y) - (b.Y - a.Y) * (c.X - a.X)));
    }

    private static bool IsConvexClockwise(IReadOnlyList<Point2> c) => Enumerable.Range(0, 4).All(i =>
    {
        var (p, q, r) = (c[i], c[(i + 1) % 4], c[(i + 2) % 4]);
        return (q.X - p.X) * (r.Y - q.Y) - (q.Y - p.Y) * (r.X - q.X) > 0;
    });
}
