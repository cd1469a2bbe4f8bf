using System.Runtime.CompilerServices;
using Sandarac.Specimen.Layers;

namespace Sandarac.Specimen.Lighting;

/// <summary>A lamp far away.</summary>
/// <param name="AzimuthDegrees">Clockwise seen from the front, 0 from the top edge.</param>
/// <param name="ElevationDegrees">Above the plane.</param>
internal sealed record Lamp(double AzimuthDegrees, double ElevationDegrees)
{
    /// <summary>Unit vector towards the lamp: x right, y down, z towards the viewer.</summary>
    public (float X, float Y, float Z) Direction { get; } = (
        (float)(Math.Sin(AzimuthDegrees * Math.PI / 180) * Math.Cos(ElevationDegrees * Math.PI / 180)),
        (float)(-Math.Cos(AzimuthDegrees * Math.PI / 180) * Math.Cos(ElevationDegrees * Math.PI / 180)),
        (float)Math.Sin(ElevationDegrees * Math.PI / 180));
}

/// <summary>
/// What a lamp does to a surface of known height: Lambert's cosine law for the paint, Blinn-Phong gloss for the varnish (J. F. Blinn,
/// Models of Light Reflection for
/// Computer Synthesized Pictures, SIGGRAPH 1977), and cast shadows found by walking towards the lamp over the height map.
/// </summary>
internal sealed class Relief(PlaneGrid grid, float[] heightUm, Lamp lamp)
{
    private const float Gloss = 38, GlossStrength = 0.55f;

    /// <summary>Half the lamp's angular width, radians: it softens the shadows' edges.</summary>
    private const float Penumbra = 0.012f;

    /// <summary>No wall in the painting is taken to be higher than this, so no shadow is sought further than its length.</summary>
    private const float HighestUm = 450;

    private readonly float _perMm = 0.001f / (2 * grid.MmPerPixel);

    /// <summary>Light on the paint relative to a flat place, and light mirrored by the varnish; shadow included in both.</summary>
    public (float Diffuse, float Mirrored) At(int x, int y)
    {
        var (gx, gy) = Slope(x, y);
        var length = MathF.Sqrt(1 + gx * gx + gy * gy);
        var (lx, ly, lz) = lamp.Direction;
        var cosine = (-gx * lx - gy * ly + lz) / length;
        if (cosine <= 0) return (0, 0);
        var lit = Lit(x, y);
        var half = MathF.Sqrt(lx * lx + ly * ly + (lz + 1) * (lz + 1));
        var mirror = (-gx * lx - gy * ly + lz + 1) / (half * length);
        return (lit * cosine / lz, mirror < 0.75f ? 0 : lit * GlossStrength * MathF.Pow(mirror, Gloss));
    }

    /// <summary>Slope of the surface, um per um, by central differences.</summary>
    private (float X, float Y) Slope(int x, int y)
    {
        var (l, r, t, b) = (Math.Max(x - 1, 0), Math.Min(x + 1, grid.Width - 1), Math.Max(y - 1, 0), Math.Min(y + 1, grid.Height - 1));
        var row = y * grid.Width;
        return ((heightUm[row + r] - heightUm[row + l]) * _perMm, (heightUm[b * grid.Width + x] - heightUm[t * grid.Width + x]) * _perMm);
    }

    /// <summary>Share of the lamp that is not hidden by higher places towards it, 0 to 1.</summary>
    public float Lit(int x, int y)
    {
        var (lx, ly, lz) = lamp.Direction;
        var flat = MathF.Sqrt(lx * lx + ly * ly);
        if (flat < 1e-6f) return 1;
        var major = MathF.Max(MathF.Abs(lx), MathF.Abs(ly));
        var (stepX, stepY) = (lx / major, ly / major);
        var stepMm = grid.MmPerPixel * flat / major;
        var rise = 1000 * stepMm * lz / flat;
        var start = heightUm[y * grid.Width + x];
        var steps = (int)(HighestUm / rise) + 1;
        var hidden = 0f;
        for (var n = 1; n <= steps; n++)
        {
            var over = HeightAt(x + n * stepX, y + n * stepY) - start - n * rise;
            // The lamp's disc spans a height of 2 x penumbra x distance where the ray passes the obstacle.
            if (over > -1000 * n * stepMm * Penumbra) hidden = MathF.Max(hidden, 0.5f + over / (2000 * n * stepMm * Penumbra));
            if (hidden >= 1) return 0;
        }
        return 1 - hidden;
    }

    /// <summary>Height between grid points; one of the coordinates is whole by the way steps are chosen.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private float HeightAt(float x, float y)
    {
        if (x < 0 || y < 0 || x >= grid.Width - 1 || y >= grid.Height - 1) return float.NegativeInfinity;
        var (ix, iy) = ((int)x, (int)y);
        var i = iy * grid.Width + ix;
        return heightUm[i] + (x - ix) * (heightUm[i + 1] - heightUm[i]) + (y - iy) * (heightUm[i + grid.Width] - heightUm[i]);
    }
}
