namespace Sandarac.Imaging.Fourier;

/// <summary>Which direction of a transform carries the factor 1/N, N being width x height. The sign convention is always the engineers':
/// forward exp(-2 pi i (u x / width + v y / height)).</summary>
public enum FourierScaling
{
    /// <summary>Forward is the plain sum, so that value (0, 0) is the sum of the plane; the inverse divides by N. SciPy's
    /// "backward".</summary>
    InverseByCount,

    /// <summary>Both directions divide by the square root of N, so that the sum of squares is the same on both sides. SciPy's
    /// "ortho".</summary>
    Symmetric,
}
