using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Lenses;

/// <summary>A camera's radial distortion, as <see cref="HomographyMap"/> has it.</summary>
/// <param name="Centre">Centre of distortion, pixels.</param>
/// <param name="Radius">Pixel distance at which r = 1.</param>
/// <param name="K1">First radial coefficient.</param>
/// <param name="K2">Second radial coefficient.</param>
public sealed record CameraLens(Point2 Centre, double Radius, double K1, double K2)
{
    /// <summary>A lens of one term about the frame's middle, with half the frame's diagonal as radius.</summary>
    public static CameraLens AboutMiddle(double k1, int width, int height) => new(new Point2(width / 2.0, height / 2.0), HalfDiagonal(width, height), k1, 0);

    /// <summary>Half the diagonal of a frame, pixels.</summary>
    public static double HalfDiagonal(int width, int height) => Math.Sqrt((double)width * width + (double)height * height) / 2;

    /// <summary>A map seen through this lens.</summary>
    /// <param name="pixelToPlane">Nine row-major coefficients from ideal pixels to the plane.</param>
    public HomographyMap Under(IReadOnlyList<double> pixelToPlane) => new(pixelToPlane, Centre, Radius, K1, K2);

    /// <summary>Where the pixels lie once the lens is undone.</summary>
    internal HomographyMap Alone => Under([1, 0, 0, 0, 1, 0, 0, 0, 1]);
}
