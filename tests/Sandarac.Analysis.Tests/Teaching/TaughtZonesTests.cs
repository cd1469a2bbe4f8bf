using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Teaching;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Teaching;

public class TaughtZonesTests
{
    private const double MmPerPixel = 0.5;

    [Fact]
    public void What_the_second_layer_alone_shows_is_learnt_and_proposed()
    {
        var (outcome, rasters) = Teach(Marks("patch", 8, 70) + "," + Marks("ground", 130, 70));
        Assert.Null(outcome.NoAnswer);
        Assert.Empty(outcome.Warnings);
        Assert.Equal(100, Value(outcome, "balanced-accuracy"), 3.0);
        Assert.True(Value(outcome, "importance", "b.tif") > 60);
        var patch = rasters["probability-1"][0];
        Assert.True(patch[60, 40] > 0.8 && patch[200, 40] < 0.2);
        // The patch is 100 of 240 columns: half of a pixel along its edge is left to texture.
        var area = outcome.Candidates.Where(c => c.Kind == "patch").Sum(c => c.Geometry.Area);
        Assert.InRange(area, 0.93 * 50 * 60, 1.07 * 50 * 60);
        Assert.Contains("patch", outcome.Candidates[0].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Classes_that_do_not_differ_are_called_not_separable_and_not_proposed()
    {
        var (outcome, _) = Teach(Marks("one", 130, 70, step: 2) + "," + Marks("other", 130, 70, 2, 1) + "," + Marks("patch", 8, 70));
        Assert.Equal(["not-separable", "not-separable"], outcome.Warnings.Select(w => w.Code));
        Assert.Contains("\"one\" is not separable from \"other\"", outcome.Warnings[0].Message, StringComparison.Ordinal);
        Assert.All(outcome.Candidates, c => Assert.Equal("patch", c.Kind));
    }

    [Theory]
    [InlineData("", "no marks of two classes")]
    [InlineData("few", "\"few\" has 4 of at least 5")]
    [InlineData("close", "\"close\" has 1 of at least 5")]
    public void Too_few_examples_give_no_answer(string second, string why)
    {
        var marks = second switch { "" => "", "few" => "," + Marks("few", 130, 70, count: 4), _ => "," + Marks("close", 130, 0) };
        var (outcome, rasters) = Teach(Marks("patch", 8, 70) + marks);
        Assert.Contains(why, outcome.NoAnswer, StringComparison.Ordinal);
        Assert.Empty(rasters);
    }

    [Fact]
    public void A_place_without_data_in_one_layer_is_not_judged()
    {
        var (outcome, rasters) = Teach(Marks("patch", 8, 70) + "," + Marks("ground", 130, 70), hole: true);
        Assert.True(float.IsNaN(rasters["probability-1"][0][225, 110]));
        Assert.True(float.IsFinite(rasters["probability-1"][0][215, 95]));
        Assert.Equal(1 - 20.0 * 20 / (240 * 120), Value(outcome, "valid-share"), 1e-9);
    }

    [Fact]
    public void Tiles_and_threads_change_no_number_with_wide_windows()
    {
        var marks = Marks("patch", 8, 70) + "," + Marks("ground", 130, 70);
        var whole = Teach(marks, finest: 1.7, tiling: new Tiling(int.MaxValue, 1));
        var tiled = Teach(marks, finest: 1.7, tiling: new Tiling(47, 3));
        Assert.Equal(whole.Outcome.Figures, tiled.Outcome.Figures);
        foreach (var (name, bands) in whole.Rasters) Assert.True(bands[0].Data.AsSpan().SequenceEqual(tiled.Rasters[name][0].Data), name);
    }

    [Theory]
    [InlineData("{\"type\":\"Point\"")]
    [InlineData("{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[0,0],[1,1]]},\"properties\":{}}]}")]
    [InlineData("{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":[0,0]},\"properties\":{\"class\":\"a\"}}]}")]
    [InlineData("{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"geometry\":{\"type\":\"Polygon\",\"coordinates\":[[[0,0],[1,1],[1,0],[0,1],[0,0]]]},\"properties\":{\"class\":\"a\"}}]}")]
    public void Invalid_marks_are_refused(string marks) =>
        Assert.Equal("marks", Assert.Throws<InputProblem>(() => Arguments.Resolve(new TaughtZonesReading().Declaration, new Dictionary<string, string> { ["marks"] = marks })).Code);

    [Fact]
    public void Marks_are_stored_whole()
    {
        var given = " " + Collection(Marks("patch", 8, 70).Replace("\"class\"", "\"by\": \"first look\", \"class\"", StringComparison.Ordinal)) + "\n";
        var stored = Arguments.Resolve(new TaughtZonesReading().Declaration, new Dictionary<string, string> { ["marks"] = given }).Texts.Single(t => t.Name == "marks").Value;
        Assert.Contains("\"by\":\"first look\"", stored, StringComparison.Ordinal);
        Assert.Equal(stored, Analysis.Teaching.Marks.Canonical(stored));
    }

    /// <summary>By hand: marks every 4 mm in a row, blocks 10 mm apart: the first, the fourth and the seventh begin one; with the fourth, two neighbours on either side are left out.</summary>
    [Fact]
    public void Known_blocks_begin_where_nothing_of_the_class_is_near()
    {
        var marks = Analysis.Teaching.Marks.Read(Collection(string.Join(',', Enumerable.Range(0, 7).Select(i => $$$"""{"type":"Feature","properties":{"class":"a"},"geometry":{"type":"LineString","coordinates":[[{{{4 * i}}},0],[{{{4 * i}}},1]]}}"""))));
        var blocks = MarkBlocks.Of([.. marks.All.Select(m => m.Geometry)], marks, 10);
        Assert.Equal([0, 0, 0, 3, 3, 3, 6], Enumerable.Range(0, 7).Select(m => blocks[m]));
        Assert.Equal([1, 2, 3, 4, 5], blocks.Buffer([3]).Order());
    }

    /// <summary>By hand: half of what was called 0.9 is right, all of what was called 0.6: 0.5 x 0.4 + 0.5 x 0.4.</summary>
    [Fact]
    public void Known_calibration_error_is_the_mean_distance() =>
        Assert.Equal(0.4, Assessment.CalibrationError([new ReliabilityBin(0.5, 0.9, 0.5), new ReliabilityBin(0.5, 0.6, 1), new ReliabilityBin(0, double.NaN, double.NaN)]), 1e-12);

    /// <summary>Two layers of noise; the second is brighter in its left 100 columns.</summary>
    private static (Outcome Outcome, Dictionary<string, Plane[]> Rasters) Teach(string marks, bool hole = false, double finest = 0.5, Tiling? tiling = null)
    {
        using var folder = new TempFolder();
        var a = Synthetic.Of(240, 120, (_, _) => 0.5).AddNoise(0.1, 1);
        var b = Synthetic.Of(240, 120, (x, y) => hole && x > 220 && y > 100 ? double.NaN : x < 100 ? 0.7 : 0.4).AddNoise(0.05, 2);
        return TestRun.Of(new TaughtZonesReading(),
            [("layers", TestRun.Open(TestTiff.WriteFloat(folder["a.tif"], a), null, MmPerPixel)), ("layers", TestRun.Open(TestTiff.WriteFloat(folder["b.tif"], b), null, MmPerPixel))],
            new() { ["marks"] = Collection(marks), ["marks-unit"] = "px", ["trees"] = "40", ["finest"] = finest.ToString(CultureInfo.InvariantCulture), ["block-distance"] = "1" }, tiling);
    }

    /// <summary>Short strokes, one below the other, in two columns.</summary>
    private static string Marks(string name, int left, int width, int step = 1, int from = 0, int count = 8) => string.Join(',', Enumerable.Range(0, count).Select(i => step * i + from).Select(i =>
    {
        var (x, y) = (left + i % 2 * width / 2.0, 5 + 13.0 / step * i * Math.Min(1, width / 40.0));
        return string.Create(CultureInfo.InvariantCulture, $$$"""{"type":"Feature","properties":{"class":"{{{name}}}"},"geometry":{"type":"LineString","coordinates":[[{{{x}}},{{{y}}}],[{{{x + 10}}},{{{y + 1}}}]]}}""");
    }));

    private static string Collection(string features) => $$"""{"type":"FeatureCollection","features":[{{features}}]}""";

    private static double Value(Outcome outcome, string name, string? subject = null) => outcome.Figures.First(f => f.Name == name && (subject is null || f.Subject == subject)).Value!.Value;
}
