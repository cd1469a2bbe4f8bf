using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>One of two photographs that are to be aligned, read by windows.</summary>
/// <param name="Name">What a person calls it.</param>
/// <param name="File">Its pyramid.</param>
/// <param name="Colours">Bands that show the picture, from the first on; an alpha band is left out.</param>
/// <param name="Lens">The lens that took it, where it is known: where this photograph is the one that is placed, every map is seen through it. A reference's lens is in its own map.</param>
public sealed record PairImage(string Name, PyramidFile File, int Colours, CameraLens? Lens = null)
{
    /// <summary>Its middle, pixels.</summary>
    internal Point2 Middle => new(File.Width / 2.0, File.Height / 2.0);
}
