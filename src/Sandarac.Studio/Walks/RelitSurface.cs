using Sandarac.Imaging;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Studio.Walking;

/// <summary>The measured surface under a lamp as a picture: what the Easel's Relight shows as shade, for places where no program shades it.</summary>
internal static class RelitSurface
{
    /// <summary>How many times slopes are exaggerated: as Relight does before anyone changes it.</summary>
    public const double Times = 4;

    /// <summary>Gamma of the screen, near enough: the shade is for looking, not a measurement.</summary>
    private const double Gamma = 2.2;

    /// <summary>Writes the picture: one band, 0 black to 1 white, NaN where the surface is not known. Lambert's shade of the exaggerated normal, exposed so that a level place is middle grey.</summary>
    /// <param name="normals">The surface's unit normals: x right and y down.</param>
    /// <param name="lamp">Where the lamp stands, above the plane.</param>
    /// <param name="target">Path of the file to make.</param>
    /// <param name="cancellation">Cancels; nothing is left behind.</param>
    public static void Write(PyramidFile normals, StepLamp lamp, string target, CancellationToken cancellation)
    {
        using var writer = new FloatRasterWriter(target, normals.Width, normals.Height, 1);
        var level = normals.Levels[0];
        Parallel.For(0, level.TileColumns * level.TileRows, new ParallelOptions { CancellationToken = cancellation }, tile =>
        {
            var (left, top) = (tile % level.TileColumns * PyramidFile.TileSize, tile / level.TileColumns * PyramidFile.TileSize);
            var (width, height) = (Math.Min(PyramidFile.TileSize, level.Width - left), Math.Min(PyramidFile.TileSize, level.Height - top));
            writer.WriteWindow(left, top, [Shade(normals.ReadWindow(0, left, top, width, height), lamp)]);
        });
        writer.Complete(cancellation);
    }

    /// <summary>Shade of one window.</summary>
    internal static Plane Shade(Plane[] normals, StepLamp lamp)
    {
        var (azimuth, elevation) = (double.DegreesToRadians(lamp.AzimuthDeg), double.DegreesToRadians(lamp.ElevationDeg));
        var (lx, ly, lz) = (Math.Sin(azimuth) * Math.Cos(elevation), -Math.Cos(azimuth) * Math.Cos(elevation), Math.Sin(elevation));
        var level = Math.Pow(0.5, Gamma);
        var shade = new Plane(normals[0].Width, normals[0].Height);
        for (var i = 0; i < shade.Data.Length; i++)
        {
            double x = normals[0].Data[i], y = normals[1].Data[i];
            var z = Math.Sqrt(Math.Max(0, 1 - x * x - y * y));
            var towards = (Times * (x * lx + y * ly) + z * lz) / Math.Sqrt(Times * Times * (x * x + y * y) + z * z);
            shade.Data[i] = (float)Math.Pow(Math.Clamp(level * towards / lz, 0, 1), 1 / Gamma);
        }
        return shade;
    }
}
