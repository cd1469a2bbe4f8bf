using Sandarac.Analysis.Quality;
using Sandarac.Analysis.Tests.Support;

namespace Sandarac.Analysis.Tests.Quality;

public class SharpnessTests(SpecimenFixture specimen)
{
    /// <summary>Analytic: a step blurred by a Gaussian of standard deviation s has MTF exp(-2 pi^2 s^2 f^2), so MTF50 = sqrt(2 ln 2) / (2 pi s) and
    /// MTF10 = sqrt(2 ln 10) / (2 pi s). Sampled at points here, so no pixel aperture is added.</summary>
    [Theory]
    [InlineData(0.7)]
    [InlineData(1.0)]
    [InlineData(1.5)]
    [InlineData(2.5)]
    [InlineData(6.0)]
    [InlineData(12.0)]
    public void Known_blur_of_a_slanted_square_is_recovered(double sigma)
    {
        using var folder = new TempFolder();
        var angle = 5 * Math.PI / 180;
        var (sin, cos) = Math.SinCos(angle);
        // Squares turned by 5 degrees, 0.2 and 0.7 of full scale in linear light; wide enough to stay squares when blurred.
        var (side, size) = sigma > 6 ? (400, 2400) : (150, 900);
        var light = Synthetic.Of(size, size, (x, y) =>
        {
            double Wave(double t) => Enumerable.Range(-1, 11).Sum(k => (k % 2 == 0 ? 1 : -1) * Synthetic.BlurredStep((t - side * k) / sigma));
            var (u, v) = (x * cos + y * sin, -x * sin + y * cos + 100);
            return 65535 * (0.2 + 0.5 * Wave(u) * Wave(v));
        }).AddNoise(100, 1);
        var file = TestTiff.Write16(folder["edges.tif"], light);
        var (outcome, _) = TestRun.Of(new PhotographQuality(), [("photograph", TestRun.Open(file, mmPerPixel: 0.1))], new() { ["tone"] = "linear" });
        var mtf50 = outcome.Figures.Single(f => f.Name == "mtf50");
        var expected = Math.Sqrt(2 * Math.Log(2)) / (2 * Math.PI * sigma);
        TestContext.Current.SendDiagnosticMessage($"sigma {sigma}: {mtf50.Value} +- {mtf50.Uncertainty}, expected {expected}; {mtf50.Note}");
        Assert.InRange(mtf50.Value!.Value, expected * 0.99, expected * 1.01);
        var resolved = outcome.Figures.Single(f => f.Name == "resolved");
        Assert.Equal(mtf50.Value.Value * 10, resolved.Value!.Value, 10);
        var efficiency = outcome.Figures.Single(f => f.Name == "sampling-efficiency").Value!.Value;
        Assert.InRange(efficiency, Math.Min(1, 2 * Math.Sqrt(2 * Math.Log(10)) / (2 * Math.PI * sigma)) * 0.93, 1.0);
    }

    /// <summary>The specimen's camera: means over square pixels, sin(pi f)/(pi f), through a blur of five taps, 1 + 2 w1 cos(2 pi f) + 2 w2 cos(4 pi f) over its value at 0,
    /// the taps exp(-k^2 / 2 s^2) with the s that the truth states.</summary>
    [Fact]
    public void The_blur_of_the_specimens_camera_is_recovered_from_the_target_in_its_frame()
    {
        var sigma = specimen.Truth("VIS_chart.tif").GetProperty("blurPixels").GetDouble();
        double Tap(int k, double f) => 2 * Math.Exp(-k * k / (2 * sigma * sigma)) * Math.Cos(2 * Math.PI * k * f);
        double Transfer(double f) => Math.Sin(Math.PI * f) / (Math.PI * f) * (1 + Tap(1, f) + Tap(2, f)) / (1 + Tap(1, 0) + Tap(2, 0));
        var expected = Enumerable.Range(1, 5000).Select(i => i / 10000.0).First(f => Transfer(f) <= 0.5);
        var (outcome, _) = TestRun.Of(new PhotographQuality(), [("photograph", TestRun.Open(specimen.Photograph("VIS_chart.tif")))]);
        var mtf50 = outcome.Figures.Single(f => f.Name == "mtf50");
        TestContext.Current.SendDiagnosticMessage($"{mtf50.Value} +- {mtf50.Uncertainty}, expected {expected}; {mtf50.Note}");
        Assert.InRange(mtf50.Value!.Value, expected * 0.97, expected * 1.03);
    }

    /// <summary>Analytic, as above. The edges drift by 1 pixel in 250: no piece of 32 rows sees more than an eighth of a pixel.</summary>
    [Fact]
    public void Edges_of_a_picture_squared_up_with_care_are_measured_along_their_whole_length()
    {
        using var folder = new TempFolder();
        var light = Synthetic.Of(1100, 1100, (x, y) => 65535 * (0.2 + 0.5 * Synthetic.BlurredStep((x - 300 - 0.004 * y) / 0.8) * Synthetic.BlurredStep((y - 200 + 0.004 * x) / 0.8))).AddNoise(100, 3);
        var (outcome, _) = TestRun.Of(new PhotographQuality(), [("photograph", TestRun.Open(TestTiff.Write16(folder["edges.tif"], light)))], new() { ["tone"] = "linear" });
        var expected = Math.Sqrt(2 * Math.Log(2)) / (2 * Math.PI * 0.8);
        Assert.InRange(outcome.Figures.Single(f => f.Name == "mtf50").Value!.Value, expected * 0.99, expected * 1.01);
    }

    /// <summary>The border of a cast shadow, straight and slanted, over paint with sharp small forms: the shadow is soft, the photograph is not.</summary>
    [Fact]
    public void The_soft_border_of_a_shadow_in_a_sharp_picture_is_no_measure_of_its_sharpness()
    {
        using var folder = new TempFolder();
        double Dot(double x, double y) => Synthetic.BlurredStep((6 - Math.Sqrt(Math.Pow(x % 40 - 20, 2) + Math.Pow(y % 40 - 20, 2))) / 0.7);
        var file = TestTiff.Write16(folder["shadow.tif"], Synthetic.Of(900, 900, (x, y) =>
            65535 * (0.15 + 0.5 * Synthetic.BlurredStep((x - 300 - 0.1 * y) / 4)) * (x > 600 ? 1 - 0.8 * Dot(x, y) : 1)).AddNoise(60, 4));
        var (outcome, _) = TestRun.Of(new PhotographQuality(), [("photograph", TestRun.Open(file))], new() { ["tone"] = "linear" });
        var mtf50 = outcome.Figures.Single(f => f.Name == "mtf50");
        Assert.Null(mtf50.Value);
        Assert.Contains("sharper elsewhere", mtf50.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void A_picture_without_edges_has_no_sharpness()
    {
        using var folder = new TempFolder();
        var file = TestTiff.Write16(folder["plain.tif"], Synthetic.Of(400, 300, (x, y) => 20000 + 10 * x).AddNoise(200, 2));
        var (outcome, _) = TestRun.Of(new PhotographQuality(), [("photograph", TestRun.Open(file))]);
        var mtf50 = outcome.Figures.Single(f => f.Name == "mtf50");
        Assert.Null(mtf50.Value);
        Assert.Contains("no answer", mtf50.Note, StringComparison.Ordinal);
        Assert.DoesNotContain(outcome.Warnings, w => w.Code == "soft");
    }
}
