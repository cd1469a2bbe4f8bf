using NetTopologySuite.Geometries;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Infrared;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Infrared;

public class InfraredTests
{
    private const double Mm = 0.25;

    /// <summary>Infrared that follows colour by a power law but for a hidden line, a passage that is a quarter darker and one a third brighter; a line that both show is no candidate.</summary>
    [Fact]
    public void What_colour_does_not_explain_is_found_and_what_it_explains_is_not()
    {
        using var folder = new TempFolder();
        var (outcome, rasters) = TestRun.Of(new InfraredReading(), Scene(folder));
        var line = Assert.Single(outcome.Candidates, c => c.Kind == "underdrawing");
        Assert.All(line.Geometry.Coordinates.Where(c => c.X is > 60 and < 180), c => Assert.InRange(c.Y, 40, 40.4));
        // Averaging along a line draws it out by some three of its widths at either end.
        Assert.InRange(line.Geometry.Length, 114, 128);
        var areas = outcome.Candidates.Where(c => c.Kind == "change").ToList();
        Assert.Equal(2, areas.Count);
        foreach (var (area, truth) in areas.Zip((Envelope[])[new Envelope(60, 100, 120, 160), new Envelope(160, 210, 120, 160)]))
        {
            var there = GeometryFactory.Default.ToGeometry(truth);
            Assert.InRange(area.Geometry.Intersection(there).Area / area.Geometry.Union(there).Area, 0.85, 1);
        }
        Assert.Equal(Math.Log(0.75), rasters["unexplained"][0][320, 560], 0.03);
        Assert.Equal(Math.Log(1.33), rasters["unexplained"][0][736, 560], 0.03);
        Assert.Equal(0, rasters["unexplained"][0][560, 400], 0.03);
        Assert.InRange(rasters["lines"][0][400, 160], 0.2f, 0.4f);
        double Length(string subject) => outcome.Figures.Single(f => f.Name == "line-length" && f.Subject == subject).Value!.Value;
        Assert.Equal(line.Geometry.Length, Length("infrared only"), 1);
        Assert.InRange(Length("both"), 114, 128);
        Assert.Equal(0, Length("visible only"));
    }

    [Theory]
    [InlineData(0.5f, 0.5f)]
    [InlineData(float.NaN, 0.5f)]
    [InlineData(0.5f, float.NaN)]
    public void Extreme_without_tones_or_without_data_there_is_no_answer(float infrared, float visible)
    {
        using var folder = new TempFolder();
        Plane Same(float value) => Synthetic.Of(120, 90, (_, _) => value);
        var outcome = TestRun.Of(new InfraredReading(), [("infrared", Open(TestTiff.WriteFloat(folder["i.tif"], Same(infrared)))), ("visible", Open(TestTiff.WriteFloat(folder["v.tif"], Same(visible), Same(visible), Same(visible))))]).Outcome;
        Assert.NotNull(outcome.NoAnswer);
    }

    [Fact]
    public void Extreme_one_pixel_has_no_answer()
    {
        using var folder = new TempFolder();
        var dot = Synthetic.Of(1, 1, (_, _) => 9000);
        Assert.NotNull(TestRun.Of(new InfraredReading(), [("infrared", Open(TestTiff.Write16(folder["i.tif"], dot))), ("visible", Open(TestTiff.Write16(folder["v.tif"], dot, dot, dot)))]).Outcome.NoAnswer);
    }

    [Fact]
    public void Lines_too_fine_for_the_photograph_are_said_not_guessed()
    {
        using var folder = new TempFolder();
        var outcome = TestRun.Of(new InfraredReading(), Scene(folder), new() { ["line-width"] = "0.4" }).Outcome;
        Assert.Equal("lines-too-fine", Assert.Single(outcome.Warnings).Code);
        Assert.DoesNotContain(outcome.Candidates, c => c.Kind == "underdrawing");
        Assert.All(outcome.Figures.Where(f => f.Name is "line-length" or "line-candidates"), f => Assert.Null(f.Value));
    }

    [Fact]
    public void Invalid_without_a_scale_a_width_in_mm_is_refused()
    {
        using var folder = new TempFolder();
        var path = TestTiff.Write16(folder["i.tif"], Synthetic.Of(50, 50, (x, _) => 300 * x));
        var colour = TestTiff.Write16(folder["v.tif"], Synthetic.Of(50, 50, (x, _) => 300 * x), Synthetic.Of(50, 50, (_, y) => 300 * y), Synthetic.Of(50, 50, (x, y) => 200 * x + y));
        Assert.Equal("no-scale", Assert.Throws<InputProblem>(() => TestRun.Of(new InfraredReading(), [("infrared", TestRun.Open(path)), ("visible", TestRun.Open(colour))])).Code);
    }

    private static List<(string, InputImage)> Scene(TempFolder folder)
    {
        const int width = 992, height = 768;
        double Line(double mm, double at) => Math.Exp(-0.5 * (mm - at) * (mm - at) / (0.4 * 0.4));
        double Patch(double x, double y, double left, double right) => x > left && x < right && y is > 120 and < 160 ? 1 : 0;
        Plane Tone(int seed) => Synthetic.Of(width, height, (x, y) =>
            (0.35 + 0.15 * Math.Sin(x / (15 + 6 * seed)) + 0.1 * Math.Cos(y / (12 + 5 * seed))) * (x * Mm is > 60 and < 180 ? 1 - 0.4 * Line(y * Mm, 80.2) : 1)).AddNoise(0.002, seed);
        Plane[] visible = [Tone(1), Tone(2), Tone(3)];
        var infrared = Synthetic.Of(width, height, (x, y) =>
        {
            var (i, mmX, mmY) = ((int)y * width + (int)x, x * Mm, y * Mm);
            var explained = 0.8 * Math.Pow(visible[0].Data[i], 0.5) * Math.Pow(visible[2].Data[i], 0.2);
            return explained * (mmX is > 60 and < 180 ? 1 - 0.3 * Line(mmY, 40.2) : 1) * (1 - 0.25 * Patch(mmX, mmY, 60, 100)) * (1 + 0.33 * Patch(mmX, mmY, 160, 210));
        });
        string Write(string name, params Plane[] bands) => TestTiff.WriteFloat(folder[name + Guid.NewGuid().ToString("N") + ".tif"], [.. bands.Select(b => b.Select(v => (float)Encoded(v)))]);
        return [("infrared", Open(Write("i", infrared))), ("visible", Open(Write("v", visible)))];
    }

    /// <summary>IEC 61966-2-1:1999; an untagged file is taken as sRGB.</summary>
    private static double Encoded(double light) => light <= 0.0031308 ? 12.92 * light : 1.055 * Math.Pow(light, 1 / 2.4) - 0.055;

    private static InputImage Open(string path) => TestRun.Open(path, null, Mm);
}
