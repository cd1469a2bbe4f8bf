using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment;

/// <summary>A line n . p = offset with unit normal.</summary>
internal readonly record struct IdealLine(double NormalX, double NormalY, double Offset)
{
    /// <summary>Signed distance of a point.</summary>
    public double Distance(Point2 p) => NormalX * p.X + NormalY * p.Y - Offset;

    /// <summary>Weighted total least squares.</summary>
    public static IdealLine Fit(Point2[] points, double[] weights)
    {
        var (w, x, y) = (0.0, 0.0, 0.0);
        for (var i = 0; i < points.Length; i++) (w, x, y) = (w + weights[i], x + weights[i] * points[i].X, y + weights[i] * points[i].Y);
        (x, y) = (x / w, y / w);
        var (xx, xy, yy) = (0.0, 0.0, 0.0);
        for (var i = 0; i < points.Length; i++)
        {
            var (dx, dy) = (points[i].X - x, points[i].Y - y);
            (xx, xy, yy) = (xx + weights[i] * dx * dx, xy + weights[i] * dx * dy, yy + weights[i] * dy * dy);
        }
        // Direction of greatest spread; the normal is at right angles to it.
        var angle = 0.5 * Math.Atan2(2 * xy, xx - yy);
        var (nx, ny) = (-Math.Sin(angle), Math.Cos(angle));
        return new IdealLine(nx, ny, nx * x + ny * y);
    }

    /// <summary>Weighted sum of squared distances from the line that <see cref="Fit"/> would give, the lens undone: the smaller eigenvalue of the scatter.</summary>
    public static double Residual(IReadOnlyList<Point2> observed, HomographyMap lens, double[] weights)
    {
        var origin = observed.Count > 0 ? lens.ToPlane(observed[0]) : default;
        var (w, x, y, xx, xy, yy) = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < observed.Count; i++)
        {
            if (weights[i] == 0) continue;
            var p = lens.ToPlane(observed[i]);
            var (dx, dy, v) = (p.X - origin.X, p.Y - origin.Y, weights[i]);
            (w, x, y, xx, xy, yy) = (w + v, x + v * dx, y + v * dy, xx + v * dx * dx, xy + v * dx * dy, yy + v * dy * dy);
        }
        if (w == 0) return 0;
        (xx, xy, yy) = (xx - x * x / w, xy - x * y / w, yy - y * y / w);
        // (a + b - root) / 2 loses digits when one is much larger: the product of the eigenvalues over the larger one does not.
        var larger = (xx + yy + Math.Sqrt((xx - yy) * (xx - yy) + 4 * xy * xy)) / 2;
        return larger == 0 ? 0 : (xx * yy - xy * xy) / larger;
    }

    /// <summary>Where two lines cross.</summary>
    public Point2 Cross(IdealLine other)
    {
        var det = NormalX * other.NormalY - NormalY * other.NormalX;
        return new Point2((Offset * other.NormalY - other.Offset * NormalY) / det, (NormalX * other.Offset - other.NormalX * Offset) / det);
    }
}

/// <summary>The four sides as straight lines in ideal pixels, and the lens.</summary>
/// <param name="Camera">Observed pixels to ideal pixels (its "plane").</param>
/// <param name="Lines">Lines in the order of <see cref="Side"/>.</param>
internal sealed record FaceLines(HomographyMap Camera, IdealLine[] Lines)
{
    /// <summary>A lens with the image's centre and half its diagonal as centre and radius.</summary>
    public static HomographyMap Lens(int width, int height, double k1) =>
        new([1, 0, 0, 0, 1, 0, 0, 0, 1], new Point2(width / 2.0, height / 2.0), Math.Sqrt((double)width * width + (double)height * height) / 2, k1);

    /// <summary>Upper left, upper right, lower right, lower left, in observed pixels.</summary>
    public Point2[] Corners() => [Corner(Side.Left, Side.Top), Corner(Side.Top, Side.Right), Corner(Side.Right, Side.Bottom), Corner(Side.Bottom, Side.Left)];

    /// <summary>Signed distances of observed points from a side, ideal pixels.</summary>
    public double[] Distances(Side side, IEnumerable<Point2> points) => [.. points.Select(p => Lines[(int)side].Distance(Camera.ToPlane(p)))];

    /// <summary>Expected depth of a side at a place along it, observed pixels.</summary>
    public double DepthAt(SideFrame frame, double along)
    {
        // Secant steps onto the line; the lens bends it so little that this converges at once.
        var depth = frame.Depth / 2.0;
        for (var i = 0; i < 4; i++)
        {
            var p = frame.Point(along, depth);
            var (here, further) = (Lines[(int)frame.Side].Distance(Camera.ToPlane(p)), Lines[(int)frame.Side].Distance(Camera.ToPlane(frame.Point(along, depth + 1))));
            depth -= here / (further - here);
        }
        return depth;
    }

    private Point2 Corner(Side a, Side b) => Camera.ToPixel(Lines[(int)a].Cross(Lines[(int)b]));
}
