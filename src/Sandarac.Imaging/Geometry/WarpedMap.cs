using System.Text.Json.Serialization;

namespace Sandarac.Imaging.Geometry;

/// <summary>
/// A map with a smooth bending of the plane before it: a warped panel, a stretched canvas, a film drawn through a scanner. The bending is a pair of
/// uniform cubic B-splines over a rectangle of the plane (de Boor, A Practical Guide to Splines, Springer 1978); beyond the rectangle it goes on as at its edge.
/// </summary>
/// <remarks>Pixel of a place = <see cref="Base"/>'s pixel of (place + bending there). The way back is by fixed-point iteration, which converges
/// because a bending changes by far less than the distance over which it does.</remarks>
public sealed record WarpedMap : PlaneMap
{
    private readonly double[] _x, _y;

    /// <summary>Makes the map.</summary>
    /// <param name="base">The map without bending.</param>
    /// <param name="area">Rectangle of the plane, mm.</param>
    /// <param name="columns">Cells across, at least 1.</param>
    /// <param name="rows">Cells down, at least 1.</param>
    /// <param name="shiftX">Coefficients of the bending to the right, mm: row-major, (columns + 3) x (rows + 3).</param>
    /// <param name="shiftY">Downward.</param>
    /// <exception cref="ArgumentException">Another number of coefficients.</exception>
    [JsonConstructor]
    public WarpedMap(HomographyMap @base, Box area, int columns, int rows, IReadOnlyList<double> shiftX, IReadOnlyList<double> shiftY)
    {
        if (columns < 1 || rows < 1 || shiftX.Count != (columns + 3) * (rows + 3) || shiftY.Count != shiftX.Count)
            throw new ArgumentException($"A bending of {columns} x {rows} cells has {(columns + 3) * (rows + 3)} coefficients each way.", nameof(shiftX));
        (Base, Area, Columns, Rows, _x, _y) = (@base, area, columns, rows, [.. shiftX], [.. shiftY]);
    }

    /// <summary>The map without bending.</summary>
    public HomographyMap Base { get; }

    /// <summary>Rectangle of the plane, mm.</summary>
    public Box Area { get; }

    /// <summary>Cells across.</summary>
    public int Columns { get; }

    /// <summary>Cells down.</summary>
    public int Rows { get; }

    /// <summary>Coefficients of the bending to the right, mm.</summary>
    public IReadOnlyList<double> ShiftX => _x;

    /// <summary>Coefficients of the bending downward, mm.</summary>
    public IReadOnlyList<double> ShiftY => _y;

    /// <inheritdoc/>
    public override Point2 ToPixel(Point2 mm)
    {
        var bent = Bending(mm);
        return Base.ToPixel(new Point2(mm.X + bent.X, mm.Y + bent.Y));
    }

    /// <inheritdoc/>
    public override Point2 ToPlane(Point2 pixel)
    {
        var straight = Base.ToPlane(pixel);
        var at = straight;
        for (var i = 0; i < 50; i++)
        {
            var bent = Bending(at);
            Point2 next = new(straight.X - bent.X, straight.Y - bent.Y);
            if (next.DistanceTo(at) < 1e-12 * (1 + Area.Width)) return next;
            at = next;
        }
        return at;
    }

    /// <inheritdoc/>
    public override WarpedMap Scaled(double factor) => new(Base.Scaled(factor), new Box(factor * Area.Left, factor * Area.Top, factor * Area.Width, factor * Area.Height), Columns, Rows,
        [.. _x.Select(v => factor * v)], [.. _y.Select(v => factor * v)]);

    /// <summary>The bending at a place, mm.</summary>
    public Point2 Bending(Point2 mm)
    {
        Span<double> wx = stackalloc double[4], wy = stackalloc double[4];
        var (i, j) = (Weights((mm.X - Area.Left) / Area.Width * Columns, Columns, wx), Weights((mm.Y - Area.Top) / Area.Height * Rows, Rows, wy));
        var (x, y) = (0.0, 0.0);
        for (var v = 0; v < 4; v++)
        {
            var first = (j + v) * (Columns + 3) + i;
            var (rowX, rowY) = (0.0, 0.0);
            for (var u = 0; u < 4; u++)
            {
                rowX += wx[u] * _x[first + u];
                rowY += wx[u] * _y[first + u];
            }
            x += wy[v] * rowX;
            y += wy[v] * rowY;
        }
        return new Point2(x, y);
    }

    /// <summary>The four coefficients that count at a position in cells, and their weights, which sum to 1.</summary>
    /// <returns>The first coefficient's index.</returns>
    public static int Weights(double position, int cells, Span<double> weights)
    {
        var t = Math.Clamp(position, 0, cells);
        var cell = Math.Min((int)t, cells - 1);
        t -= cell;
        var s = 1 - t;
        weights[0] = s * s * s / 6;
        weights[1] = ((3 * t - 6) * t * t + 4) / 6;
        weights[2] = ((3 * s - 6) * s * s + 4) / 6;
        weights[3] = t * t * t / 6;
        return cell;
    }

    /// <inheritdoc/>
    public bool Equals(WarpedMap? other) => other is not null && Base == other.Base && Area == other.Area && Columns == other.Columns && Rows == other.Rows
        && _x.AsSpan().SequenceEqual(other._x) && _y.AsSpan().SequenceEqual(other._y);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Base, Area, Columns, Rows);
}
