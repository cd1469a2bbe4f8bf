using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment;

/// <summary>The four sides of the painted face, in the order of the corners that begin them: upper left, upper right, lower right, lower left.</summary>
internal enum Side
{
    /// <summary>From upper left to upper right.</summary>
    Top,

    /// <summary>From upper right to lower right.</summary>
    Right,

    /// <summary>From lower right to lower left.</summary>
    Bottom,

    /// <summary>From lower left to upper left.</summary>
    Left,
}

/// <summary>Looks at an image from one of its sides: <c>along</c> runs along the side, <c>depth</c> inward from it, so that each step is written once for all four.</summary>
internal readonly record struct SideFrame(Side Side, int Width, int Height)
{
    /// <summary>Whether depth runs along rows.</summary>
    public bool IsUpright => Side is Side.Left or Side.Right;

    /// <summary>Pixels along the side.</summary>
    public int Along => IsUpright ? Height : Width;

    /// <summary>Pixels inward.</summary>
    public int Depth => IsUpright ? Width : Height;

    /// <summary>The pixel at a place.</summary>
    public (int X, int Y) Pixel(int along, int depth) => Side switch
    {
        Side.Left => (depth, along),
        Side.Right => (Width - 1 - depth, along),
        Side.Top => (along, depth),
        _ => (along, Height - 1 - depth),
    };

    /// <summary>The point at a place; pixel centres at + 0.5 in both directions.</summary>
    public Point2 Point(double along, double depth) => Side switch
    {
        Side.Left => new(depth, along),
        Side.Right => new(Width - depth, along),
        Side.Top => new(along, depth),
        _ => new(along, Height - depth),
    };

    /// <summary>The depth of a point.</summary>
    public double DepthOf(Point2 p) => Side switch { Side.Left => p.X, Side.Right => Width - p.X, Side.Top => p.Y, _ => Height - p.Y };
}
