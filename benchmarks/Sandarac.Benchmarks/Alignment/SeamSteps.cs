using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>How far neighbouring tiles of a mosaic differ in exposure, beside the photograph of which they are parts.</summary>
internal static class SeamSteps
{
    /// <summary>The middle of a tile in which no neighbour shows.</summary>
    private const double Middle = 0.5;

    private const int Samples = 12;

    /// <summary>Steps between neighbours as they were taken, of the value there.</summary>
    public static IReadOnlyList<double> AsTaken(IReadOnlyList<InfraredTile> tiles, PyramidFile whole) =>
        Between(tiles, [.. tiles.Select(t => (t.Factor, t.Offset))], whole);

    /// <summary>Steps between neighbours in a mosaic.</summary>
    /// <param name="tiles">The tiles.</param>
    /// <param name="whole">The photograph of which they are parts.</param>
    /// <param name="mosaic">The mosaic.</param>
    /// <param name="toMosaic">From each tile's pixels to the mosaic's; null for one that was left out.</param>
    public static IReadOnlyList<double> In(IReadOnlyList<InfraredTile> tiles, PyramidFile whole, PyramidFile mosaic, IReadOnlyList<HomographyMap?> toMosaic) =>
        Between(tiles, [.. tiles.Select((t, i) => toMosaic[i] is { } map ? Exposure(t, map, whole, mosaic) : (double.NaN, double.NaN))], whole);

    /// <summary>Factor and offset from the whole's values to the mosaic's in the middle of a tile.</summary>
    private static (double Factor, double Offset) Exposure(InfraredTile tile, HomographyMap toMosaic, PyramidFile whole, PyramidFile mosaic)
    {
        var (inWhole, inMosaic) = (Values(whole, tile.ToWhole.ToPlane, InfraredTile.SizeIn(whole)), Values(mosaic, toMosaic.ToPlane, InfraredTile.SizeIn(whole)));
        var both = inWhole.Zip(inMosaic).Where(v => double.IsFinite(v.First) && double.IsFinite(v.Second)).ToList();
        if (both.Count < Samples) return (double.NaN, double.NaN);
        var (u, v) = (both.Average(p => p.First), both.Average(p => p.Second));
        var factor = both.Sum(p => (p.First - u) * (p.Second - v)) / both.Sum(p => (p.First - u) * (p.First - u));
        return (factor, v - factor * u);
    }

    /// <summary>Means of small squares on a lattice over a tile's middle.</summary>
    private static IEnumerable<double> Values(PyramidFile image, Func<Point2, Point2> place, (int W, int H) tile)
    {
        var (w, h) = tile;
        for (var j = 0; j < Samples; j++)
            for (var i = 0; i < Samples; i++)
            {
                var at = place(new Point2((0.5 + Middle * ((i + 0.5) / Samples - 0.5)) * w, (0.5 + Middle * ((j + 0.5) / Samples - 0.5)) * h));
                yield return Mean(image, at, Middle * w / Samples);
            }
    }

    private static double Mean(PyramidFile image, Point2 at, double side)
    {
        var grid = new PlaneGrid(new Box(at.X - side / 2, at.Y - side / 2, side, side), side);
        return PlaneResampler.Window(image, new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1]), grid, 0, 0, 1, 1)[0][0, 0];
    }

    /// <summary>At the place half-way between two neighbours.</summary>
    private static List<double> Between(IReadOnlyList<InfraredTile> tiles, IReadOnlyList<(double Factor, double Offset)> exposures, PyramidFile whole)
    {
        var steps = new List<double>();
        var (w, h) = InfraredTile.SizeIn(whole);
        for (var j = 0; j < tiles.Count; j++)
            for (var i = 0; i < j; i++)
            {
                if (Math.Abs(tiles[i].Column - tiles[j].Column) + Math.Abs(tiles[i].Row - tiles[j].Row) != 1) continue;
                var (a, b) = (tiles[i].ToWhole.ToPlane(new Point2(w / 2.0, h / 2.0)), tiles[j].ToWhole.ToPlane(new Point2(w / 2.0, h / 2.0)));
                var value = Mean(whole, new Point2((a.X + b.X) / 2, (a.Y + b.Y) / 2), w / 5.0);
                var (first, second) = (exposures[i].Factor * value + exposures[i].Offset, exposures[j].Factor * value + exposures[j].Offset);
                if (double.IsFinite(first + second)) steps.Add(2 * Math.Abs(first - second) / (first + second));
            }
        return steps;
    }
}
