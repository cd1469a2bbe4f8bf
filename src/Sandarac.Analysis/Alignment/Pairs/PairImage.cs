using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>One of two photographs that are to be aligned, read by windows.</summary>
/// <param name="Name">What a person calls it.</param>
/// <param name="File">Its pyramid.</param>
/// <param name="Colours">Bands that show the picture, from the first on; an alpha band is left out.</param>
public sealed record PairImage(string Name, PyramidFile File, int Colours)
{
    /// <summary>Its middle, pixels.</summary>
    internal Point2 Middle => new(File.Width / 2.0, File.Height / 2.0);
}
