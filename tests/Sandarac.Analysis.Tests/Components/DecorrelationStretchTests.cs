using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Components;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using static Sandarac.Analysis.Tests.Components.ComponentScene;

namespace Sandarac.Analysis.Tests.Components;

public class DecorrelationStretchTests
{
    /// <summary>References/Components/SOURCE.md; double throughout: 1e-9 of the greatest.</summary>
    [Theory]
    [InlineData("covariance")]
    [InlineData("correlation")]
    public void Known_matrix_of_the_stretch_of_NumPy(string scaling)
    {
        var bands = Statistics(Bands()[..3]);
        var kind = scaling == "covariance" ? BandScaling.Covariance : BandScaling.Correlation;
        var weights = DecorrelationStretch.Weights(bands, ComponentSet.Principal(bands, kind), kind, 1);
        var rows = Rows($"stretch-{scaling}");
        for (var b = 0; b < 3; b++)
            // Bands by output bands; the sign is not free here.
            for (var a = 0; a < 3; a++) Assert.Equal(rows[b][a], weights[b, a], 1e-9 * 40);
    }

    /// <summary>The output's covariance over the pixels, gathered plainly in double, is the target to 1e-9.</summary>
    [Theory]
    [InlineData("covariance", 1)]
    [InlineData("correlation", 1)]
    [InlineData("covariance", 0.01)]
    [InlineData("correlation", 0.01)]
    public void Output_covariance_equals_the_target(string scaling, double difference)
    {
        var kind = scaling == "covariance" ? BandScaling.Covariance : BandScaling.Correlation;
        // The smaller the difference, the nearer the bands are to one another: variances of directions down to some millionths.
        var three = Bands()[..3];
        Plane[] bands = [three[0], Blend(three[0], three[1], difference), Blend(three[0], three[2], difference)];
        var statistics = Statistics(bands);
        var components = ComponentSet.Principal(statistics, kind, 1e-6);
        Assert.Equal(3, components.Variances.Length);
        var output = Output(bands, statistics, DecorrelationStretch.Weights(statistics, components, kind, 0.18));
        for (var a = 0; a < 3; a++)
            for (var b = 0; b < 3; b++) Assert.Equal(a == b ? 1 : 0, Covariance(output[a], output[b]) / (0.18 * 0.18), 1e-9);
    }

    [Theory]
    [InlineData("covariance")]
    [InlineData("correlation")]
    public void The_raster_reaches_the_target_within_float32(string scaling)
    {
        var (outcome, rasters) = Run(new DecorrelationStretchReading(), [Bands()[..3]], new() { ["scaling"] = scaling, ["mean"] = "40", ["deviation"] = "10" });
        var output = rasters["decorrelation-stretch"].Select(p => p.Data.Where(float.IsFinite).Select(v => (double)v).ToArray()).ToArray();
        for (var a = 0; a < 3; a++)
        {
            Assert.Equal(0.4, output[a].Average(), 1e-7);
            for (var b = 0; b < 3; b++) Assert.Equal(a == b ? 0.01 : 0, Covariance(output[a], output[b]), 1e-8);
        }
        Assert.All(outcome.Values("deviation-reached"), d => Assert.Equal(0.1, d, 1e-10));
        var outside = Enumerable.Range(0, output[0].Length).Count(i => output.Any(o => o[i] is < 0 or > 1));
        Assert.Equal((double)outside / output[0].Length, outcome.Values("outside-share")[0]);
        Assert.Equal(1 - 24.0 / 1200, outcome.Values("valid-share")[0]);
    }

