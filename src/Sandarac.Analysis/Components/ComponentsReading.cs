using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Components;

/// <summary>Principal components or minimum noise fraction of all bands of any set of aligned layers.</summary>
public sealed class ComponentsReading : Reading
{
    private const int MostWritten = 12;
    private const string Exact = "exact";

    private static readonly ChoiceParameter Method = new("method", "Method",
        "Principal components with each band divided by its standard deviation (correlation) or as it is (covariance: bands with more contrast count more); or minimum noise fraction, which orders by how little noise a component holds and does not depend on the bands' scales.",
        "correlation", ["correlation", "covariance", "noise-fraction"]);

    private static readonly IntegerParameter Written = new("written", "Components to write", "How many components to write, first ones first; at most as many as there are different bands.", null, 3, 1, MostWritten);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "components",
        Version = 1,
        Title = "Components of several layers",
        Summary = "Sorts what all layers have in common from what only some show: uncorrelated pictures, strongest or least noisy first, with each band's part in them.",
        Citation = "Principal components: Hotelling, Journal of Educational Psychology 24 (1933) 417. Minimum noise fraction, noise from differences of neighbouring pixels: Green, Berman, Switzer and Craig, IEEE Transactions on Geoscience and Remote Sensing 26 (1988) 65. Sums joined as by Chan, Golub and LeVeque, The American Statistician 37 (1983) 242. All from memory, not re-read.",
        Limits = "A component is a sum of bands, not a material: the same look may have several causes. Light and dark, shading and the lamps' falloff usually fill the first; registration errors show as outlines in later ones. Values are used as the files hold them, tone curves included, as shares of full scale (files of floats as they are). "
            + "The sign of a component is a convention (its greatest loading is positive). Components of nearly equal variance may be turned among themselves. Noise means whatever changes from one pixel to the next: fine canvas, cracks and sharp outlines count as noise, and noise that a camera or a resampling has smoothed does not. "
            + "Component values are in full scales (covariance), in standard deviations of the bands (correlation), or have a standard deviation of 1 (noise-fraction). Pixels without data in any band are left out.",
        Inputs = [new("layers", "Aligned images in any light; all their colour bands are taken.", [], 1, 32)],
        Parameters = [Method, Written],
        Rasters = [.. Enumerable.Range(1, MostWritten).Select(k => new RasterOutput(Raster(k), FormattableString.Invariant($"Component {k}"), "score", ["component"]))],
        Figures =
        [
            new("valid-share", "Pixels with data", "1", "Counted over all pixels; exact."),
            new("band-deviation", "Band's deviation", "full scale", "Standard deviation over the pixels with data in all bands; exact."),
            new("band-noise", "Band's noise", "full scale", "Standard deviation of the noise, from half the mean square of the differences between neighbouring pixels. Fine detail of the painting is included, so that it is an upper bound where the noise is not smoothed; no interval is given."),
            new("variance", "Variance", "score²", "Eigenvalue of a principal component. No interval: formulas for samples hold for independent draws, and these are all pixels of one painting, each like its neighbours."),
            new("variance-share", "Share of variance", "1", "The eigenvalue over the sum of all; principal components only."),
            new("noise-fraction", "Share of noise", "1", "Variance of its noise over its variance; signal to noise is 1 / this - 1. Noise as for the bands."),
            new("loading", "Loading", "1", "Correlation of a band with a component, for each component written: 1 where the component shows the band, -1 where it shows its negative, 0 where it shows nothing of it."),
            new("weight", "Weight", "score / full scale", "The component is the sum over bands of weight times (value as a share of full scale, less the band's mean)."),
        ],
        Reach = new Reach.Blocks(BandStatistics.TileSize),
        OnPlane = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var layers = LayerBands.Of(context.Inputs("layers"));
        var all = BandStatistics.Of(layers, context);
        if (all.WhyNoAnswer() is { } why) return new Outcome { NoAnswer = why };
        var kept = all.Varying;
        var bands = all.Only(kept);
        var method = context.Value(Method);
        if (method == "noise-fraction" && bands.Noise is null) return new Outcome { NoAnswer = "No two neighbouring pixels have data: noise cannot be told from the picture." };
        var components = method == "noise-fraction" ? ComponentSet.LeastNoise(bands, bands.Noise!)
            : ComponentSet.Principal(bands, method == "covariance" ? BandScaling.Covariance : BandScaling.Correlation);
        var written = Math.Min(context.Value(Written), components.Variances.Length);
        Write(layers, all, kept, components.Weights.SubMatrix(0, kept.Length, 0, written), context);
        return new Outcome
        {
            Figures = [.. OfBands(all, layers.Names), .. OfComponents(components, method), .. Parts(components, written, [.. kept.Select(b => layers.Names[b])])],
            Warnings = [.. all.FlatBands(layers.Names), .. Repeats(kept.Length, components.Variances.Length)],
        };
    }

    private static void Write(LayerBands layers, BandStatistics all, int[] kept, Matrix<double> weights, RunContext context)
    {
        var spread = Matrix<double>.Build.Dense(all.Mean.Length, weights.ColumnCount);
        for (var b = 0; b < kept.Length; b++) spread.SetRow(kept[b], weights.Row(b));
        var transform = new BandTransform(layers.FullScales, all.Mean, spread, 0);
        var facts = layers.Images[0].Image.Facts;
        var scale = layers.Images.Select(i => i.Scale).FirstOrDefault(s => s is not null);
        var writer = new OneEach([.. Enumerable.Range(1, weights.ColumnCount).Select(k => context.CreateRaster(Raster(k), facts.Width, facts.Height, scale))]);
        TiledRun.ForEach(layers.Images, 0, (_, windows) => transform.Apply(layers.Take(windows)), writer, context);
    }

    private static IEnumerable<Figure> OfBands(BandStatistics all, IReadOnlyList<string> names) =>
    [
        new("valid-share", (double)all.Count / (all.Count + all.Missing), null, Exact),
        .. names.Select((n, b) => new Figure("band-deviation", all.Deviation(b), null, Exact, n)),
        .. names.Select((n, b) => all.Noise is { } noise ? new Figure("band-noise", Math.Sqrt(noise[b, b]), null, "fine detail included", n)
            : new Figure("band-noise", null, null, "no two neighbouring pixels have data", n)),
    ];

    private static IEnumerable<Figure> OfComponents(ComponentSet components, string method)
    {
        IEnumerable<Figure> variances = method == "noise-fraction" ? [] :
        [
            .. components.Variances.Select((v, k) => new Figure("variance", v, null, Exact, Component(k))),
            .. components.Variances.Select((v, k) => new Figure("variance-share", v / components.Total, null, Exact, Component(k))),
        ];
        return [.. variances, .. (components.NoiseFractions ?? []).Select((f, k) => new Figure("noise-fraction", f, null, "fine detail included", Component(k)))];
    }

    private static IEnumerable<Figure> Parts(ComponentSet components, int written, string[] names)
    {
        IEnumerable<Figure> Table(string figure, Matrix<double> values) =>
            from k in Enumerable.Range(0, written)
            from b in Enumerable.Range(0, names.Length)
            select new Figure(figure, values[b, k], null, Exact, $"{Component(k)}: {names[b]}");
        return [.. Table("loading", components.Loadings), .. Table("weight", components.Weights)];
    }

    private static IEnumerable<Warning> Repeats(int bands, int components) => components == bands ? [] :
        [new Warning("dependent-bands", FormattableString.Invariant($"Independent bands: {components} of {bands}. The others repeat them or are sums of them."))];

    private static string Component(int index) => FormattableString.Invariant($"component {index + 1}");

    private static string Raster(int number) => FormattableString.Invariant($"component-{number}");

    /// <summary>A raster for each component, so that each is looked at with black and white of its own.</summary>
    private sealed class OneEach(IReadOnlyList<IRasterWriter> writers) : IRasterWriter
    {
        public void WriteWindow(int left, int top, IReadOnlyList<Plane> bands)
        {
            for (var k = 0; k < writers.Count; k++) writers[k].WriteWindow(left, top, [bands[k]]);
        }
    }
}
