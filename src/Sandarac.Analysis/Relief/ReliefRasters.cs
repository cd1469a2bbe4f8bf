using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>The rasters of the surface that are written tile by tile.</summary>
internal sealed class ReliefRasters
{
    private readonly IRasterWriter _normals, _albedo, _confidence, _slope;

    public ReliefRasters(RakingSet set, RunContext context)
    {
        var facts = set.Images[0].Image.Facts;
        IRasterWriter Raster(string name) => context.CreateRaster(name, facts.Width, facts.Height, set.Images[0].Scale);
        (_normals, _albedo, _confidence, _slope) = (Raster("normals"), Raster("albedo"), Raster("confidence"), Raster("slope"));
    }

    /// <summary>Writes a tile.</summary>
    public void Write(Tile tile, SurfaceNormals surface)
    {
        Write(_normals, tile, surface.X, surface.Y);
        Write(_albedo, tile, surface.Albedo);
        Write(_confidence, tile, surface.Confidence);
        Write(_slope, tile, Degrees(surface));
    }

    private static void Write(IRasterWriter writer, Tile tile, params Plane[] bands)
    {
        lock (writer) writer.WriteWindow(tile.Left, tile.Top, bands);
    }

    private static Plane Degrees(SurfaceNormals surface)
    {
        var (right, down) = surface.Slopes();
        var result = new Plane(right.Width, right.Height);
        for (var i = 0; i < result.Data.Length; i++) result.Data[i] = (float)(180 / Math.PI) * MathF.Atan(MathF.Sqrt(right.Data[i] * right.Data[i] + down.Data[i] * down.Data[i]));
        return result;
    }
}
