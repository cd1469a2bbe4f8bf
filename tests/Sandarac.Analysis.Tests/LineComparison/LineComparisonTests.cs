using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.LineComparison;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.LineComparison;

public class LineComparisonTests
{
    private const double Mm = 0.25, Right = 0.15, Down = -0.1;

    /// <summary>Drawn lines, 60 mm each: four in both, in as many directions and shifted in the second by a known way; one in the first only, two in the second only.</summary>
    [Fact]
    public void Known_lines_are_told_apart_and_the_shift_of_shared_ones_is_measured()
    {
        using var folder = new TempFolder();
        var (outcome, rasters) = Compare(folder, Plane([.. Shared(0, 0), new(20, 85, 0)], 1), Plane([.. Shared(Right, Down), new(20, 92, 0), new(124, 20, 1.45)], 2));
        foreach (var (subject, count) in ((string, int)[])[("first only", 1), ("both", 4), ("second only", 2)])
        {
            Assert.Equal(count, Figure(outcome, "lines", subject).Value);
            var length = Figure(outcome, "line-length", subject);
            Assert.InRange(Math.Abs(length.Value!.Value - 60 * count), 0, length.Uncertainty!.Value);
        }
        foreach (var (subject, truth) in ((string, double)[])[("to the right", Right), ("down", Down)])
        {
            var shift = Figure(outcome, "shift", subject);
            Assert.Equal(truth, shift.Value!.Value, 0.02);
            Assert.InRange(shift.Uncertainty!.Value, 0, 0.05);
        }
        var only = Assert.Single(outcome.Candidates, c => c.Kind == "line-only-in-ir");
        Assert.All(only.Geometry.Coordinates, c => Assert.InRange(c.Y, 84.8, 85.2));
        Assert.Contains("VIS (v.tif) no darker there", only.Reason, StringComparison.Ordinal);
        Assert.Equal(2, outcome.Candidates.Count(c => c.Kind == "line-only-in-vis"));
        // Values without a profile are taken for sRGB: about 0.5 light's logarithm changes 2.4 x 0.5 / 0.555 times as much as theirs, of which smoothing leaves nine tenths and more.
        Assert.InRange(rasters["lines-first"][0][200, 340], 0.9f * 2.16f * 0.3f, 2.16f * 0.3f);
        Assert.InRange(rasters["lines-second"][0][200, 340], -0.05f, 0.05f);
    }

    /// <summary>Lines that all run one way tell nothing of a shift along them.</summary>
    [Fact]
    public void Along_parallel_lines_there_is_no_shift()
    {
        using var folder = new TempFolder();
        Stroke[] lines = [new(20, 20, 0), new(20, 40, 0), new(20, 60, 0), new(20, 80, 0)];
        var outcome = Compare(folder, Plane(lines, 1), Plane([.. lines.Select(l => l with { Y = l.Y + 0.2 })], 2)).Outcome;
        Assert.Equal(0.2, Figure(outcome, "offset").Value!.Value, 0.02);
        Assert.Null(Figure(outcome, "shift", "down").Value);
    }

    [Fact]
    public void Extreme_even_planes_have_no_lines_and_planes_without_data_no_answer()
    {
        using var folder = new TempFolder();
        var (even, none) = (Synthetic.Of(200, 150, (_, _) => 0.5), Synthetic.Of(200, 150, (_, _) => double.NaN));
        var outcome = Compare(folder, even, even).Outcome;
        Assert.Equal(0, Figure(outcome, "line-length", "both").Value);
        Assert.Null(Figure(outcome, "offset").Value);
        Assert.NotNull(Compare(folder, even, none).Outcome.NoAnswer);
        Assert.Equal(0, Figure(Compare(folder, Synthetic.Of(1, 1, (_, _) => 0.5), Synthetic.Of(1, 1, (_, _) => 0.5)).Outcome, "line-length", "both").Value);
    }

    [Fact]
    public void Lines_too_fine_for_the_photographs_have_no_answer()
    {
        using var folder = new TempFolder();
        Assert.Contains("too few", Compare(folder, Plane(Shared(0, 0), 1), Plane(Shared(0, 0), 2), "0.4").Outcome.NoAnswer, StringComparison.Ordinal);
    }

    [Fact]
    public void Tiles_and_threads_change_no_number()
    {
        using var folder = new TempFolder();
        var (first, second) = (Plane(Shared(0, 0), 1), Plane(Shared(Right, Down), 2));
        var (whole, tiled) = (Compare(folder, first, second, tiling: new Tiling(int.MaxValue, 1)), Compare(folder, first, second, tiling: new Tiling(97, 3)));
        Assert.Equal(whole.Outcome.Figures, tiled.Outcome.Figures);
        foreach (var (name, bands) in whole.Rasters) Assert.True(bands[0].Data.AsSpan().SequenceEqual(tiled.Rasters[name][0].Data), name);
    }

    /// <summary>A line 60 mm long from a place on, mm, at an angle.</summary>
    private sealed record Stroke(double X, double Y, double Turn);

    private static Stroke[] Shared(double right, double down) => [new(20 + right, 15 + down, 0.3), new(20 + right, 60 + down, -0.2), new(100 + right, 20 + down, 1.3), new(88 + right, 20 + down, 1.4)];

    /// <summary>Paper with tone and noise; lines three tenths darker (as a logarithm), with a Gaussian profile about 1 mm wide.</summary>
    private static Plane Plane(IReadOnlyList<Stroke> lines, int seed) => Synthetic.Of(560, 440, (x, y) =>
    {
        var depth = 0.0;
        foreach (var l in lines)
        {
            var (sin, cos) = Math.SinCos(l.Turn);
            var (along, aside) = ((x * Mm - l.X) * cos + (y * Mm - l.Y) * sin, (y * Mm - l.Y) * cos - (x * Mm - l.X) * sin);
            if (along is > 0 and < 60) depth += 0.3 * Math.Exp(-0.5 * aside * aside / (0.4 * 0.4));
        }
        return (0.5 + 0.1 * Math.Sin(x / 90)) * Math.Exp(-depth);
    }).AddNoise(0.004, seed);

    private static (Outcome Outcome, Dictionary<string, Plane[]> Rasters) Compare(TempFolder folder, Plane first, Plane second, string width = "1", Tiling? tiling = null) => TestRun.Of(new LineComparisonReading(),
        [("first", TestRun.Open(TestTiff.WriteFloat(folder["i.tif"], first), Light.Infrared, Mm)), ("second", TestRun.Open(TestTiff.WriteFloat(folder["v.tif"], second), Light.Visible, Mm))], new() { ["line-width"] = width }, tiling);

    private static Figure Figure(Outcome outcome, string name, string? subject = null) => outcome.Figures.Single(f => f.Name == name && f.Subject == subject);
}
