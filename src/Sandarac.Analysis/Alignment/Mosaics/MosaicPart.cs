using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>A part and where it lies.</summary>
/// <param name="Image">The photograph.</param>
/// <param name="Map">From its pixels to the target.</param>
/// <param name="OnReference">How it lies on the reference by itself; null when it was placed by its neighbours.</param>
internal sealed record MosaicPart(PairImage Image, HomographyMap Map, PairAlignment? OnReference)
{
    /// <summary>The rectangle of the target in which it lies.</summary>
    public Box Area
    {
        get
        {
            var (w, h) = (Image.File.Width, Image.File.Height);
            Point2[] corners = [.. new Point2[] { new(0, 0), new(w, 0), new(w, h), new(0, h) }.Select(Map.ToPlane)];
            var (left, top) = (corners.Min(c => c.X), corners.Min(c => c.Y));
            return new Box(left, top, corners.Max(c => c.X) - left, corners.Max(c => c.Y) - top);
        }
    }

    /// <summary>The part as something that others can be aligned to.</summary>
    public AlignmentTarget AsTarget => new(Image, Map, Area);

    /// <summary>Area that two parts may share, target units squared.</summary>
    public double Overlap(MosaicPart other)
    {
        var (a, b) = (Area, other.Area);
        return Math.Max(0, Math.Min(a.Right, b.Right) - Math.Max(a.Left, b.Left)) * Math.Max(0, Math.Min(a.Bottom, b.Bottom) - Math.Max(a.Top, b.Top));
    }
}
