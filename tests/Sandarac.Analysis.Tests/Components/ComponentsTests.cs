using Sandarac.Analysis.Components;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using static Sandarac.Analysis.Tests.Components.ComponentScene;

namespace Sandarac.Analysis.Tests.Components;

public class ComponentsTests
{
    private static readonly string[] Methods = ["correlation", "covariance", "noise-fraction"];

    [Fact]
    public void Variance_is_neither_made_nor_lost()
    {
        var bands = Bands();
        var (outcome, _) = Run(new ComponentsReading(), Layers(), new() { ["method"] = "covariance" });
        Assert.Equal(Statistics(bands).Covariance.Trace(), outcome.Values("variance").Sum(), 1e-12);
        Assert.Equal(1, outcome.Values("variance-share").Sum(), 1e-12);
        Assert.Equal(4, Run(new ComponentsReading(), Layers()).Outcome.Values("variance").Sum(), 1e-11);
    }

    [Fact]
    public void Components_are_uncorrelated_and_principal_directions_at_right_angles()
    {
        var bands = Statistics(Bands());
        var covariance = ComponentSet.Principal(bands, BandScaling.Covariance);
        AssertDiagonal((covariance.Weights.Transpose() * covariance.Weights).ToArray(), [1, 1, 1, 1], 1e-12);
        foreach (var set in (ComponentSet[])[covariance, ComponentSet.Principal(bands, BandScaling.Correlation), ComponentSet.LeastNoise(bands, bands.Noise!)])
            AssertDiagonal((set.Weights.Transpose() * bands.Covariance * set.Weights).ToArray(), set.Variances, 1e-12 * set.Variances[0]);
    }

    /// <summary>Multiplying bands by powers of two changes no rounding: what is left is the method's own dependence on scale.</summary>
    [Fact]
    public void Least_noise_does_not_depend_on_the_bands_scales()
    {
        var bands = Bands();
        Plane[] scaled = [bands[0].Select(v => 8 * v), bands[1].Select(v => v / 16), bands[2], bands[3].Select(v => 1024 * v)];
        var parameters = new Dictionary<string, string> { ["method"] = "noise-fraction", ["written"] = "4" };
        var (a, b) = (Run(new ComponentsReading(), Layers(), parameters), Run(new ComponentsReading(), [scaled[..3], scaled[3..]], parameters));
        AssertRow(a.Outcome.Values("noise-fraction"), b.Outcome.Values("noise-fraction"), 1e-11);
        AssertRow(a.Outcome.Values("loading"), b.Outcome.Values("loading"), 1e-10);
        for (var i = 0; i < bands[0].Data.Length; i++) Assert.Equal(a.Rasters["component-4"][0].Data[i], b.Rasters["component-4"][0].Data[i], 2e-6f);
    }

    [Fact]
    public void Loadings_have_their_greatest_positive()
    {
        foreach (var method in Methods)
            foreach (var loadings in Run(new ComponentsReading(), Layers(), new() { ["method"] = method, ["written"] = "4" }).Outcome.Values("loading").Chunk(4))
                Assert.Equal(loadings.Max(Math.Abs), loadings.Max());
    }

    [Fact]
    public void Of_equal_loadings_the_first_bands_is_positive()
    {
        // Two bands over their deviations: sum and difference, whose loadings are equal but for the sign.
        var loadings = Run(new ComponentsReading(), [[Bands()[0]], [Bands()[1]]]).Outcome.Values("loading");
        Assert.Equal(-loadings[2], loadings[3], 1e-12);
        Assert.True(loadings[0] > 0 && loadings[2] > 0);
    }

