using Sandarac.Analysis.Declaring;
using Sandarac.Benchmarks.Measuring;
using Figure = Sandarac.Benchmarks.Measuring.Figure;

namespace Sandarac.Benchmarks.Teaching;

/// <summary>
/// Ten simulated strokes a class on drawn specimens, judged where no stroke lies; and strokes of two classes that do not exist, drawn anywhere, which must be called not separable.
/// </summary>
internal sealed class TeachSpecimenBenchmark : Benchmark
{
    private const int StrokesOfClass = 10;

    /// <summary>Draws of two classes that do not exist, of which by chance one in forty may look separable: the interval is of 95 %, and only one of its ends counts.</summary>
    private const int Nonsense = 20;

    public override string Name => "teach-specimen";

    public override string Summary => "taught zones with ten strokes a class against the specimen's truth, where no stroke lies";

    public override IReadOnlyList<string> Takes => ["--seeds"];

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var (all, withPriming, nonsense) = (new List<TaughtScore>(), new List<TaughtScore>(), new List<bool>());
        foreach (var seed in Enumerable.Range(1, settings.Seeds ?? (settings.Quick ? 1 : 5)))
        {
            var scene = SpecimenScene.Draw(Path.Combine(settings.Folder, $"{seed}"), seed);
            all.Add(Score(scene, SpecimenScene.Classes, seed, settings));
            withPriming.Add(Score(scene, SpecimenScene.WithPriming, seed, settings));
            for (var n = 0; n < (settings.Quick ? 1 : Nonsense / 5); n++) nonsense.Add(IsSeparable(scene, 100 * seed + n, settings));
            Directory.Delete(Path.Combine(settings.Folder, $"{seed}"), recursive: true);
        }
        yield return Wrong("not recognised, mean of classes, worst seed", all, s => 1 - s.Balanced, 0.08);
        yield return Wrong("calibration error, worst seed", all, s => s.CalibrationError, 0.05);
        yield return Wrong("thin paint over priming as a fifth class: not recognised, worst seed", withPriming, s => 1 - s.Balanced, null);
        yield return Wrong("thin paint over priming as a fifth class: calibration error, worst seed", withPriming, s => s.CalibrationError, null);
        yield return new Figure("two classes of random strokes called separable", "share", nonsense.Average(n => n ? 1.0 : 0)) { Limit = new Limit(0.05, false), Note = $"{nonsense.Count} draws" };
    }

    private static Figure Wrong(string what, List<TaughtScore> scores, Func<TaughtScore, double> of, double? limit) => new(what, "1", scores.Max(of))
    {
        Limit = limit is { } most ? new Limit(most, false) : null,
        Note = string.Join(", ", scores.Select(s => $"{of(s):0.000}")),
    };

    private static TaughtScore Score(TaughtScene scene, IReadOnlyList<string> classes, int seed, Settings settings)
    {
        var dice = new Random(seed);
        SimulatedStrokes.Stroke[] strokes = [.. classes.SelectMany(c => SimulatedStrokes.In(c, scene.TruthOf(c), scene.Width, scene.MmPerPixel, StrokesOfClass, dice))];
        var folder = Path.Combine(settings.Folder, $"out-{seed}-{classes.Count}");
        var score = TaughtScore.Of(scene, classes, strokes, folder);
        Directory.Delete(folder, recursive: true);
        Say($"seed {seed}, {strokes.Length} strokes: {string.Join(", ", classes.Zip(score.Recognised, (c, r) => $"{c} {r:0.000}"))}; calibration error {score.CalibrationError:0.000}; it says {score.Result!.NoAnswer} {Of(score.Result, "balanced-accuracy")?.Value:0.0} % ({Of(score.Result, "balanced-accuracy")?.Note}); most by {Of(score.Result, "importance")?.Subject} ({Of(score.Result, "importance")?.Value:0} %)");
        return score;
    }

    private static bool IsSeparable(TaughtScene scene, int seed, Settings settings)
    {
        var (dice, anywhere) = (new Random(seed), Enumerable.Repeat(true, scene.Width * scene.Height).ToArray());
        var folder = Path.Combine(settings.Folder, $"out-{seed}");
        var result = TaughtScore.Teach(scene, [.. SimulatedStrokes.In("one", anywhere, scene.Width, scene.MmPerPixel, StrokesOfClass, dice), .. SimulatedStrokes.In("other", anywhere, scene.Width, scene.MmPerPixel, StrokesOfClass, dice)], folder);
        Directory.Delete(folder, recursive: true);
        return result.NoAnswer is null && result.Warnings.All(w => w.Code != "not-separable");
    }

    private static FigureText? Of(BareResult result, string name) => result.Figures.FirstOrDefault(f => f.Name == name);
}
