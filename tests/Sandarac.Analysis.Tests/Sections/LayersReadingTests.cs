using System.Text.Json;
using NetTopologySuite.Geometries;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Colour;
using Sandarac.Specimen.Scoring;
using Sandarac.Specimen.Sections;

namespace Sandarac.Analysis.Tests.Sections;

/// <summary>Witness: drawn sections, whose truth is known, and images of bands drawn by a formula.</summary>
public class LayersReadingTests
{
    private static readonly (double At, float Red, float Green, float Blue)[] Bands = [(0, 0.60f, 0.60f, 0.58f), (60, 0.35f, 0.28f, 0.20f), (90, 0.75f, 0.30f, 0.25f), (110, 0.25f, 0.35f, 0.55f), (170, 0.60f, 0.60f, 0.58f)];

    /// <summary>Bands in a resin, turned by so many degrees, thicknesses 30, 20 and 60 pixels from the surface down.</summary>
    internal static Plane[] Drawn(double degrees, double blur = 1, double noise = 0.015, double soft = 0, float weak = 0, (double At, float Red, float Green, float Blue)[]? bands = null)
    {
        var (c, s) = (Math.Cos(degrees * Math.PI / 180), Math.Sin(degrees * Math.PI / 180));
        var drawn = bands ?? Bands;
        Plane One(Func<(double, float Red, float Green, float Blue), float> of, int seed) => Synthetic.Of(420, 260, (x, y) =>
        {
            double Light((double, float Red, float Green, float Blue) band) => Srgb.ToLight(of(band));
            var across = 115 + c * (y - 130) - s * (x - 210);
            // A lens mixes light, not its encoding.
            return 65535 * (float)Srgb.ToEncoded(Light(drawn[0]) + Enumerable.Range(1, drawn.Length - 1).Sum(k => (Light(drawn[k]) - Light(drawn[k - 1])) * Synthetic.BlurredStep((across - drawn[k].At) / (k == 3 ? Math.Max(blur, soft) : blur)))
                + weak * (Synthetic.BlurredStep((across - 140) / blur) - Synthetic.BlurredStep((across - 170) / blur)));
        }).AddNoise(65535 * noise, seed);
        return [One(b => b.Red, 1), One(b => b.Green, 2), One(b => b.Blue, 3)];
    }

    private static Outcome Read(TempFolder folder, Plane[] bands, double? mmPerPixel = 0.0004, Dictionary<string, string>? parameters = null) =>
        TestRun.Of(new LayersReading(), [("visible", TestRun.Open(TestTiff.Write16(folder["vis.tif"], bands), null, mmPerPixel))], parameters).Outcome;

    private static double Value(Outcome outcome, string figure, int layer) => outcome.Figures.Single(f => f.Name == figure && f.Subject == $"layer {layer}").Value!.Value;

    [Theory]
    [InlineData(0)]
    [InlineData(-11)]
    public void KnownBandsAreMeasured(double degrees)
    {
        using var folder = new TempFolder();
        var outcome = Read(folder, Drawn(degrees));
        Assert.Null(outcome.NoAnswer);
        Assert.Equal(3, outcome.Figures.Single(f => f.Name == "layers").Value);
        foreach (var (layer, px) in new[] { (1, 60.0), (2, 20), (3, 30) })
        {
            var mean = outcome.Figures.Single(f => f.Name == "thickness-mean" && f.Subject == $"layer {layer}");
            Assert.Equal(0.4 * px, mean.Value!.Value, 0.2);
            Assert.True(mean.Uncertainty > 0);
            Assert.Equal(100, Value(outcome, "coverage", layer), 0.5);
        }
    }

    /// <summary>The boundary between the two lower layers is soft: what is stated for its place grows with the width of the transition, and the layers are still right within it.</summary>
    [Fact]
    public void SoftBoundariesAreStatedAsLessCertain()
    {
        using var folder = new TempFolder();
        var (sharp, soft) = (Read(folder, Drawn(0)), Read(folder, Drawn(0, soft: 3)));
        foreach (var (layer, px) in new[] { (1, 60.0), (2, 20) })
        {
            Figure Mean(Outcome o) => o.Figures.Single(f => f.Name == "thickness-mean" && f.Subject == $"layer {layer}");
            Assert.True(Mean(soft).Uncertainty > 1.5 * Mean(sharp).Uncertainty);
            Assert.Equal(0.4 * px, Mean(soft).Value!.Value, Mean(soft).Uncertainty!.Value);
        }
    }

