using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>Sizes of pixels on the target.</summary>
internal static class Units
{
    /// <summary>Size of a pixel at which the coarser of two photographs loses nothing, target units.</summary>
    public static double Finest(PlaneMap referenceMap, Box area, PlaneMap map, PairImage moving) =>
        Math.Max(PlaneGrid.MeanScale(referenceMap, area), map.ScaleAt(moving.Middle));
}
