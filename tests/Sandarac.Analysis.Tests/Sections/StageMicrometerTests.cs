using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections;
using Sandarac.Analysis.Sections.Scales;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Sections;

/// <summary>Witnesses: a picture whose ruling numpy and scipy measured (References/Sections/SOURCE.md), and rulings drawn by a formula.</summary>
public class StageMicrometerTests
{
    private static string Reference(string name) => Path.Combine(AppContext.BaseDirectory, "References", "Sections", name);

    /// <summary>Dark lines of a fifth of a step, blurred so that they are drawn right at any turn, light falling off to the corners.</summary>
    private static Plane Ruled(double step, double degrees, double fallOff = 0.3, double noise = 0.02, int width = 300, int height = 220)
    {
        var (s, c) = Math.SinCos(degrees * Math.PI / 180);
        double Ink(double u) => Synthetic.BlurredStep((u - 0.4) * step / 1.2) - Synthetic.BlurredStep((u - 0.6) * step / 1.2);
        return Synthetic.Of(width, height, (x, y) =>
        {
            var (dx, dy) = (x - width / 2.0, y - height / 2.0);
            var u = (dx * c + dy * s) / step + 0.2;
            return 65535 * (0.8 - 0.6 * Ink(u - Math.Floor(u))) * (1 - fallOff * (dx * dx + dy * dy) / (width * width / 4.0 + height * height / 4.0));
        }).AddNoise(65535 * noise, 3).Select(v => Math.Clamp(v, 0, 65535));
    }

    private static Outcome Read(Plane picture, bool asFloat = false, Dictionary<string, string>? parameters = null)
    {
        using var folder = new TempFolder();
        var file = asFloat ? TestTiff.WriteFloat(folder["m.tif"], picture) : TestTiff.Write16(folder["m.tif"], picture);
        return TestRun.Of(new StageMicrometerReading(), [("micrometer", TestRun.Open(file))], parameters).Outcome;
    }

    private static Figure Get(Outcome outcome, string name) => outcome.Figures.Single(f => f.Name == name);

    [Fact]
    public void KnownPictureAgreesWithOtherMethods()
    {
        var outcome = TestRun.Of(new StageMicrometerReading(), [("micrometer", TestRun.Open(Reference("micrometer.png")))]).Outcome;
        var lines = File.ReadLines(Reference("micrometer.csv")).Skip(1).Select(l => l.Split(',')).ToDictionary(p => p[0], p => double.Parse(p[1], CultureInfo.InvariantCulture));
        var step = Get(outcome, "step");
        Assert.Equal(lines["drawn"], step.Value!.Value, step.Uncertainty!.Value);
        Assert.InRange(step.Uncertainty.Value, 1e-4, 0.02);
        Assert.Equal(lines["numpy.fft"], step.Value.Value, 0.01);
        Assert.Equal(lines["scipy.signal.find_peaks"], step.Value.Value, 0.01);
        Assert.Equal(10 / lines["drawn"], Get(outcome, "um-per-pixel").Value!.Value, 1e-3);
        Assert.Equal(21, Get(outcome, "direction").Value!.Value, 0.1);
        Assert.Equal(5, Get(outcome, "longer-every").Value);
        Assert.Empty(outcome.Warnings);
    }

    [Theory]
    [InlineData(7.3, 0)]
    [InlineData(7.3, 90)]
    [InlineData(5.1, -38)]
    [InlineData(31, 12)]
    [InlineData(16.4, 77)]
    public void KnownStepsAreFoundAtAnyTurn(double step, double degrees)
    {
        var outcome = Read(Ruled(step, degrees), parameters: new() { ["division"] = "50" });
        Assert.True(outcome.NoAnswer is null, outcome.NoAnswer);
        var um = Get(outcome, "um-per-pixel");
        Assert.Equal(50 / step, um.Value!.Value, 1e-3 * 50 / step);
        Assert.Equal(0, Math.IEEERemainder(Get(outcome, "direction").Value!.Value - degrees, 180), 0.2);
        // All ticks are alike: nothing checks the division.
        Assert.Contains(outcome.Warnings, w => w.Code == "longer-ticks-not-seen");
    }

