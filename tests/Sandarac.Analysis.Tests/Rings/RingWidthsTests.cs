using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Rings.Measuring;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Rings;

public class RingWidthsTests
{
    private const double Mm = 0.05;

    /// <summary>The truth is drawn. F1 of boundaries found within 2 pixels, and the median error of widths between two that were both found, over ten seeds each.</summary>
    [Theory]
    [InlineData("plain", 0.99, 0.02)]
    [InlineData("noisy", 0.95, 0.03)]
    [InlineData("faint", 0.95, 0.03)]
    [InlineData("leaning", 0.99, 0.02)]
    [InlineData("steep", 0.98, 0.02)]
    [InlineData("bowed", 0.98, 0.02)]
    [InlineData("rays-and-cracks", 0.98, 0.02)]
    [InlineData("narrow", 0.95, 0.02)]
    [InlineData("pored", 0.95, 0.03)]
    [InlineData("all", 0.90, 0.04)]
    public void Drawn_rings_are_found_and_measured(string kind, double f1, double errorMm)
    {
        var (hits, found, truth, errors, inside) = (0, 0, 0, new List<double>(), 0);
        for (var seed = 1; seed <= 10; seed++)
        {
            var wood = Kind(kind) with { Seed = seed };
            var outcome = Read(wood.Draw(), new() { ["narrowest"] = kind is "narrow" or "all" ? "0.2" : "0.4" });
            var at = Figures(outcome, "boundary-x").Select(f => f.Value!.Value).ToList();
            var truths = wood.Boundaries.Where(b => b > 6 && b < wood.Width - 6).ToList();
            var pairs = at.Select(a => truths.Where(t => Math.Abs(t - a) < 2).Select(t => (int?)truths.IndexOf(t)).FirstOrDefault()).ToList();
            (hits, found, truth) = (hits + pairs.OfType<int>().Distinct().Count(), found + at.Count(a => a > 6 && a < wood.Width - 6), truth + truths.Count);
            var widths = Figures(outcome, "ring-width").ToList();
            for (var i = 0; i + 1 < pairs.Count; i++)
                if (pairs[i] is { } p && pairs[i + 1] == p + 1)
                {
                    errors.Add(Math.Abs(widths[i].Value!.Value - (truths[p + 1] - truths[p]) * Math.Cos(wood.Lean * Math.PI / 180) * Mm));
                    inside += errors[^1] <= widths[i].Uncertainty ? 1 : 0;
                }
        }
        errors.Sort();
        var score = 2.0 * hits / (found + truth);
        TestContext.Current.SendDiagnosticMessage(string.Create(CultureInfo.InvariantCulture, $"{kind}: F1 {score:0.000} ({hits} of {truth}, {found} found), width error median {errors[errors.Count / 2]:0.0000} mm, 95 % {errors[errors.Count * 95 / 100]:0.0000}, inside the interval {100.0 * inside / errors.Count:0} %"));
        Assert.True(score >= f1, $"F1 {score}");
        Assert.True(errors[errors.Count / 2] <= errorMm, $"median error {errors[errors.Count / 2]}");
    }

    /// <summary>Boards without rings in ten seeds each: even, rough in grain, with a crack along a ring, with a blurred gradient, with rays alone.</summary>
    [Theory]
    [InlineData("even")]
    [InlineData("noise")]
    [InlineData("gradient")]
    [InlineData("blotches")]
    [InlineData("rays")]
    public void A_board_without_rings_has_no_answer(string kind)
    {
        for (var seed = 1; seed <= 10; seed++)
        {
            var (random, wood) = (new Random(seed), new DrawnEndGrain { Seed = seed, Contrast = 0, Noise = kind == "even" ? 0 : 0.05, Rays = kind == "rays" ? 100 : 0, Cracks = kind == "rays" ? 3 : 0 });
            var drawn = wood.Draw();
            (double X, double Y, double R)[] blots = [.. Enumerable.Range(0, 400).Select(_ => (random.NextDouble() * wood.Width, random.NextDouble() * wood.Height, 4 + 8 * random.NextDouble()))];
            if (kind == "blotches") drawn = Synthetic.Of(wood.Width, wood.Height, (x, y) => drawn[(int)x, (int)y] - 9000 * blots.Count(b => Math.Pow(x - b.X, 2) + Math.Pow(y - b.Y, 2) < b.R * b.R));
            if (kind == "gradient") drawn = Synthetic.Of(wood.Width, wood.Height, (x, y) => drawn[(int)x, (int)y] + 12000 * Math.Sin(x / 150));
            var outcome = Read(drawn);
            Assert.True(outcome.NoAnswer is not null, $"{kind}, seed {seed}: {Figures(outcome, "rings").First().Value} rings");
            Assert.Empty(outcome.Candidates);
        }
    }

