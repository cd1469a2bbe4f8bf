using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Quality;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Quality;

/// <summary>Counts are exact: the pixels are put there.</summary>
public class ClippingTests
{
    private const int Width = 400;
    private const int Height = 300;

    [Fact]
    public void Known_pixels_at_both_ends_are_counted()
    {
        var plane = Even();
        for (var i = 0; i < 600; i++) plane.Data[7 * i] = 65535;
        for (var i = 0; i < 240; i++) plane.Data[7 * i + 1] = 0;
        var outcome = Run(plane);
        Assert.Equal(100 * 600.0 / (Width * Height), Value(outcome, "clipped-high"));
        Assert.Equal(100 * 240.0 / (Width * Height), Value(outcome, "clipped-low"));
        Assert.Contains(outcome.Warnings, w => w.Code == "clipped-high" && w.Message.StartsWith("0.5 % of the grey band is burnt out", StringComparison.Ordinal));
    }

    [Fact]
    public void A_plateau_below_full_scale_is_found()
    {
        // Clipped at 16383 by a 14-bit sensor, then multiplied by 4 and by a gain of 0.9.
        var plane = Even().Select(v => (float)Math.Round(Math.Min(16383, v / 3) * 4 * 0.9));
        var outcome = Run(plane);
        var exact = plane.Data.Count(v => v == plane.Data.Max());
        Assert.True(exact > 1000);
        Assert.Equal(100 * ((double)exact / plane.Data.Length), Value(outcome, "clipped-high"));
        Assert.Contains("piled up at 58979", outcome.Figures.First(f => f.Name == "clipped-high").Note, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unclipped_picture_has_no_clipping()
    {
        var outcome = Run(Even());
        Assert.Equal(0, Value(outcome, "clipped-high"));
        Assert.Equal(0, Value(outcome, "clipped-low"));
        Assert.DoesNotContain(outcome.Warnings, w => w.Code.StartsWith("clipped", StringComparison.Ordinal));
    }

    [Fact]
    public void A_dark_picture_is_called_underexposed()
    {
        var plane = Even().Select(v => (float)Math.Round(v / 20));
        var outcome = Run(plane, new() { ["tone"] = "linear" });
        Assert.Contains(outcome.Warnings, w => w.Code == "underexposed");
        // By sorting: 120 of the 120000 pixels may lie above.
        Assert.Equal(Math.Log2(65535 / plane.Data.OrderDescending().ElementAt(120)), Value(outcome, "headroom"), 6);
    }

    /// <summary>Values around 1000 to 60000 that thin out at the ends, as a photograph's do.</summary>
    private static Plane Even() => Synthetic.Of(Width, Height, (x, y) => 30000 + 20000 * Math.Sin(x / 37) * Math.Sin(y / 23)).AddNoise(1500, 5).Select(v => Math.Clamp(v, 1, 65534));

    private static Outcome Run(Plane plane, Dictionary<string, string>? parameters = null)
    {
        using var folder = new TempFolder();
        return TestRun.Of(new PhotographQuality(), [("photograph", TestRun.Open(TestTiff.Write16(folder["a.tif"], plane)))], parameters).Outcome;
    }

    private static double Value(Outcome outcome, string name) => outcome.Figures.First(f => f.Name == name).Value!.Value;
}
