using System.Numerics.Tensors;
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
/// <param name="NoAnswer">Why there is none; null when there is.</param>
internal sealed record Sharpness(int Edges, double Mtf50, double Mtf50Uncertainty, double Mtf10, double Mtf10Uncertainty, string? NoAnswer = null)
{
    /// <summary>Fewest edges for an answer.</summary>
    public const int FewestEdges = 5;

    private const int TileSize = 512;
    private const int Halo = EdgeFinder.Block + 2 * EdgeResponse.Reach;

    /// <summary>Below this the edge's spread no longer fits the profile of 16 pixels a side, and the picture is reduced first.</summary>
    private const double SoftestMtf50 = 0.06;

    /// <summary>In a reduced picture the averaging itself blurs; above this it would take more than a tenth off, so that sharper edges are not believed there.</summary>
    private const double SharpestReduced = 0.25;

    /// <summary>
    /// Peak of a Gaussian line spread over MTF50, both in pixels: 1 / (s sqrt(2 pi)) over sqrt(2 ln 2) / (2 pi s). A blur renders no step steeper than the range of
    /// light times the peak.
    /// </summary>
    private const double PeakToMtf50 = 2.1289340388624523;

    /// <summary>How much steeper a picture may be than the edges' blur allows: blurs are not quite Gaussian, and noise steepens.</summary>
    private const double Allowance = 1.5;

    private static readonly Sharpness TooFew = new(0, double.NaN, double.NaN, double.NaN, double.NaN, "fewer than 5 clean straight edges were found: no answer");
    private static readonly Sharpness SoftThings = TooFew with { NoAnswer = "the only straight edges are soft things, as shadows, in a picture that is sharper elsewhere: no answer" };

    /// <summary>Looks at full size, then at 1/2, 1/4 and 1/8 for pictures too soft to have edges at full size.</summary>
    public static Sharpness Of(QualitySurvey survey, RunContext context)
    {
        var light = survey.LightOfMany();
        var counts = survey.Counts[survey.Band];
        var range = survey.Light(counts.Quantile(0.9999)) - survey.Light(counts.Quantile(0.0001));
        double steepest = 0;
        for (var level = 0; level <= 3; level++)
        {
            var looks = LookAt(survey, light, level, context);
            if (level == 0) steepest = looks.Select(l => l.Steepness).DefaultIfEmpty(0).Max();
            var edges = looks.SelectMany(l => l.Edges).Where(e => e.Mtf50 >= SoftestMtf50 && (level == 0 || e.Mtf50 <= SharpestReduced)).ToArray();
            if (edges.Length < FewestEdges) continue;
            var (mtf50, u50) = UpperQuartile([.. edges.Select(e => e.Mtf50 / (1 << level))]);
            var (mtf10, u10) = UpperQuartile([.. edges.Select(e => e.Mtf10 / (1 << level))]);
            return steepest > Allowance * PeakToMtf50 * mtf50 * range ? SoftThings : new Sharpness(edges.Length, mtf50, u50, mtf10, u10);
        }
        return TooFew;
    }

    private static IReadOnlyList<(List<EdgeResponse> Edges, double Steepness)> LookAt(QualitySurvey survey, Func<float, float> light, int level, RunContext context)
    {
        var facts = survey.Image.Image.Facts;
        if (Math.Min(facts.Width, facts.Height) >> level < 2 * EdgeFinder.Block) return [];
        return TiledRun.Map([survey.Image], TileSize << level, Halo << level, (tile, w) =>
        {
            var reduced = Reduce(Bands.Of(w[0], facts)[survey.Band], level, light);
            var edges = EdgeFinder.Find(reduced, tile.OffsetX >> level, tile.OffsetY >> level, tile.Width >> level, tile.Height >> level);
            return (edges, level == 0 ? Steepness(reduced) : 0);
        }, context);
    }

    /// <summary>The change from pixel to pixel, across rows and columns, that one pixel in a thousand exceeds; means of three, to leave out noise.</summary>
    private static double Steepness(Plane p)
    {
        if (p.Width < 3 || p.Height < 3) return 0;
        var columns = p.Width - 2;
        var highest = new HighestValues(1 + columns * (p.Height - 2) / 1000);
        float[] sums = new float[p.Width], across = new float[columns], down = new float[columns], below = new float[columns];
        for (var y = 1; y < p.Height - 1; y++)
        {
            TensorPrimitives.Add(p.Row(y - 1), p.Row(y), sums);
            TensorPrimitives.Add(sums, p.Row(y + 1), sums);
            TensorPrimitives.Subtract(sums.AsSpan(2), sums.AsSpan(0, columns), across);
            OfThree(p.Row(y + 1), below);
            OfThree(p.Row(y - 1), down);
            TensorPrimitives.Subtract(below, down, down);
            for (var x = 0; x < columns; x++)
                if (float.IsFinite(across[x] + down[x])) highest.Add(Math.Max(Math.Abs(across[x]), Math.Abs(down[x])) / 6);
        }
        return highest.Count == 0 ? 0 : highest.Exceeded(highest.Count / 1000);
    }

    private static void OfThree(Span<float> row, Span<float> sums)
    {
        TensorPrimitives.Add<float>(row[..^2], row[1..^1], sums);
        TensorPrimitives.Add(sums, row[2..], sums);
    }

    /// <summary>Means of light over squares of 2^level pixels; NaN where any pixel has no data.</summary>
    private static Plane Reduce(Plane plane, int level, Func<float, float> light)
    {
        if (level == 0) return plane.Select(light);
        var side = 1 << level;
        var reduced = new Plane(Math.Max(1, plane.Width >> level), Math.Max(1, plane.Height >> level));
        var (share, columns) = (1f / (side * side), Math.Min(reduced.Width << level, plane.Width));
        for (var y = 0; y < reduced.Height << level && y < plane.Height; y++)
        {
            Span<float> from = plane.Row(y), to = reduced.Row(y >> level);
            for (var x = 0; x < columns; x++) to[x >> level] += light(from[x]) * share;
        }
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