    [Fact]
    public void MildBlurIsMeasuredWithinItsUncertainty()
    {
        using var folder = new TempFolder();
        var outcome = Read(folder, Drawn(0, 2));
        foreach (var (layer, px) in new[] { (1, 60.0), (2, 20), (3, 30) })
        {
            var mean = outcome.Figures.Single(f => f.Name == "thickness-mean" && f.Subject == $"layer {layer}");
            Assert.Equal(0.4 * px, mean.Value!.Value, mean.Uncertainty!.Value);
        }
    }

    /// <summary>Blurred so far that a thin layer may be lost, there is no answer, a warning, or what is right within its uncertainty.</summary>
    [Theory]
    [InlineData(2.5)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(6)]
    public void StrongBlurGivesNothingWrongUnsaid(double blur)
    {
        using var folder = new TempFolder();
        var outcome = Read(folder, Drawn(0, blur));
        if (outcome.NoAnswer is not null || outcome.Warnings.Any(w => w.Code == "soft-boundaries")) return;
        Assert.Equal(3, outcome.Figures.Single(f => f.Name == "layers").Value);
        foreach (var (layer, px) in new[] { (1, 60.0), (2, 20), (3, 30) })
        {
            var mean = outcome.Figures.Single(f => f.Name == "thickness-mean" && f.Subject == $"layer {layer}");
            Assert.Equal(0.4 * px, mean.Value!.Value, mean.Uncertainty!.Value);
        }
    }

    [Fact]
    public void SharpBoundariesAreNotCalledBlurred()
    {
        using var folder = new TempFolder();
        Assert.DoesNotContain(Read(folder, Drawn(0)).Warnings, w => w.Code == "soft-boundaries");
    }

    [Fact]
    public void SingleLayerIsMeasuredAndNamed()
    {
        using var folder = new TempFolder();
        var outcome = Read(folder, Drawn(0, bands: [Bands[0], Bands[1], Bands[4]]));
        Assert.Equal(0.4 * 110, Value(outcome, "thickness-mean", 1), 0.2);
        Assert.Contains(outcome.Warnings, w => w.Code == "single-layer");
    }

    /// <summary>What luminesces lies at the bottom, between paint, or at the surface.</summary>
    [Theory]
    [InlineData(110, 170, 0.0, true)]
    [InlineData(90, 110, null, false)]
    [InlineData(60, 90, 1.0, false)]
    public void VarnishBelowPaintIsNotCounted(double from, double to, double? coats, bool isUpsideDown)
    {
        using var folder = new TempFolder();
        (double, float, float, float) Glow(double at, float light) => (at, 0.8f * light, light, light);
        var visible = TestRun.Open(TestTiff.Write16(folder["vis.tif"], Drawn(0)), null, 0.0004);
        var luminescence = TestRun.Open(TestTiff.Write16(folder["uv.tif"], Drawn(0, bands: [Glow(0, 0.3f), Glow(from, 0.6f), Glow(to, 0.3f)])));
        var outcome = TestRun.Of(new LayersReading(), [("visible", visible), ("luminescence", luminescence)]).Outcome;
        Assert.Equal(coats, outcome.Figures.Single(f => f.Name == "varnish-coats").Value);
        Assert.Equal(isUpsideDown, outcome.Warnings.Any(w => w.Code == "upside-down"));
    }

    /// <summary>The lowest layer's lower half is a little lighter, by less than the least difference of layers.</summary>
    [Fact]
    public void WeakBoundariesWithinALayerMakeSublayers()
    {
        using var folder = new TempFolder();
        var (even, weak) = (Read(folder, Drawn(0)), Read(folder, Drawn(0, weak: 0.012f)));
        Assert.DoesNotContain(even.Figures, f => f.Name == "sublayers");
        Assert.Equal(3, weak.Figures.Single(f => f.Name == "layers").Value);
        var parts = Assert.Single(weak.Figures, f => f.Name == "sublayers");
        Assert.Equal((2.0, "layer 1"), (parts.Value!.Value, parts.Subject));
        Assert.All(new[] { "a", "b" }, letter => Assert.Equal(0.4 * 30, weak.Figures.Single(f => f.Name == "thickness-mean" && f.Subject == $"layer 1{letter}").Value!.Value, 0.8));
        Assert.Equal(Value(even, "thickness-mean", 1), Value(weak, "thickness-mean", 1), 0.2);
        Assert.Equal(155, Assert.Single(weak.Candidates, c => c.Kind == "sublayer-boundary").Geometry.Centroid.Y, 1.5);
    }

