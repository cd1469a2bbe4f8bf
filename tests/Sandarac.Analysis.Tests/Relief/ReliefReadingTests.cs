using MathNet.Numerics.Statistics;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Relief;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Relief;

/// <summary>The reading on a surface whose height is known in closed form.</summary>
public sealed class ReliefReadingTests : IDisposable
{
    private readonly ReliefScene _scene = new();

    public void Dispose() => _scene.Dispose();

    [Fact]
    public void Known_height_normals_and_blister()
    {
        var (outcome, rasters) = ReliefScene.Read(_scene.Photographs(ReliefScene.Ring(8)), new() { ["form"] = "mean" });
        var truth = Synthetic.Of(ReliefScene.Width, ReliefScene.Height, ReliefScene.HeightUm);
        var height = rasters["height"][0];
        Assert.InRange(Correlation.Pearson(height.Data.Select(v => (double)v), truth.Data.Select(v => (double)v)), 0.999, 1);
        var mean = truth.Data.Average();
        Assert.InRange(Math.Sqrt(height.Data.Zip(truth.Data, (h, t) => Math.Pow(h - t + mean, 2)).Average()), 0, 2);
        for (var y = 2; y < ReliefScene.Height; y += 9)
            for (var x = 2; x < ReliefScene.Width; x += 9)
            {
                var (right, down) = ReliefScene.Slope(x + 0.5, y + 0.5);
                Assert.Equal(-right / Math.Sqrt(1 + right * right + down * down), rasters["normals"][0][x, y], 2e-3);
                Assert.Equal(Math.Atan(Math.Sqrt(right * right + down * down)) * 180 / Math.PI, rasters["slope"][0][x, y], 0.1);
            }
        var blister = Assert.Single(outcome.Candidates);
        Assert.Equal("blister", blister.Kind);
        Assert.True(blister.Geometry.Contains(new NetTopologySuite.Geometries.Point(95 * ReliefScene.Mm, 50 * ReliefScene.Mm)), blister.Geometry.AsText());
        Assert.DoesNotContain(outcome.Warnings, w => w.Code is "frame-shift" or "no-boards");
        Assert.Contains("relative", outcome.Figures.Single(f => f.Name == "height-range").Note, StringComparison.Ordinal);
        Assert.Contains("not measured", outcome.Figures.Single(f => f.Name == "sq" && f.Subject == "brush").Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Tile_size_and_threads_change_nothing()
    {
        var (one, many) = (ReliefScene.Read(_scene.Photographs(ReliefScene.Ring(5)), null, new Tiling(int.MaxValue, 1)), ReliefScene.Read(_scene.Photographs(ReliefScene.Ring(5)), null, new Tiling(37, 3)));
        foreach (var (name, bands) in one.Rasters)
            for (var b = 0; b < bands.Length; b++) Assert.Equal(bands[b].Data, many.Rasters[name][b].Data);
        Assert.Equal(one.Outcome.Figures, many.Outcome.Figures);
    }

    /// <summary>A second hill as high as the blister, but ribbed by the brush, is paint; a hollow with a raised rim that carries the weave along is a cupped flake.</summary>
    [Fact]
    public void Thick_paint_is_no_deformation_and_a_hollow_with_a_rim_is_cupping()
    {
        static double Hill(double x, double y, double atX, double atY, double width) => Math.Exp(-((x - atX) * (x - atX) + (y - atY) * (y - atY)) / (2 * width * width));
        var images = _scene.Photographs(ReliefScene.Ring(8), height: (x, y) => ReliefScene.HeightUm(x, y) + Hill(x, y, 35, 80, 9) * (220 + 50 * Math.Sin(x)));
        var ribbed = ReliefScene.Read(images).Outcome;
        Assert.True(ribbed.Figures.Single(f => f.Name == "thick-places").Value >= 1);
        Assert.Equal("blister", Assert.Single(ribbed.Candidates).Kind);
        images = _scene.Photographs(ReliefScene.Ring(8), height: (x, y) => 3 * Math.Sin(2.1 * x) + 3 * Math.Sin(2.3 * y) + 400 * Hill(x, y, 75, 55, 14) - 800 * Hill(x, y, 75, 55, 7));
        Assert.Contains(ReliefScene.Read(images).Outcome.Candidates, c => c.Kind == "cupping" && c.Geometry.Centroid.Distance(new NetTopologySuite.Geometries.Point(37.5, 27.5)) < 3);
    }

    [Fact]
    public void A_known_step_calibrates()
    {
        // The areas lie on the blister's top and beside it: their true difference is given twice as large.
        const string areas = """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"class":"high"},"geometry":{"type":"Polygon","coordinates":[[[46,24],[49,24],[49,26],[46,26],[46,24]]]}},{"type":"Feature","properties":{"class":"low"},"geometry":{"type":"Polygon","coordinates":[[[20,15],[30,15],[30,35],[20,35],[20,15]]]}}]}""";
        var parameters = new Dictionary<string, string> { ["step"] = "420", ["step-areas"] = areas, ["form"] = "mean" };
        var scale = ReliefScene.Read(_scene.Photographs(ReliefScene.Ring(8)), parameters).Outcome.Figures.Single(f => f.Name == "height-scale");
        Assert.InRange(scale.Value!.Value, 1.85, 2.15);
        Assert.InRange(scale.Uncertainty!.Value, 0.001, 0.3);
        Assert.Equal("step-areas", Assert.Throws<InputProblem>(() => ReliefScene.Read(_scene.Photographs(ReliefScene.Ring(8)), new() { ["step"] = "420" })).Code);
        parameters["step-areas"] = areas.Replace("high", "x", StringComparison.Ordinal).Replace("low", "high", StringComparison.Ordinal).Replace("\"x\"", "\"low\"", StringComparison.Ordinal);
        Assert.Equal("step-not-seen", Assert.Throws<InputProblem>(() => ReliefScene.Read(_scene.Photographs(ReliefScene.Ring(8)), parameters)).Code);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Unknown_lamps_are_estimated_but_for_hills_and_hollows(bool oneIsKnown)
    {
        // Clockwise at uneven steps, so that nothing but the photographs tells the order.
        LampAngles[] ring = [.. new[] { 10.0, 60, 95, 150, 200, 260, 330 }.Select(a => new LampAngles(a, 25))];
        var images = _scene.Photographs(ring).Select(i => (i.Slot, i.Slot == "raking" && !(oneIsKnown && i.Image.Lamp == ring[0]) ? i.Image with { Lamp = null } : i.Slot == "raking" ? i.Image : i.Image with { Lamp = null })).ToArray();
        var (outcome, rasters) = ReliefScene.Read(images, new() { ["estimate-lamps"] = "true", ["elevation"] = "25" });
        Assert.Contains(outcome.Warnings, w => w.Code == "lamps-estimated");
        var truth = Synthetic.Of(ReliefScene.Width, ReliefScene.Height, ReliefScene.HeightUm);
        Form.Remove(truth, 2);
        var r = Correlation.Pearson(rasters["height"][0].Data.Select(v => (double)v), truth.Data.Select(v => (double)v));
        TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant($"estimated lamps, one known {oneIsKnown}: r {r:0.000}"));
        Assert.InRange(oneIsKnown ? r : Math.Abs(r), 0.97, 1);
    }

    [Fact]
    public void Known_sphere_by_lamps_measured_on_itself()
    {
        var lamps = SphereScene.Ring(6, 50);
        (string, InputImage)[] images = [.. lamps.Select((l, k) => ("raking", _scene.Photograph(null, k, SphereScene.Photograph(l))))];
        var (_, rasters) = ReliefScene.Read(images, new() { ["ball"] = "matte", ["ball-x"] = "60", ["ball-y"] = "60", ["ball-radius"] = "55" });
        var errors = SphereScene.Errors(new SurfaceNormals(rasters["normals"][0], rasters["normals"][1], rasters["albedo"][0], rasters["confidence"][0]), lamps, 4);
        Assert.InRange(errors.Average(), 0, 0.05);
    }

    [Fact]
    public void Photographs_out_of_place_are_warned_of_and_disagreeing_ones_refused()
    {
        var outcome = ReliefScene.Read(_scene.Photographs(ReliefScene.Ring(8), moved: k => k == 3 ? 1 : 0)).Outcome;
        Assert.Contains("3.tif", Assert.Single(outcome.Warnings, w => w.Code == "frame-shift").Message, StringComparison.Ordinal);
        // Each shows another part of the surface: nothing is aligned.
        var problem = Assert.Throws<InputProblem>(() => ReliefScene.Read(_scene.Photographs(ReliefScene.Ring(8), moved: k => 29 * k)));
        Assert.Equal("frames-disagree", problem.Code);
        TestContext.Current.SendDiagnosticMessage(problem.Message);
    }

    [Fact]
    public void Invalid_input_is_refused_with_the_remedy()
    {
        string Code((string Slot, InputImage Image)[] images, Dictionary<string, string>? parameters = null)
        {
            var problem = Assert.Throws<InputProblem>(() => ReliefScene.Read(images, parameters));
            Assert.NotEmpty(problem.Remedy);
            return problem.Code;
        }
        LampAngles[] ring = ReliefScene.Ring(4);
        Assert.Equal("input-count", Code(_scene.Photographs(ReliefScene.Ring(2))));
        Assert.Equal("lamps-coplanar", Code(_scene.Photographs([new(90, 20), new(270, 30), new(90, 50)])));
        Assert.Equal("lamp-horizon", Code(_scene.Photographs(ring), new() { ["lamps"] = "file,azimuth,elevation\n1.tif,90,-5" }));
        Assert.Equal("frame-clipped", Code(_scene.Photographs(ring, exposure: 3)));
        Assert.Equal("lamp-unknown", Code(_scene.Photographs([ring[0], null, ring[2], ring[3]], false)));
        Assert.Equal("lamp-elevation", Code(_scene.Photographs([.. ring.Select(l => l with { Elevation = null })], false)));
        Assert.Equal("board-missing", Code([.. _scene.Photographs(ring)[..7]]));
        Assert.Equal("ball-circle", Code(_scene.Photographs(ring), new() { ["ball"] = "mirror" }));
        Assert.Equal("lamp-elevation", Code(_scene.Photographs([null, .. ReliefScene.Ring(5)], false), new() { ["estimate-lamps"] = "true" }));
        Assert.Equal("lamps-not-estimated", Code(_scene.Photographs([null, .. ring[1..]], false), new() { ["estimate-lamps"] = "true", ["elevation"] = "25" }));
        Assert.Equal("lamp-mixed", Code(_scene.Photographs(ring), new() { ["lamps"] = "file,x,y,z\n1.tif,90,5,100" }));
        Assert.Equal("lamp-list", Code(_scene.Photographs(ring), new() { ["lamps"] = "file,azimuth\n1.tif,90" }));
        Assert.Equal("no-scale", Code([.. _scene.Photographs(ring).Select(i => (i.Slot, i.Image with { Scale = null }))]));
    }

    [Fact]
    public void Extreme_photographs_have_no_answer_or_a_warning()
    {
        var dark = ReliefScene.Read(_scene.Photographs(ReliefScene.Ring(3), false, exposure: 0)).Outcome;
        Assert.NotNull(dark.NoAnswer);
        var outcome = ReliefScene.Read(_scene.Photographs([.. ReliefScene.Ring(3).Select(l => l with { Elevation = null })], false), new() { ["elevation"] = "25" }).Outcome;
        Assert.Equal(["no-boards", "three-lamps"], outcome.Warnings.Select(w => w.Code));
    }
}