    public static TheoryData<string, Plane> NoRulings
    {
        get
        {
            Plane Even(double v) => Synthetic.Of(220, 160, (_, _) => v);
            Plane Cloth(double uneven) => Synthetic.Of(220, 160, (x, y) =>
            {
                var (u, v) = (x / 9 + uneven * Math.Sin(x / 23), y / 9 + uneven * Math.Cos(y / 31));
                return 20_000 + 30_000 * Math.Abs(Math.Sin(Math.PI * (((int)u + (int)v) % 2 == 0 ? u : v)));
            });
            return new()
            {
                { "blank", Even(30_000) }, { "noise", Even(30_000).AddNoise(6000, 1) }, { "cloth", Cloth(0) }, { "uneven cloth", Cloth(0.4) },
                { "layers", Synthetic.Of(220, 160, (_, y) => y switch { < 40 => 20_000, < 52 => 50_000, < 80 => 12_000, < 88 => 40_000, < 130 => 30_000, _ => 20_000.0 }).AddNoise(1500, 2) },
                { "four lines", Ruled(60, 0) }, { "one pixel", new Plane(1, 1) }, { "a row", new Plane(400, 1) }, { "chequers", Synthetic.Of(220, 160, (x, y) => ((int)(x / 8) + (int)(y / 8)) % 2 * 40_000) },
            };
        }
    }

    [Theory]
    [MemberData(nameof(NoRulings))]
    public void WhatIsNoRulingHasNoAnswer(string what, Plane picture) => Assert.True(Read(picture).NoAnswer is not null, what);

    [Fact]
    public void ExtremeValuesOfAFloatFileChangeLittle()
    {
        var picture = Ruled(9, 15).Select(v => v / 65535);
        for (var x = 0; x < 60; x++) picture[x, 5] = x % 2 == 0 ? float.NaN : float.PositiveInfinity;
        Assert.Equal(9, Get(Read(picture, asFloat: true), "step").Value!.Value, 0.01);
        Assert.NotNull(Read(Synthetic.Of(100, 100, (_, _) => double.NaN), asFloat: true).NoAnswer);
    }

    private static Outcome Layers(Dictionary<string, string> parameters, Plane? micrometer = null)
    {
        using var folder = new TempFolder();
        (string, InputImage)[] images = [("visible", TestRun.Open(TestTiff.Write16(folder["vis.tif"], LayersReadingTests.Drawn(0)), null, 0.0004))];
        return TestRun.Of(new LayersReading(), micrometer is null ? images : [.. images, ("stage-micrometer", TestRun.Open(TestTiff.Write16(folder["m.tif"], micrometer)))], parameters).Outcome;
    }

    [Fact]
    public void LayersTakeTheScaleOfAStageMicrometer()
    {
        var outcome = Layers([], Ruled(12.5, 5));
        var um = Get(outcome, "um-per-pixel");
        Assert.Equal(0.8, um.Value!.Value, 1e-3);
        Assert.Equal("stage micrometer", um.Note);
        Assert.InRange(um.Uncertainty!.Value, 1e-7, 2e-3);
        Assert.Equal(0.8 * 60, outcome.Figures.Single(f => f.Name == "thickness-mean" && f.Subject == "layer 1").Value!.Value, 0.5);
        Assert.Contains(outcome.Warnings, w => w.Code == "longer-ticks-not-seen");
        Assert.Equal("stage-micrometer", Assert.Throws<InputProblem>(() => Layers([], Synthetic.Of(100, 100, (_, _) => 0.5))).Code);
    }

    /// <summary>3.45 um, binned by 2, through 20 x and 0.5 x: 0.69 um.</summary>
    [Fact]
    public void LayersTakeTheScaleOfObjectiveAndCamera()
    {
        var um = Get(Layers(new() { ["objective"] = "20", ["pixel-pitch"] = "3.45", ["adapter"] = "0.5", ["binning"] = "2" }), "um-per-pixel");
        Assert.Equal(0.69, um.Value!.Value, 1e-12);
        Assert.Equal(0.05 * 0.69, um.Uncertainty!.Value, 1e-12);
        Assert.StartsWith("objective and camera", um.Note, StringComparison.Ordinal);
        Assert.Equal("entered", Get(Layers(new() { ["um-per-pixel"] = "0.5" }), "um-per-pixel").Note);
        foreach (var lacking in (Dictionary<string, string>[])[new() { ["objective"] = "20" }, new() { ["pixel-pitch"] = "3" }, new() { ["binning"] = "2" }])
            Assert.Equal("objective-and-camera", Assert.Throws<InputProblem>(() => Layers(lacking)).Code);
    }
}