    [Fact]
    public void A_reversed_line_or_tone_is_noticed_and_both_reversed_are_not()
    {
        var wood = new DrawnEndGrain { Noise = 0.03 };
        var drawn = wood.Draw();
        Dictionary<string, string> inward = new() { ["from-x"] = "1400", ["from-y"] = "80", ["to-x"] = "0", ["to-y"] = "80" };
        Assert.DoesNotContain(Read(drawn).Warnings, w => w.Code.StartsWith("rings-", StringComparison.Ordinal));
        Assert.Contains(Read(drawn, inward).Warnings, w => w.Code == "rings-reversed");
        Assert.Contains(Read(drawn, new() { ["latewood"] = "light" }).Warnings, w => w.Code == "rings-reversed");
        var negative = Read(drawn.Select(v => 65535 - v), new() { ["latewood"] = "light" });
        Assert.Equal(Figures(Read(drawn), "ring-width").Select(f => Math.Round(f.Value!.Value, 4)), Figures(negative, "ring-width").Select(f => Math.Round(f.Value!.Value, 4)));
    }

    /// <summary>A turned photograph has the same rings: 90 degrees exactly, and the cut's angle by its cosine.</summary>
    [Fact]
    public void A_turned_photograph_and_an_oblique_cut_measure_alike()
    {
        var drawn = new DrawnEndGrain { Lean = 8 }.Draw();
        var turned = Synthetic.Of(drawn.Height, drawn.Width, (x, y) => drawn[(int)y, drawn.Height - 1 - (int)x]);
        var (one, other, oblique) = (Read(drawn), Read(turned), Read(drawn, new() { ["obliquity"] = "60" }));
        Assert.Equal(Figures(one, "ring-width").Select(f => f.Value!.Value), Figures(other, "ring-width").Select(f => f.Value!.Value), (a, b) => Math.Abs(a - b) < 0.003);
        Assert.Equal(Figures(one, "ring-width").Select(f => 0.5 * f.Value!.Value), Figures(oblique, "ring-width").Select(f => f.Value!.Value), (a, b) => Math.Abs(a - b) < 1e-9);
        var lean = Figures(one, "lean").First();
        Assert.Equal(8, lean.Value!.Value, 1.0);
    }

    [Theory]
    [InlineData("ring-line", "from-x", "10")]
    [InlineData("ring-line", "from-x,from-y,to-x,to-y", "10,10,20,10")]
    [InlineData("ring-line", "from-x,from-y,to-x,to-y", "10,10,5000,10")]
    [InlineData("rings-too-fine", "narrowest", "0.1")]
    [InlineData("parameter-value", "latewood", "green")]
    [InlineData("parameter-value", "obliquity", "90")]
    public void Invalid_lines_and_values_are_refused(string code, string names, string values)
    {
        var given = names.Split(',').Zip(values.Split(',')).ToDictionary(p => p.First, p => p.Second);
        Assert.Equal(code, Assert.Throws<InputProblem>(() => Read(new DrawnEndGrain().Draw(), given)).Code);
    }

    [Fact]
    public void Extreme_pictures_are_read_or_have_no_answer()
    {
        foreach (var (width, height) in new[] { (70, 1), (1, 70), (64, 64), (2000, 3) })
            Assert.NotNull(Read(Synthetic.Of(width, height, (_, _) => 1000)).NoAnswer);
        Assert.NotNull(Read(Synthetic.Of(400, 100, (_, _) => double.NaN)).NoAnswer);
    }

    [Fact]
    public void Without_a_scale_the_remedy_says_how_to_give_one()
    {
        using var folder = new TempFolder();
        var file = TestTiff.Write16(folder["wood.tif"], new DrawnEndGrain().Draw());
        Assert.Equal("no-scale", Assert.Throws<InputProblem>(() => TestRun.Of(new RingWidthsReading(), [("wood", TestRun.Open(file))])).Code);
    }

    private static DrawnEndGrain Kind(string kind) => kind switch
    {
        "noisy" => new() { Noise = 0.1 },
        "faint" => new() { Contrast = 0.08 },
        "leaning" => new() { Lean = 12 },
        "steep" => new() { Lean = 30, Median = 30 },
        "bowed" => new() { Radius = 600 },
        "rays-and-cracks" => new() { Rays = 60, Cracks = 3 },
        "narrow" => new() { Median = 9, Least = 4.5, Blur = 0.8 },
        "pored" => new() { Pores = 60 },
        "all" => new() { Noise = 0.05, Contrast = 0.2, Lean = 10, Radius = 1500, Rays = 40, Cracks = 2, Pores = 30, Median = 14, Least = 5 },
        _ => new(),
    };

    private static Outcome Read(Plane drawn, Dictionary<string, string>? parameters = null)
    {
        using var folder = new TempFolder();
        return TestRun.Of(new RingWidthsReading(), [("wood", TestRun.Open(TestTiff.Write16(folder["wood.tif"], drawn), mmPerPixel: Mm))], parameters ?? []).Outcome;
    }

    private static IEnumerable<Figure> Figures(Outcome outcome, string name) => outcome.Figures.Where(f => f.Name == name);
}
