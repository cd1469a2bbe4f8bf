using Sandarac.Analysis.Brushwork;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Tests.Relief;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Brushwork;

/// <summary>The readings of brushwork on a surface known in closed form: furrows of two directions and depths, a stop every 12 mm on the left, a slope to the right; 0.5 mm a pixel.</summary>
public sealed class BrushworkReadingTests : IDisposable
{
    private const double LeftDegrees = 20, RightDegrees = 110, PitchPixels = 6, LeftUm = 15, RightUm = 60;
    private const string Halves = """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"class":"left"},"geometry":{"type":"Polygon","coordinates":[[[0,0],[37,0],[37,55],[0,55],[0,0]]]}},{"type":"Feature","properties":{"class":"right"},"geometry":{"type":"Polygon","coordinates":[[[38,0],[75,0],[75,55],[38,55],[38,0]]]}}]}""";

    private readonly ReliefScene _scene = new();

    public void Dispose() => _scene.Dispose();

    [Fact]
    public void Directions_body_and_zones_are_those_of_the_surface()
    {
        var (outcome, rasters) = Read(new BrushworkReading(), new() { ["zones"] = Halves, ["shortest-wave"] = "0.5" });
        // The picture's y runs down: degrees are told anticlockwise as seen.
        Assert.Equal(180 - LeftDegrees, rasters["direction"][0][30, 60], 1);
        Assert.Equal(180 - RightDegrees, rasters["direction"][0][120, 60], 1);
        Assert.InRange(rasters["coherence"][0][30, 60], 0.9, 1);
        // The filter passes 0.94 of waves of 3 mm when shorter than 1.5 mm are left out (ISO 16610-61) and holds back 7 per cent of those up to 8 mm.
        Assert.InRange(rasters["relief"][0][30, 60] / (LeftUm / Math.Sqrt(2)), 0.75, 1);
        Assert.Equal(1, rasters["body"][0][30, 60]);
        Assert.Equal(3, rasters["body"][0][120, 60]);
        Assert.Equal(100, outcome.Figures.Where(f => f.Name == "body-share").Sum(f => f.Value!.Value), 9);
        Assert.Equal(ReliefScene.Width * ReliefScene.Height * ReliefScene.Mm * ReliefScene.Mm / 100, outcome.Figures.Where(f => f.Name == "body-area").Sum(f => f.Value!.Value), 6);
        Assert.Equal(["everything", "left", "right"], outcome.Figures.Where(f => f.Name == "strokes").Select(f => f.Subject));
        Assert.Equal(BrushZone.Descriptors.Count, outcome.Figures.Count(f => f.Name == "difference" && f.Subject!.StartsWith("left against right", StringComparison.Ordinal)));
        Assert.All(outcome.Figures, f => Assert.True(f.Value is null || f.Uncertainty is not null || f.Note is not null, f.Name));
        Assert.Contains(outcome.Warnings, w => w.Code == "relief-too-fine");
    }

    [Fact]
    public void A_pull_has_its_slope_and_its_rhythm()
    {
        var (sin, cos) = Math.SinCos(LeftDegrees * Math.PI / 180);
        var lines = FormattableString.Invariant($$$"""{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"class":"pull"},"geometry":{"type":"LineString","coordinates":[[2,20],[{{{2 + 70 * cos}}},{{{20 + 70 * sin * 0.35}}}]]}}]}""");
        var (outcome, _) = TestRun.Of(new BrushPullReading(), _scene.Photographs(ReliefScene.Ring(8), height: Stopping), new() { ["lines"] = lines, ["breadth"] = "3" });
        Figure Of(string name) => outcome.Figures.Single(f => f.Name == name);
        var along = Of("length").Value!.Value / (70 * cos);
        Assert.Equal(8 * along, Of("period").Value!.Value, 0.05 * 8);
        Assert.InRange(Of("stops").Value!.Value, 6, 9);
        Assert.InRange(Of("evenness").Value!.Value, 0, 0.1);
        Assert.Equal("pull", Of("period").Subject);
    }

    [Theory]
    [InlineData("zones", """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"class":"a"},"geometry":{"type":"LineString","coordinates":[[0,0],[9,9]]}}]}""", "zones")]
    [InlineData("body-from", "40", "body-thresholds")]
    [InlineData("longest-wave", "0.6", "relief-waves")]
    public void Parameters_that_do_not_fit_are_refused(string name, string value, string code) =>
        Assert.Equal(code, Assert.Throws<InputProblem>(() => Read(new BrushworkReading(), new() { [name] = value })).Code);

    [Fact]
    public void A_line_is_needed_and_two_lamps_are_too_few()
    {
        Assert.NotNull(Read(new BrushPullReading(), []).Outcome.NoAnswer);
        Assert.Equal("lines", Assert.Throws<InputProblem>(() => Read(new BrushPullReading(), new() { ["lines"] = Halves })).Code);
        Assert.Throws<InputProblem>(() => TestRun.Of(new BrushworkReading(), _scene.Photographs(ReliefScene.Ring(2), height: HeightUm)));
    }

    [Fact]
    public void Tile_size_and_threads_change_nothing()
    {
        var (one, many) = (Read(new BrushworkReading(), [], new Tiling(int.MaxValue, 1)), Read(new BrushworkReading(), [], new Tiling(37, 3)));
        foreach (var (name, bands) in one.Rasters) Assert.Equal(bands[0].Data, many.Rasters[name][0].Data);
        Assert.Equal(one.Outcome.Figures, many.Outcome.Figures);
    }

    private (Outcome Outcome, Dictionary<string, Plane[]> Rasters) Read(Reading reading, Dictionary<string, string> parameters, Tiling? tiling = null) =>
        TestRun.Of(reading, _scene.Photographs(ReliefScene.Ring(8), height: HeightUm), parameters, tiling);

    private static double HeightUm(double x, double y)
    {
        var left = x < ReliefScene.Width / 2;
        var (sin, cos) = Math.SinCos((left ? LeftDegrees : RightDegrees) * Math.PI / 180);
        return (left ? LeftUm : RightUm) * Math.Sin(2 * Math.PI * (-x * sin + y * cos) / PitchPixels);
    }

    /// <summary>A ridge from top to bottom every 8 mm, 0.7 mm wide, on fine texture.</summary>
    private static double Stopping(double x, double y) => 3 * Math.Sin(x / 1.7) * Math.Sin(y / 2.3)
        + Enumerable.Range(0, 9).Sum(k => 40 * Math.Exp(-Math.Pow((x * ReliefScene.Mm - 4 - 8 * k) / 0.9, 2)));
}
