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
    public Box Area => Map.Bounds(Image.File.Width, Image.File.Height);

    /// <summary>Side of its pixel on the target.</summary>
    public double Unit => Map.ScaleAt(Image.Middle);

    /// <summary>The part as something that others can be aligned to.</summary>
    public AlignmentTarget AsTarget => new(Image, Map, Area);
}
