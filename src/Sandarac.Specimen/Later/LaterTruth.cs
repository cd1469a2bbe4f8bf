using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Later;

/// <summary>Writes what really changed: <c>changes.json</c> and <c>changes.tif</c>.</summary>
internal static class LaterTruth
{
    public static void Write(IReadOnlyList<DamageDone> done, byte[] numbers, PlaneGrid grid, string folder)
    {
        using (var file = new TiffFile(Path.Combine(folder, "changes.tif"), new TiffLayout(grid.Width, grid.Height, 1, 1, false, 25.4 / grid.MmPerPixel)))
        {
            file.WriteRows<byte>(0, numbers);
            file.Commit();
        }
        WholeFile.WriteJson(Path.Combine(folder, "changes.json"), new
        {
            about = "changes.tif holds, on the plane's grid, the number of the change that fills at least a third of the pixel; difference is the mean CIELAB distance (1976) of the paint's reflectance in the change's core",
            mmPerPixel = grid.MmPerPixel,
            changes = done.Select(d => new
            {
                number = d.Damage.Number, kind = d.Damage.Kind.ToString().ToLowerInvariant(), widthMm = Math.Round(d.Damage.WidthMm, 2),
                fromMm = new[] { Math.Round(d.Damage.From.X, 2), Math.Round(d.Damage.From.Y, 2) }, toMm = new[] { Math.Round(d.Damage.To.X, 2), Math.Round(d.Damage.To.Y, 2) },
                areaMm2 = Math.Round(d.AreaMm2, 3), difference = Math.Round(d.Difference, 2),
            }),
        });
    }
}
