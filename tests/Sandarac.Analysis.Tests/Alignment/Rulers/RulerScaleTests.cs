using Sandarac.Analysis.Alignment.Rulers;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Rulers;

/// <summary>Rulers drawn with a map of their own: the truth is the map's, worked out without the reading.</summary>
public class RulerScaleTests(SpecimenFixture specimen)
{
    [Theory]
    [InlineData(5, 0, 0, 0.5, 0.004)]
    [InlineData(5, 180, 0, 0.5, 0.004)]
    [InlineData(4.3, 90, 0, 0.8, 0.004)]
    [InlineData(5, 33, 0, 0.5, 0.004)]
    [InlineData(5, -141, 0, 0.5, 0.004)]
    [InlineData(4, 4, 0.15, 0.6, 0.004)]
    [InlineData(4, 187, 0.08, 0.6, 0.02)]
    [InlineData(2.6, 12, 0, 0.5, 0.004)]
    [InlineData(5, 7, 0, 1.4, 0.004)]
    public void Known_scales_are_found_wherever_the_ruler_lies(double pixelsPerMm, double degrees, double perspective, double blur, double noise)
    {
        var scene = RulerScene.At(pixelsPerMm, degrees, perspective);
        var outcome = RulerScene.Read(scene.Draw(blur), noise);
        Assert.True(outcome.NoAnswer is null, outcome.NoAnswer);
        var scale = RulerScale.Of(outcome)!;
        // The ends lie on the ruler: their millimetres differ by the length, within a tenth of a tick. Where perspective crowds the ticks some may be lost at one end.
        var (from, to) = (scene.Map.ToPlane(scale.From), scene.Map.ToPlane(scale.To));
        Assert.InRange(Math.Abs(Math.Abs(to.X - from.X) - scale.LengthMm), 0, 0.1);
        Assert.All([from.Y, to.Y], y => Assert.InRange(y, -1, 9));
        Assert.InRange(scale.LengthMm, scene.Length - 10, scene.Length);
        var error = scale.MmPerPixel / scene.MmPerPixelAt((from.X + to.X) / 2) - 1;
        TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant($"{degrees} deg, {perspective}: error {1e6 * error:0} ppm, said {1e6 * scale.Uncertainty / scale.MmPerPixel:0}; {scale.LengthMm} mm; {string.Join(" ", outcome.Figures.Where(f => f.Subject is null).Select(f => $"{f.Name} {f.Value:0.####}"))}"));
        Assert.InRange(error, -3e-4, 3e-4);
        Assert.InRange(Math.Abs(error) * scale.MmPerPixel, 0, 2 * scale.Uncertainty + 2e-5 * scale.MmPerPixel);
    }

    [Fact]
    public void Known_light_ticks_on_a_dark_ruler_are_found()
    {
        var scene = RulerScene.At(5, 20) with { Ink = 0.8, Body = 0.1 };
        Assert.InRange(RulerScale.Of(RulerScene.Read(scene.Draw(0.5)))!.MmPerPixel / scene.MmPerPixel, 1 - 3e-4, 1 + 3e-4);
    }

    [Theory]
    [InlineData("VIS_chart.tif")]
    public void Known_scale_of_the_specimen_is_found(string name)
    {
        var outcome = TestRun.Of(new RulerScaleReading(), [("ruler", TestRun.Open(specimen.Photograph(name)))]).Outcome;
        var scale = RulerScale.Of(outcome)!;
        var map = specimen.TrueMap(name);
        // The ruler of the specimen's chart: 80 mm from the left edge, 330 from the top, 300 mm long.
        var truth = 1 / map.ToPixel(new Point2(229.5, 333)).DistanceTo(map.ToPixel(new Point2(230.5, 333)));
        TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant($"error {1e6 * (scale.MmPerPixel / truth - 1):0} ppm, said {1e6 * scale.Uncertainty / truth:0}"));
        Assert.InRange(Math.Abs(scale.MmPerPixel - truth), 0, scale.Uncertainty);
        Assert.Equal(300, scale.LengthMm);
    }

    [Theory]
    [InlineData("VIS_01.tif")]
    [InlineData("IR_01.tif")]
    [InlineData("UVL_01.tif")]
    [InlineData("RAK_E_az090_el15.tif")]
    [InlineData("XR_plate1.tif")]
    [InlineData("XSEC_S1_VIS.tif")]
    [InlineData("VIS_flat.tif")]
    public void Photographs_without_a_ruler_have_no_answer(string name) =>
        Assert.NotNull(TestRun.Of(new RulerScaleReading(), [("ruler", TestRun.Open(specimen.Photograph(name)))]).Outcome.NoAnswer);

    public static TheoryData<string, Func<int, double>> OtherDivisions => new()
    {
        { "all alike", _ => 5 }, { "tens only", n => n % 10 == 0 ? 9 : 4 }, { "fives only", n => n % 5 == 0 ? 9 : 4 }, { "halves of a half millimetre scale", n => n % 10 == 0 ? 9 : n % 2 == 0 ? 6.5 : 4 },
        { "sixteenths", n => n % 16 == 0 ? 10 : n % 8 == 0 ? 8 : n % 4 == 0 ? 6.5 : n % 2 == 0 ? 5 : 3.5 }, { "twelfths", n => n % 12 == 0 ? 9 : n % 6 == 0 ? 6.5 : 4 },
    };

    [Theory]
    [MemberData(nameof(OtherDivisions))]
    public void Other_divisions_are_not_taken_for_millimetres(string divisions, Func<int, double> tick)
    {
        var outcome = RulerScene.Read((RulerScene.At(5, 10) with { Tick = tick, Numerals = false }).Draw(0.5));
        Assert.True(outcome.NoAnswer is not null, divisions);
    }

    [Fact]
    public void Known_other_divisions_are_read_along_a_given_line()
    {
        var scene = RulerScene.At(5, 10) with { Tick = _ => 5 };
        var (a, b) = (scene.Map.ToPixel(new Point2(10, 2)), scene.Map.ToPixel(new Point2(140, 3)));
        var outcome = RulerScene.Read(scene.Draw(0.5), parameters: Line(a, b, ("longer-ticks", "any"), ("tick-spacing", "2")));
        Assert.InRange(RulerScale.Of(outcome)!.MmPerPixel / scene.MmPerPixel, 2 - 6e-4, 2 + 6e-4);
        Assert.Equal("not asked for", outcome.Figures.Single(f => f.Name == "longer-ticks").Note);
    }

    [Fact]
    public void A_line_beside_the_ruler_has_no_answer()
    {
        var picture = RulerScene.At(4, 0).Draw(0.5);
        Assert.NotNull(RulerScene.Read(picture, parameters: Line(new Point2(50, 60), new Point2(800, 60))).NoAnswer);
        Assert.Null(RulerScene.Read(picture, parameters: Line(new Point2(200, 312), new Point2(700, 312))).NoAnswer);
    }

    [Fact]
    public void Extreme_pictures_have_no_answer()
    {
        Plane[] pictures =
        [
            new(1, 1), new(3, 2000), Synthetic.Of(200, 200, (_, _) => 0.5), Synthetic.Of(400, 300, (x, _) => (int)(x / 3) % 2), Synthetic.Of(500, 400, (x, y) => (int)(x / 8) % 2 == (int)(y / 8) % 2 ? 0.9 : 0.1),
            Synthetic.Of(600, 500, (x, y) => 0.5 + 0.2 * Math.Sin(x * 1.3) + 0.2 * Math.Sin(y * 1.1)),
        ];
        foreach (var picture in pictures) Assert.NotNull(RulerScene.Read(picture, noise: 0).NoAnswer);
        Assert.NotNull(RulerScene.Read(Synthetic.Of(700, 500, (_, _) => 0.5), noise: 0.2).NoAnswer);
        // Too short to show a length three times.
        Assert.NotNull(RulerScene.Read(RulerScene.At(5, 0, length: 20).Draw()).NoAnswer);
    }

    [Fact]
    public void Extreme_values_of_a_float_file_change_nothing_elsewhere()
    {
        var picture = RulerScene.At(5, 0).Draw(0.5);
        for (var x = 0; x < 40; x++) picture[x, 5] = x % 2 == 0 ? float.NaN : float.PositiveInfinity;
        using var folder = new TempFolder();
        var file = TestTiff.WriteFloat(folder["float.tif"], picture);
        Assert.Null(TestRun.Of(new RulerScaleReading(), [("ruler", TestRun.Open(file))]).Outcome.NoAnswer);
    }

    [Theory]
    [InlineData("any", "-1", "-1", "-1", "-1")]
    [InlineData("any", "5", "5", "5", "5")]
    [InlineData("fifths-and-tenths", "5", "5", "-1", "-1")]
    public void Invalid_lines_are_refused(string lengths, string x, string y, string toX, string toY) => Assert.Equal("ruler-line", Assert.Throws<InputProblem>(() =>
        RulerScene.Read(Synthetic.Of(100, 100, (_, _) => 0.5), parameters: new() { ["longer-ticks"] = lengths, ["from-x"] = x, ["from-y"] = y, ["to-x"] = toX, ["to-y"] = toY })).Code);

    [Theory]
    [InlineData("tick-spacing", "0")]
    [InlineData("tick-spacing", "NaN")]
    [InlineData("from-x", "-2")]
    [InlineData("longer-ticks", "halves")]
    public void Invalid_parameters_are_refused(string name, string value) =>
        Assert.Throws<InputProblem>(() => RulerScene.Read(Synthetic.Of(100, 100, (_, _) => 0.5), parameters: new() { [name] = value }));

    private static Dictionary<string, string> Line(Point2 a, Point2 b, params (string, string)[] more)
    {
        static string Text(double v) => v.ToString(System.Globalization.CultureInfo.InvariantCulture);
        var all = new Dictionary<string, string> { ["from-x"] = Text(a.X), ["from-y"] = Text(a.Y), ["to-x"] = Text(b.X), ["to-y"] = Text(b.Y) };
        foreach (var (name, value) in more) all[name] = value;
        return all;
    }
}
