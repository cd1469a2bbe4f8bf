using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>The line along which rings are measured, from the oldest ring outward; pixels of the photograph.</summary>
internal sealed record RingLine(Point2 From, Point2 To)
{
    /// <summary>Its length, pixels.</summary>
    public double Length { get; } = From.DistanceTo(To);

    /// <summary>The place so far along the line and so far to its right.</summary>
    public Point2 At(double along, double across)
    {
        var (x, y) = ((To.X - From.X) / Length, (To.Y - From.Y) / Length);
        return new Point2(From.X + along * x - across * y, From.Y + along * y + across * x);
    }
}
