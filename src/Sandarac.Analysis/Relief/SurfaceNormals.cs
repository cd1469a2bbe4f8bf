using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>What photographs under several lamps say of a surface. NaN where too few lamps reach a place.</summary>
/// <param name="X">The unit normal's part to the right.</param>
/// <param name="Y">Its part down.</param>
/// <param name="Albedo">Share of light that comes back, relative to the board's, or to full scale without one.</param>
/// <param name="Confidence">0 to 1: share of the light that the fit explains, times (usable lamps - 2) / (lamps - 2).</param>
public sealed record SurfaceNormals(Plane X, Plane Y, Plane Albedo, Plane Confidence)
{
    /// <summary>An empty surface.</summary>
    public static SurfaceNormals Empty(int width, int height) => new(new(width, height), new(width, height), new(width, height), new(width, height));

    /// <summary>Slope of the height to the right and down, um per um: -n_x / n_z and -n_y / n_z.</summary>
    public (Plane Right, Plane Down) Slopes()
    {
        var (right, down) = (new Plane(X.Width, X.Height), new Plane(X.Width, X.Height));
        for (var i = 0; i < X.Data.Length; i++)
        {
            var z = MathF.Sqrt(MathF.Max(LeastZ * LeastZ, 1 - X.Data[i] * X.Data[i] - Y.Data[i] * Y.Data[i]));
            (right.Data[i], down.Data[i]) = (-X.Data[i] / z, -Y.Data[i] / z);
        }
        return (right, down);
    }

    /// <summary>A wall of more than 87 degrees is no slope of a height map.</summary>
    private const float LeastZ = 0.05f;
}
