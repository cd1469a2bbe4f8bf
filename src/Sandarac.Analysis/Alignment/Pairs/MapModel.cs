namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>What may differ between two photographs.</summary>
public enum MapModel
{
    /// <summary>Place, turn and size (4 numbers).</summary>
    Similarity,

    /// <summary>Also proportion and shear (6).</summary>
    Affine,

    /// <summary>Also perspective (8).</summary>
    Homography,

    /// <summary>Also the lens's radial distortion and its centre (12).</summary>
    HomographyWithLens,

    /// <summary>Also a smooth bending of the plane.</summary>
    Smooth,
}