    [Fact]
    public void A_band_given_twice_is_one_component_fewer_and_a_warning()
    {
        foreach (var method in Methods)
        {
            var parameters = new Dictionary<string, string> { ["method"] = method, ["written"] = "12" };
            var (outcome, rasters) = Run(new ComponentsReading(), [.. Layers(), [Bands()[2]]], parameters);
            Assert.Equal("dependent-bands", Assert.Single(outcome.Warnings).Code);
            Assert.Equal(4, rasters.Count);
            Assert.All(outcome.Figures, f => Assert.True(f.Value is { } v && double.IsFinite(v)));
            // A band twice is the same noise twice: the components are those of the four.
            if (method == "noise-fraction") AssertRow(Run(new ComponentsReading(), Layers(), parameters).Outcome.Values("noise-fraction"), outcome.Values("noise-fraction"), 1e-9);
        }
    }

    [Fact]
    public void A_band_without_noise_is_the_first_of_least_noise()
    {
        // Alone in a still corner: one step in the middle, of a size that its neighbours' share of all differences is small.
        var still = Synthetic.Of(64, 64, (x, _) => x < 32 ? 0 : 1);
        var grain = new Plane(64, 64).AddNoise(1, 5);
        var (outcome, _) = Run(new ComponentsReading(), [[still], [grain]], new() { ["method"] = "noise-fraction" });
        var fractions = outcome.Values("noise-fraction");
        Assert.InRange(fractions[0], 0, 0.05);
        Assert.InRange(fractions[1], 0.95, 1.05);
        Assert.InRange(outcome.Values("loading")[0], 0.99, 1);
    }

    [Fact]
    public void A_flat_band_is_left_out_with_a_warning()
    {
        var flat = new Plane(Width, Height).Select(_ => 0.1f);
        foreach (var method in Methods)
        {
            var (outcome, rasters) = Run(new ComponentsReading(), [[flat], .. Layers()], new() { ["method"] = method });
            var warning = Assert.Single(outcome.Warnings);
            Assert.Equal(("flat-band", true), (warning.Code, warning.Message.StartsWith("layer0.tif ", StringComparison.Ordinal)));
            var without = Run(new ComponentsReading(), Layers(), new() { ["method"] = method });
            AssertRow(without.Outcome.Values("loading"), outcome.Values("loading"), 1e-12);
            Assert.Equal(without.Rasters["component-1"][0].Data, rasters["component-1"][0].Data);
        }
    }

    [Fact]
    public void Pixels_without_data_in_any_band_have_none_in_the_result()
    {
        var bands = Bands();
        var (outcome, rasters) = Run(new ComponentsReading(), Layers());
        Assert.Equal((1200 - 25) / 1200.0, outcome.Values("valid-share")[0]);
        for (var i = 0; i < 1200; i++) Assert.Equal(bands.All(b => float.IsFinite(b.Data[i])), float.IsFinite(rasters["component-2"][0].Data[i]));
    }

    [Fact]
    public void Tiles_are_joined_as_if_they_were_one()
    {
        var bands = Bands();
        var whole = BandMoments.Of(bands, new Tile(0, 0, Width, Height, 0, 0));
        var parts = new BandMoments(4);
        foreach (var (top, height) in ((int, int)[])[(0, 7), (7, 1), (8, 22)])
            foreach (var (left, width) in ((int, int)[])[(0, 13), (13, 27)]) parts.Add(BandMoments.Of(bands, new Tile(left, top, width, height, left, top)));
        Assert.Equal((whole.Count, whole.Missing, whole.Pairs), (parts.Count, parts.Missing, parts.Pairs));
        for (var a = 0; a < 4; a++)
            for (var b = a; b < 4; b++)
            {
                Assert.Equal(whole.Products[a, b], parts.Products[a, b], 1e-12 * whole.Products[0, 0]);
                Assert.Equal(whole.Differences[a, b], parts.Differences[a, b], 1e-12 * whole.Differences[0, 0]);
            }
    }

    [Fact]
    public void Many_tiles_threads_and_layers_change_no_number()
    {
        Plane[][] layers = [.. Enumerable.Range(0, 3).Select(k => new[] { Synthetic.Of(1100, 530, (x, y) => 1e4 + Math.Sin((k + 1) * x / 40) + y / 100).AddNoise(0.1, k) })];
        foreach (var i in (int[])[0, 511, 512, 300000]) layers[1][0].Data[i] = float.NaN;
        var whole = Run(new ComponentsReading(), layers, tiling: new Tiling(int.MaxValue, 1));
        var other = Run(new ComponentsReading(), layers, tiling: new Tiling(100, 4));
        Assert.Equal(whole.Outcome.Figures, other.Outcome.Figures);
        foreach (var (name, bands) in whole.Rasters) Assert.True(bands[0].Data.AsSpan().SequenceEqual(other.Rasters[name][0].Data));
    }

