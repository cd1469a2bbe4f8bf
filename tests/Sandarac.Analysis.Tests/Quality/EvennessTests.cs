using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Quality;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Quality;

public class EvennessTests
{
    private const int Width = 960;
    private const int Height = 720;

    /// <summary>A fall-off of 1.5 stops from left to right and 0.9 from top to bottom: region centres lie at 1/6, 1/2 and 5/6, so that the lower right is 2/3 of 2.4 = 1.6 stops darker than the upper left.</summary>
    private static double FallOff(double x, double y) => Math.Pow(2, -1.5 * x / Width - 0.9 * y / Height);

    [Fact]
    public void Known_fall_off_is_measured_on_a_flat_field()
    {
        var outcome = Run(Synthetic.Of(Width, Height, (x, y) => 20000 * (0.6 + 0.4 * Math.Sin(x / 50) * Math.Sin(y / 31))), Synthetic.Of(Width, Height, (x, y) => 50000 * FallOff(x, y)).AddNoise(200, 8), Light.Visible);
        var lowerRight = Region(outcome, "lower right");
        Assert.InRange(lowerRight.Value!.Value, -1.61, -1.59);
        Assert.InRange(Region(outcome, "bottom").Value!.Value, -1.11, -1.09);
        Assert.Equal(0, Region(outcome, "upper left").Value);
        Assert.Contains(outcome.Warnings, w => w.Code == "uneven" && w.Message.StartsWith("The lower right is 1.6 stops darker than the upper left", StringComparison.Ordinal));
    }

    [Fact]
    public void Known_fall_off_is_estimated_from_the_picture_within_its_uncertainty()
    {
        var random = new Random(9);
        double[] tones = [.. Enumerable.Range(0, 48).Select(_ => 0.3 + 0.7 * random.NextDouble())];
        var outcome = Run(Synthetic.Of(Width, Height, (x, y) => 55000 * FallOff(x, y) * tones[(int)(x / 120) + 8 * (int)(y / 120)]).AddNoise(100, 9), null, Light.Visible);
        var lowerRight = Region(outcome, "lower right");
        Assert.InRange(-1.6, lowerRight.Value!.Value - lowerRight.Uncertainty!.Value, lowerRight.Value.Value + lowerRight.Uncertainty.Value);
        Assert.InRange(lowerRight.Uncertainty.Value, 0.05, 1.2);
        Assert.Contains("the painting's own tones are mixed in", lowerRight.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Uneven_raking_light_is_no_reason_to_warn()
    {
        var flat = Synthetic.Of(Width, Height, (x, y) => 50000 * FallOff(x, y)).AddNoise(200, 8);
        Assert.DoesNotContain(Run(flat, flat, Light.Raking).Warnings, w => w.Code.StartsWith("uneven", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0.15, 0.15)]
    [InlineData(0.55, 0.3)]
    [InlineData(1, 0.2)]
    public void Light_in_a_part_of_the_frame_only_gives_no_answer(double u, double v)
    {
        Plane Lit() => Synthetic.Of(Width, Height, (x, y) => x < u * Width && y < v * Height ? 30000 : 0);
        foreach (var outcome in (Outcome[])[Run(Lit(), null, Light.Visible), Run(Lit(), Lit(), Light.Visible)])
        {
            var figure = outcome.Figures.Single(f => f.Name == "unevenness");
            Assert.Null(figure.Value);
            Assert.Equal("too few blocks of 32 pixels have light", figure.Note);
        }
    }

    private static Figure Region(Outcome outcome, string name) => outcome.Figures.Single(f => f.Name == "evenness" && f.Subject == name);

    private static Outcome Run(Plane picture, Plane? flat, Light light)
    {
        using var folder = new TempFolder();
        List<(string, InputImage)> images = [("photograph", TestRun.Open(TestTiff.Write16(folder["a.tif"], picture), light))];
        if (flat is not null) images.Add(("flat", TestRun.Open(TestTiff.Write16(folder["flat.tif"], flat), light)));
        return TestRun.Of(new PhotographQuality(), images, new() { ["tone"] = "linear" }).Outcome;
    }
}