    [Fact]
    public void ObliquityMakesLayersThinner()
    {
        using var folder = new TempFolder();
        var outcome = Read(folder, Drawn(0), parameters: new() { ["obliquity"] = "30" });
        Assert.Equal(0.4 * 60 * Math.Cos(Math.PI / 6), Value(outcome, "thickness-mean", 1), 0.2);
        Assert.Contains(outcome.Warnings, w => w.Code == "oblique-cut");
    }

    [Fact]
    public void WithoutAScaleFiguresAreInPixels()
    {
        using var folder = new TempFolder();
        var outcome = Read(folder, Drawn(0), null);
        Assert.Equal(60, Value(outcome, "thickness-mean-px", 1), 0.5);
        Assert.DoesNotContain(outcome.Figures, f => f.Name == "thickness-mean");
        Assert.Contains(outcome.Warnings, w => w.Code == "no-scale");
    }

    [Fact]
    public void InvalidImagesGiveNoAnswer()
    {
        using var folder = new TempFolder();
        Plane[] even = [.. Enumerable.Range(0, 3).Select(_ => new Plane(200, 150).Select(_ => 30_000f))];
        Plane[] noise = [.. even.Select((p, i) => p.AddNoise(6000, i))];
        Plane[] squares = [.. even.Select((_, b) => Synthetic.Of(200, 150, (x, y) => 20_000 + 30_000 * ((int)(x / 17 + b) * 7 + (int)(y / 13) * 11) % 30_000))];
        foreach (var bands in (Plane[][])[even, noise, squares, Drawn(0, 25, 0.002)]) Assert.NotNull(Read(folder, bands).NoAnswer);
        var small = Assert.Throws<InputProblem>(() => Read(folder, [new Plane(20, 20)]));
        Assert.Equal("too-small", small.Code);
    }

    /// <summary>A click where there is no boundary asks for one there; a click on one holds it.</summary>
    [Fact]
    public void ClickedBoundariesPassThroughTheirClicks()
    {
        using var folder = new TempFolder();
        Coordinate[] clicks = [new(100, 75.4), new(300, 105.2), new(210, 185)];
        var outcome = Read(folder, Drawn(0), parameters: new() { ["boundaries"] = "clicked", ["clicks"] = Clicks(clicks) });
        var lines = outcome.Candidates.Where(c => c.Kind == "layer-boundary").Select(c => c.Geometry).ToArray();
        Assert.Equal(3, lines.Length);
        Assert.All(clicks, c => Assert.True(lines.Min(l => l.Distance(new Point(c))) < 1.6));
        Assert.Equal("clicks", Assert.Throws<InputProblem>(() => Read(folder, Drawn(0), parameters: new() { ["clicks"] = Clicks([new(9000, 5)]) })).Code);
        Assert.Equal("clicks", Assert.Throws<InputProblem>(() => Steering.Read("[1, 2]")).Code);
    }

    /// <summary>Seed 1003: seven layers, one of them not everywhere.</summary>
    [Fact]
    public void DrawnSectionIsFollowed()
    {
        using var folder = new TempFolder();
        SectionSpecimens.Draw(1003, folder.Path, cancellation: TestContext.Current.CancellationToken);
        var truth = SectionScore.Read(folder.Path, 1003);
        InputImage Photograph(string light) => TestRun.Open(Path.Combine(folder.Path, "photographs", SectionSpecimens.FileName(1003, light)), null, truth.UmPerPixel / 1000);
        var outcome = TestRun.Of(new LayersReading(), [("visible", Photograph("VIS")), ("luminescence", Photograph("UV"))], new() { ["boundaries"] = "clicked", ["clicks"] = Clicks([.. Enumerable.Range(0, truth.Layers + 1).Select(b => truth.Click(b, 0.5))]) }).Outcome;
        LineString[] lines = [.. outcome.Candidates.Where(c => c.Kind == "layer-boundary").Select(c => (LineString)c.Geometry)];
        Assert.Equal(truth.Layers + 1, lines.Length);
        Assert.All(Enumerable.Range(0, lines.Length), b => Assert.True(truth.MeanError(b, lines[b]) <= 1));
    }

    private static string Clicks(Coordinate[] places) => JsonSerializer.Serialize(new
    {
        type = "FeatureCollection",
        features = places.Select(c => new { type = "Feature", properties = new { }, geometry = new { type = "Point", coordinates = new[] { c.X, c.Y } } }),
    });
}
