using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>A part and where it lies.</summary>
/// <param name="Image">The photograph.</param>
/// <param name="Map">From its pixels to the target.</param>
/// <param name="OnReference">How it lies on the reference by its patches; null when these do not tell.</param>
/// <param name="Whole">Where the whole part agrees best with the reference, when that was asked.</param>
internal sealed record MosaicPart(PairImage Image, HomographyMap Map, PairAlignment? OnReference, Placement? Whole = null)
{
    /// <summary>The rectangle of the target in which it lies.</summary>
    public Box Area => Map.Bounds(Image.File.Width, Image.File.Height);

    /// <summary>Side of its pixel on the target.</summary>
    public double Unit => Map.ScaleAt(Image.Middle);

    /// <summary>The part as something that others can be aligned to.</summary>
    public AlignmentTarget AsTarget => new(Image, Map, Area);
}
