namespace Sandarac.Imaging.Geometry;

/// <summary>A point: pixels or millimetres, x right, y down; pixel (i, j) has its centre at (i + 0.5, j + 0.5).</summary>
/// <param name="X">Rightward.</param>
/// <param name="Y">Downward.</param>
public readonly record struct Point2(double X, double Y)
{
    /// <summary>Distance to another point.</summary>
    public double DistanceTo(Point2 other) => Math.Sqrt((X - other.X) * (X - other.X) + (Y - other.Y) * (Y - other.Y));
}

/// <summary>A rectangle with sides along the axes, upper left corner and size, in the unit of its context.</summary>
/// <param name="Left">Left edge.</param>
/// <param name="Top">Upper edge.</param>
/// <param name="Width">Width, not negative.</param>
/// <param name="Height">Height, not negative.</param>
public readonly record struct Box(double Left, double Top, double Width, double Height)
{
    /// <summary>Right edge.</summary>
    public double Right => Left + Width;

    /// <summary>Lower edge.</summary>
    public double Bottom => Top + Height;

    /// <summary>What two boxes share; of no width or height when they lie apart.</summary>
    public Box Shared(Box other)
    {
        var (left, top) = (Math.Max(Left, other.Left), Math.Max(Top, other.Top));
        return new Box(left, top, Math.Max(0, Math.Min(Right, other.Right) - left), Math.Max(0, Math.Min(Bottom, other.Bottom) - top));
    }

    /// <summary>Whether the point lies in the box, left and upper edge included.</summary>
    public bool Contains(Point2 p) => p.X >= Left && p.X < Right && p.Y >= Top && p.Y < Bottom;
}