    [Fact]
    public void Extreme_means_cancel_nothing()
    {
        // A deviation of 1 on a mean of 2^23: the naive sum of squares would keep one digit of it.
        var wave = Synthetic.Of(64, 64, (x, y) => Math.Round(2 * Math.Sin(x) + 2 * Math.Cos(y / 3)));
        var moved = Statistics(wave.Select(v => v + 8388608), wave);
        Assert.Equal(moved.Covariance[1, 1], moved.Covariance[0, 0], 1e-9);
        Assert.Equal(moved.Covariance[1, 1], moved.Covariance[0, 1], 1e-9);
    }

    [Fact]
    public void One_pixel_and_one_band_are_no_answer()
    {
        Assert.Contains(": 0 of 4;", Run(new ComponentsReading(), [[.. Bands()[..3].Select(_ => new Plane(1, 1, [0.5f]))], [new Plane(1, 1, [0.5f])]]).Outcome.NoAnswer, StringComparison.Ordinal);
        Assert.Contains(": 1 of 1;", Run(new ComponentsReading(), [[Bands()[0]]]).Outcome.NoAnswer, StringComparison.Ordinal);
        var none = new Plane(Width, Height).Select(_ => float.NaN);
        Assert.Contains("No pixel has data", Run(new ComponentsReading(), [.. Layers(), [none]]).Outcome.NoAnswer, StringComparison.Ordinal);
    }

    [Fact]
    public void Scattered_pixels_have_no_noise_to_tell()
    {
        Plane[] sparse = [.. Bands()[2..].Select(b => new Plane(Width, Height, [.. b.Data.Select((v, i) => (i % Width + i / Width) % 2 == 0 ? v : float.NaN)]))];
        var (outcome, rasters) = Run(new ComponentsReading(), [sparse[..1], sparse[1..]]);
        Assert.All(outcome.Figures.Where(f => f.Name == "band-noise"), f => Assert.Null(f.Value));
        Assert.Equal(2, rasters.Count);
        Assert.Contains("noise", Run(new ComponentsReading(), [sparse[..1], sparse[1..]], new() { ["method"] = "noise-fraction" }).Outcome.NoAnswer, StringComparison.Ordinal);
    }

    [Fact]
    public void Invalid_sizes_are_refused() =>
        Assert.Equal("input-size", Assert.Throws<InputProblem>(() => Run(new ComponentsReading(), [.. Layers(), [new Plane(Width, Height + 1)]])).Code);

    [Fact]
    public void Bands_are_named_with_file_light_and_colour()
    {
        using var folder = new TempFolder();
        var (colour, grey) = (TestTiff.WriteFloat(folder["UVL_01.tif"], Bands()[..3]), TestTiff.WriteFloat(folder["plate.tif"], Bands()[3]));
        InputImage[] images = [TestRun.Open(colour, Light.Luminescence), TestRun.Open(grey, Light.Xray), TestRun.Open(colour)];
        Assert.Equal(["UVL_01.tif red", "UVL_01.tif green", "UVL_01.tif blue", "plate.tif (XR)"], LayerBands.Of(images[..2]).Names);
        Assert.Equal("3: UVL_01.tif blue", LayerBands.Of(images).Names[^1]);
        foreach (var image in images) image.Image.Dispose();
    }

    private static void AssertDiagonal(double[,] matrix, double[] diagonal, double tolerance)
    {
        for (var a = 0; a < diagonal.Length; a++)
            for (var b = 0; b < diagonal.Length; b++) Assert.Equal(a == b ? diagonal[a] : 0, matrix[a, b], tolerance);
    }
}
