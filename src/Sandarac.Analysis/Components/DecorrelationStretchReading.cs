using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Components;

/// <summary>Three bands as a colour picture with their correlation taken out, so that faint differences of colour become strong ones.</summary>
public sealed class DecorrelationStretchReading : Reading
{
    /// <summary>A direction with more noise than this is warned of.</summary>
    private const double MostNoise = 0.5;

    private const string Exact = "exact";
    private static readonly string[] Shown = ["red", "green", "blue"];

    private static readonly IntegerParameter[] Chosen = [.. Shown.Select((s, i) =>
        new IntegerParameter(s, $"Band shown as {s}", "Number of the band, counted from 1 through all layers in the order given.", null, i + 1, 1, 128))];

    private static readonly ChoiceParameter Scaling = new("scaling", "Scaling", "Whether each band is first divided by its standard deviation (correlation) or counts as it is (covariance).", "correlation", ["correlation", "covariance"]);

    private static readonly NumberParameter Mean = new("mean", "Mean", "Mean of each output band.", "% of full scale", 50, 0, 100);

    private static readonly NumberParameter Deviation = new("deviation", "Standard deviation", "Standard deviation of each output band.", "% of full scale", 18, 0.1, 100);

    private static readonly NumberParameter CutOff = new("cut-off", "Cut-off", "Directions with less than this share of the greatest direction's variance are left flat instead of stretched. The default lies below the steps of an 8-bit file of usual contrast.", null, 1e-5, 1e-6, 1);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "decorrelation-stretch",
        Version = 1,
        Title = "Decorrelation stretch",
        Summary = "Shows three bands of any layers as one colour picture in which faint differences of colour become strong, while hues stay roughly in their places.",
        Citation = "Gillespie, Kahle and Walker, Remote Sensing of Environment 20 (1986) 209 (from memory, not re-read).",
        Limits = "For looking only: colours compare within one picture, and depend on everything else in it. A colour names no material. Noise, compression and registration errors are raised with the rest: a direction that is more than half noise is warned of, where noise is what changes from one pixel to the next, fine detail included. "
            + "Means and covariance are taken over the pixels with data in all three bands, so that a frame or a wide border changes the colours. Values outside 0 to 1 are kept in the TIFF and shown as 0 or 1.",
        Inputs = [new("layers", "Aligned images in any light, from whose bands three are taken.", [], 1, 32)],
        Parameters = [.. Chosen, Scaling, Mean, Deviation, CutOff],
        Rasters = [new("decorrelation-stretch", "Decorrelation stretch", "relative", ["R", "G", "B"])],
        Figures =
        [
            new("valid-share", "Pixels with data", "1", "Counted over all pixels; exact."),
            new("band-mean", "Band's mean before", "full scale", "Over the pixels with data; exact."),
            new("band-deviation", "Band's deviation before", "full scale", "Over the pixels with data; exact."),
            new("variance-share", "Share of variance before", "1", "For each principal direction that was stretched: its share of the variance of the scaled bands; all are equal afterwards."),
            new("gain", "Stretch over the first's", "1", "Square root of the ratio of their variances before."),
            new("noise-fraction", "Share of noise", "1", "Variance of its noise, from differences of neighbouring pixels, over its variance. Fine detail of the painting is included."),
            new("deviation-reached", "Deviation reached", "full scale", "Standard deviation of an output band, from the transform: the wanted one, or less where directions were left flat."),
            new("outside-share", "Pixels beyond black or white", "1", "Pixels with any output band below 0 or above 1; counted, exact."),
        ],
        Reach = new Reach.Blocks(BandStatistics.TileSize),
        OnPlane = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var layers = LayerBands.Of(context.Inputs("layers"));
        var chosen = layers.Only([.. Chosen.Select(p => layers.Position(p, context.Value(p)))]);
        var all = BandStatistics.Of(chosen, context);
        if (all.WhyNoAnswer() is { } why) return new Outcome { NoAnswer = why };
        var kept = all.Varying;
        var bands = all.Only(kept);
        var scaling = context.Value(Scaling) == "covariance" ? BandScaling.Covariance : BandScaling.Correlation;
        var components = ComponentSet.Principal(bands, scaling, context.Value(CutOff));
        if (components.Variances.Length == 0) return new Outcome { NoAnswer = "No direction lies above the cut-off." };
        var weights = Spread(DecorrelationStretch.Weights(bands, components, scaling, context.Value(Deviation) / 100), kept);
        var outside = Write(chosen, new BandTransform(chosen.FullScales, all.Mean, weights, context.Value(Mean) / 100), context);
        return new Outcome
        {
            Figures = [.. Before(all, chosen.Names), .. Directions(components), .. After(all, weights, outside)],
            Warnings = [.. all.FlatBands(chosen.Names), .. LeftFlat(kept.Length, components.Variances.Length), .. Noisy(components)],
        };
    }

    /// <summary>Pixels with a value outside 0 to 1.</summary>
    private static long Write(LayerBands layers, BandTransform transform, RunContext context)
    {
        var facts = layers.Images[0].Image.Facts;
        var writer = context.CreateRaster("decorrelation-stretch", facts.Width, facts.Height, layers.Images.Select(i => i.Scale).FirstOrDefault(s => s is not null));
        long outside = 0;
        TiledRun.ForEach(layers.Images, 0, (_, windows) =>
        {
            var picture = transform.Apply(layers.Take(windows));
            Interlocked.Add(ref outside, Outside(picture));
            return picture;
        }, writer, context);
        return outside;
    }

    private static long Outside(Plane[] picture)
    {
        var (red, green, blue) = (picture[0].Data, picture[1].Data, picture[2].Data);
        long count = 0;
        for (var i = 0; i < red.Length; i++)
            if (Math.Min(red[i], Math.Min(green[i], blue[i])) < 0 || Math.Max(red[i], Math.Max(green[i], blue[i])) > 1) count++;
        return count;
    }

    /// <summary>The weights among all three bands: those left out take no part and stay at the mean.</summary>
    private static Matrix<double> Spread(Matrix<double> weights, int[] kept)
    {
        var all = Matrix<double>.Build.Dense(Shown.Length, Shown.Length);
        for (var a = 0; a < kept.Length; a++)
            for (var b = 0; b < kept.Length; b++) all[kept[a], kept[b]] = weights[a, b];
        return all;
    }

    private static IEnumerable<Figure> Before(BandStatistics all, IReadOnlyList<string> names) =>
    [
        new("valid-share", (double)all.Count / (all.Count + all.Missing), null, Exact),
        .. names.Select((n, b) => new Figure("band-mean", all.Mean[b], null, Exact, $"{Shown[b]}: {n}")),
        .. names.Select((n, b) => new Figure("band-deviation", all.Deviation(b), null, Exact, $"{Shown[b]}: {n}")),
    ];

    private static IEnumerable<Figure> Directions(ComponentSet components) =>
    [
        .. components.Variances.Select((v, k) => new Figure("variance-share", v / components.Total, null, Exact, Direction(k))),
        .. components.Variances.Select((v, k) => new Figure("gain", Math.Sqrt(components.Variances[0] / v), null, Exact, Direction(k))),
        .. (components.NoiseFractions ?? []).Select((f, k) => new Figure("noise-fraction", f, null, "fine detail included", Direction(k))),
    ];

    private static IEnumerable<Figure> After(BandStatistics all, Matrix<double> weights, long outside)
    {
        var reached = weights.Transpose() * all.Covariance * weights;
        return
        [
            .. Shown.Select((s, b) => new Figure("deviation-reached", Math.Sqrt(reached[b, b]), null, Exact, s)),
            new("outside-share", (double)outside / all.Count, null, Exact),
        ];
    }

    private static IEnumerable<Warning> LeftFlat(int bands, int directions) => directions == bands ? [] :
        [new Warning("dependent-bands", FormattableString.Invariant($"{bands - directions} of {bands} directions lie below the cut-off and were left flat: bands that repeat others hold no colour differences."))];

    private static IEnumerable<Warning> Noisy(ComponentSet components) =>
        from k in Enumerable.Range(0, components.Variances.Length)
        let noise = components.NoiseFractions?[k] ?? 0
        let gain = Math.Sqrt(components.Variances[0] / components.Variances[k])
        where noise > MostNoise
        select new Warning("noise-raised", FormattableString.Invariant($"Direction {k + 1} is {100 * noise:0} % noise or finest detail and was raised {gain:0.#} times as much as the first: fine-grained colour may be noise."));

    private static string Direction(int index) => FormattableString.Invariant($"direction {index + 1}");
}
