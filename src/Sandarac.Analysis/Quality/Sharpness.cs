using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Quality;

/// <summary>Sharpness over the edges of a photograph.</summary>
/// <param name="Edges">Edges found.</param>
/// <param name="Mtf50">Upper quartile of MTF50, cycles per pixel; NaN when there are too few edges.</param>
/// <param name="Mtf50Uncertainty">Half-width of the quartile's 95 % interval.</param>
/// <param name="Mtf10">Upper quartile of MTF10.</param>
/// <param name="Mtf10Uncertainty">Its half-width.</param>
internal sealed record Sharpness(int Edges, double Mtf50, double Mtf50Uncertainty, double Mtf10, double Mtf10Uncertainty)
{
    /// <summary>Fewest edges for an answer.</summary>
    public const int FewestEdges = 5;

    private const int TileSize = 512;
    private const int Halo = EdgeFinder.Block + 2 * EdgeResponse.Reach;

    /// <summary>Below this the edge's spread no longer fits the profile of 16 pixels a side, and the picture is reduced first.</summary>
    private const double SoftestMtf50 = 0.06;

    /// <summary>In a reduced picture the averaging itself blurs; above this it would take more than a tenth off, so that sharper edges are not believed there.</summary>
    private const double SharpestReduced = 0.25;

    /// <summary>Looks at full size, then at 1/2, 1/4 and 1/8 for pictures too soft to have edges at full size.</summary>
    public static Sharpness Of(QualitySurvey survey, RunContext context)
    {
        var light = survey.LightOfMany();
        for (var level = 0; level <= 3; level++)
        {
            var edges = EdgesAt(survey, light, level, context).Where(e => e.Mtf50 >= SoftestMtf50 && (level == 0 || e.Mtf50 <= SharpestReduced)).ToArray();
            if (edges.Length < FewestEdges) continue;
            var (mtf50, u50) = UpperQuartile([.. edges.Select(e => e.Mtf50 / (1 << level))]);
            var (mtf10, u10) = UpperQuartile([.. edges.Select(e => e.Mtf10 / (1 << level))]);
            return new Sharpness(edges.Length, mtf50, u50, mtf10, u10);
        }
        return new Sharpness(0, double.NaN, double.NaN, double.NaN, double.NaN);
    }

    private static EdgeResponse[] EdgesAt(QualitySurvey survey, Func<float, float> light, int level, RunContext context)
    {
        var facts = survey.Image.Image.Facts;
        if (Math.Min(facts.Width, facts.Height) >> level < 2 * EdgeFinder.Block) return [];
        var found = TiledRun.Map([survey.Image], TileSize << level, Halo << level, (tile, w) =>
        {
            var reduced = Reduce(Bands.Of(w[0], facts)[survey.Band], level, light);
            return EdgeFinder.Find(reduced, tile.OffsetX >> level, tile.OffsetY >> level, tile.Width >> level, tile.Height >> level);
        }, context);
        return [.. found.SelectMany(e => e)];
    }

    /// <summary>Means of light over squares of 2^level pixels; NaN where any pixel has no data.</summary>
    private static Plane Reduce(Plane plane, int level, Func<float, float> light)
    {
        if (level == 0) return plane.Select(light);
        var side = 1 << level;
        var reduced = new Plane(Math.Max(1, plane.Width >> level), Math.Max(1, plane.Height >> level));
        for (var y = 0; y < reduced.Height << level && y < plane.Height; y++)
            for (var x = 0; x < reduced.Width << level && x < plane.Width; x++) reduced[x >> level, y >> level] += light(plane[x, y]) / (side * side);
        return reduced;
    }

    /// <summary>The quartile, and half the distance between the order statistics that enclose it with 95 % probability (binomial, normal approximation).</summary>
    private static (double Value, double Uncertainty) UpperQuartile(double[] values)
    {
        const double share = 0.75;
        var reach = 1.96 * Math.Sqrt(share * (1 - share) / values.Length);
        return (Robust.Quantile(values, share), (Robust.Quantile(values, Math.Min(1, share + reach)) - Robust.Quantile(values, Math.Max(0, share - reach))) / 2);
    }
}