    [Fact]
    public void A_flat_band_divides_nothing_by_zero()
    {
        var flat = new Plane(Width, Height).Select(_ => 0.3f);
        var (outcome, rasters) = Run(new DecorrelationStretchReading(), [[Bands()[0]], [flat], [Bands()[2]]]);
        Assert.Equal("flat-band", Assert.Single(outcome.Warnings).Code);
        var picture = rasters["decorrelation-stretch"];
        Assert.All(picture[1].Data, v => Assert.Equal(0.5f, v));
        Assert.All(picture[0].Data, v => Assert.True(float.IsFinite(v)));
        double[][] output = [[.. picture[0].Data], [.. picture[2].Data]];
        Assert.Equal(0.18 * 0.18, Covariance(output[0], output[0]), 1e-8);
        Assert.Equal(0, Covariance(output[0], output[1]), 1e-8);
        Assert.Equal([0.18, 0, 0.18], outcome.Values("deviation-reached").Select(d => Math.Round(d, 9)));
    }

    /// <summary>Two equal bands have no difference to raise: the result lies in the plane of the directions that remain, and its covariance is the target times the projection on it.</summary>
    [Fact]
    public void A_band_given_twice_stays_the_same_twice()
    {
        var (outcome, rasters) = Run(new DecorrelationStretchReading(), [Bands()[..3]], new() { ["blue"] = "2", ["green"] = "2", ["red"] = "3" });
        Assert.Contains("dependent-bands", outcome.Warnings.Select(w => w.Code));
        var output = rasters["decorrelation-stretch"].Select(p => p.Data.Where(float.IsFinite).Select(v => (double)v).ToArray()).ToArray();
        for (var i = 0; i < output[0].Length; i++) Assert.Equal(output[1][i], output[2][i], 1e-6);
        double[,] projection = { { 1, 0, 0 }, { 0, 0.5, 0.5 }, { 0, 0.5, 0.5 } };
        for (var a = 0; a < 3; a++)
            for (var b = 0; b < 3; b++) Assert.Equal(0.18 * 0.18 * projection[a, b], Covariance(output[a], output[b]), 1e-8);
    }

    [Fact]
    public void Raised_noise_is_warned_of()
    {
        var scene = Synthetic.Of(200, 150, (x, y) => 0.5 + 0.3 * Math.Sin(x / 30) * Math.Cos(y / 40));
        var (outcome, _) = Run(new DecorrelationStretchReading(), [[.. Enumerable.Range(0, 3).Select(k => scene.AddNoise(0.01, k))]]);
        Assert.Equal(["noise-raised", "noise-raised"], outcome.Warnings.Select(w => w.Code));
        Assert.Equal(1, outcome.Values("noise-fraction")[2], 0.05);
    }

    [Fact]
    public void Invalid_band_is_refused_with_the_list()
    {
        var problem = Assert.Throws<InputProblem>(() => Run(new DecorrelationStretchReading(), [[Bands()[0]], [Bands()[1]]]));
        Assert.Equal(("no-such-band", "blue"), (problem.Code, problem.Subject));
        Assert.Contains("2 layer1.tif", problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void One_pixel_is_no_answer() =>
        Assert.NotNull(Run(new DecorrelationStretchReading(), [[.. Bands()[..3].Select(_ => new Plane(1, 1, [0.5f]))]]).Outcome.NoAnswer);

    private static Plane Blend(Plane a, Plane b, double share) => new(a.Width, a.Height, [.. a.Data.Select((v, i) => (float)((1 - share) * v + share * b.Data[i]))]);

    private static double[][] Output(Plane[] bands, BandStatistics statistics, Matrix<double> weights)
    {
        int[] valid = [.. Enumerable.Range(0, bands[0].Data.Length).Where(i => bands.All(b => float.IsFinite(b.Data[i])))];
        return [.. Enumerable.Range(0, 3).Select(k => valid.Select(i => Enumerable.Range(0, 3).Sum(b => weights[b, k] * (bands[b].Data[i] - statistics.Mean[b]))).ToArray())];
    }

    private static double Covariance(double[] a, double[] b)
    {
        var (meanA, meanB) = (a.Average(), b.Average());
        return a.Zip(b, (x, y) => (x - meanA) * (y - meanB)).Sum() / (a.Length - 1);
    }
}
