using Sandarac.Imaging.Geometry;

namespace Sandarac.Studio.Places;

/// <summary>A band along a line, across which a map is averaged.</summary>
/// <param name="Line">Corners, mm on the plane; at least two.</param>
/// <param name="BreadthMm">Its breadth; 0 for the line itself.</param>
internal sealed record BandAlongLine(IReadOnlyList<Point2> Line, double BreadthMm)
{
    /// <summary>The line's length, mm.</summary>
    public double Length { get; } = Line.Zip(Line.Skip(1), (a, b) => a.DistanceTo(b)).Sum();

    /// <summary>Means across the band at even steps of length, both ends among them; null where less than half of the band has data.</summary>
    /// <param name="raster">The map.</param>
    /// <param name="origin">Its upper left corner, mm.</param>
    /// <param name="mm">Size of its pixels.</param>
    /// <param name="steps">Steps along the line.</param>
    /// <param name="across">Places across the band, evenly spread.</param>
    /// <param name="cancellation">Cancels.</param>
    public double?[] Read(RasterBetween raster, Point2 origin, double mm, int steps, int across, CancellationToken cancellation)
    {
        var values = new double?[steps + 1];
        var (segment, before) = (0, 0.0);
        for (var k = 0; k <= steps; k++)
        {
            cancellation.ThrowIfCancellationRequested();
            var s = Length * k / steps;
            for (; segment < Line.Count - 2 && s > before + LengthOf(segment); segment++) before += LengthOf(segment);
            var (a, b, length) = (Line[segment], Line[segment + 1], LengthOf(segment));
            var (right, down) = length > 0 ? ((b.X - a.X) / length, (b.Y - a.Y) / length) : (0, 0);
            var (t, sum, there) = (Math.Min(s - before, length), 0.0, 0);
            for (var i = 0; i < across; i++)
            {
                var off = BreadthMm * ((i + 0.5) / across - 0.5);
                var value = raster.At((a.X + t * right - off * down - origin.X) / mm, (a.Y + t * down + off * right - origin.Y) / mm);
                if (double.IsFinite(value)) (sum, there) = (sum + value, there + 1);
            }
            values[k] = 2 * there < across ? null : sum / there;
        }
        return values;
    }

    private double LengthOf(int segment) => Line[segment].DistanceTo(Line[segment + 1]);
}
