using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Studio.Jobs;

/// <summary>What an alignment leaves of its held-out patches, as a coarse raster on the plane: right and down in mm, NaN where no patch agrees.</summary>
public static class ResidualMap
{
    /// <summary>Cells across.</summary>
    private const int Columns = 32;

    /// <summary>The raster, as an aligning run names it.</summary>
    public static RasterOutput Output { get; } = new("alignment-residual", "Residual of the alignment", "mm", ["right", "down"]);

    internal static void Write(RunResults results, OpenStudio studio, IReadOnlyList<PatchResidual> patches, Box area)
    {
        var rows = Math.Max(1, (int)Math.Round(Columns * area.Height / area.Width));
        var (right, down) = (new Plane(Columns, rows), new Plane(Columns, rows));
        right.Data.AsSpan().Fill(float.NaN);
        down.Data.AsSpan().Fill(float.NaN);
        foreach (var cell in patches.Where(p => p.Agrees).GroupBy(p => (X: Cell(p.Place.X - area.Left, area.Width, Columns), Y: Cell(p.Place.Y - area.Top, area.Height, rows))))
            (right[cell.Key.X, cell.Key.Y], down[cell.Key.X, cell.Key.Y]) = ((float)cell.Average(p => p.Residual.X), (float)cell.Average(p => p.Residual.Y));
        results.Add(new RasterFile(studio.Objects.NewTemporaryPath(), Output, Columns, rows, null, area)).WriteWindow(0, 0, [right, down]);
    }

    private static int Cell(double at, double length, int cells) => Math.Clamp((int)(cells * at / length), 0, cells - 1);
}
