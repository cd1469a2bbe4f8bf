using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Teaching;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Figure = Sandarac.Benchmarks.Measuring.Figure;

namespace Sandarac.Benchmarks.Teaching;

/// <summary>Taught zones on a real painting in near infrared, ten simulated strokes a class, judged by visible colour where no stroke lies; scikit-learn's trees on the same features and marks.</summary>
internal sealed class TeachRealBenchmark : Benchmark
{
    private const int StrokesOfClass = 10, Trees = 100;

    public override string Name => "teach-real";

    public override string Summary => "taught zones on a real painting in polarised near infrared against its visible colour, beside scikit-learn";

    public override IReadOnlyList<string> Takes => ["--seeds"];

    public override IEnumerable<Figure> Run(Settings settings)
    {
        if (PhotographedScene.Load() is not { } scene)
        {
            yield return new Figure("three colours of a real painting in near infrared", "1", null) { Note = SharedFolder.Missing };
            yield break;
        }
        var (ours, theirs) = (new List<TaughtScore>(), new List<TaughtScore>());
        foreach (var seed in Enumerable.Range(1, settings.Seeds ?? (settings.Quick ? 1 : 5)))
        {
            var dice = new Random(seed);
            SimulatedStrokes.Stroke[] strokes = [.. PhotographedScene.Classes.SelectMany(c => SimulatedStrokes.In(c, scene.TruthOf(c), scene.Width, scene.MmPerPixel, StrokesOfClass, dice))];
            ours.Add(TaughtScore.Of(scene, PhotographedScene.Classes, strokes, Path.Combine(settings.Folder, $"out{seed}")));
            if (SklearnForest.Version is not null) theirs.Add(TaughtScore.Of(scene, PhotographedScene.Classes, strokes, Peer(scene, strokes, settings.Folder), null));
            Directory.Delete(Path.Combine(settings.Folder, $"out{seed}"), recursive: true);
            Say($"strokes {seed}: {Shown(ours[^1])}, it says {ours[^1].Result!.Figures.First(f => f.Name == "balanced-accuracy").Value:0} % ({ours[^1].Result!.Figures.First(f => f.Name == "balanced-accuracy").Note}); peer {Shown(theirs.LastOrDefault())}");
        }
        yield return Mean("not recognised, mean of classes and of draws of strokes", ours, theirs, s => 1 - s.Balanced);
        yield return Mean("calibration error, mean of draws", ours, theirs, s => s.CalibrationError);
    }

    private static string Shown(TaughtScore? score) => score is null ? "not present" : string.Join(", ", PhotographedScene.Classes.Zip(score.Recognised, (c, r) => $"{c} {r:0.000}")) + $", calibration error {score.CalibrationError:0.000}";

    private static Figure Mean(string what, List<TaughtScore> ours, List<TaughtScore> theirs, Func<TaughtScore, double> of) => new($"real painting, {what}", "1", ours.Average(of))
    {
        Peer = theirs.Count == 0 ? null : theirs.Average(of), PeerName = SklearnForest.Name, Note = string.Join(", ", ours.Select(s => $"{of(s):0.000}")),
    };

    /// <summary>The peer learns from the same marked pixels with the same weights, and judges the same features.</summary>
    private static Plane[] Peer(TaughtScene scene, IReadOnlyList<SimulatedStrokes.Stroke> strokes, string folder)
    {
        InputImage[] images = [.. scene.Layers.Select(l => new InputImage(Path.GetFileName(l), ImageFile.Open(l), null, null, ""))];
        var features = new FeatureSet(TaughtLayers.Of(images, scene.MmPerPixel), TaughtZonesReading.Finest.Default);
        var marks = Marks.Read(SimulatedStrokes.GeoJson(strokes));
        var areas = Lesson.Areas(marks, 1, TaughtZonesReading.StrokeWidth.Default / scene.MmPerPixel);
        var samples = MarkedPixels.Of(features, areas, marks, new ParallelOptions());
        var block = MarkBlocks.Of(areas, marks, TaughtZonesReading.BlockDistance.Default / scene.MmPerPixel);
        float[] known = [.. Enumerable.Range(0, samples.Count).SelectMany(i => samples.Features.Select(f => f[i]))];
        float[] weights = [.. samples.Weights(block, [.. Enumerable.Range(0, samples.Count)]).Select(w => (float)w)];
        var tile = features.Of(0, 0, scene.Width, scene.Height);
        foreach (var image in images) image.Image.Dispose();
        var shares = SklearnForest.Probabilities(folder, known, samples.Class, weights, Rows(tile, scene, features.Count), features.Count, Trees);
        var classes = marks.Classes.Count;
        return [.. Enumerable.Range(0, classes).Select(k => new Plane(scene.Width, scene.Height, [.. Enumerable.Range(0, scene.Width * scene.Height).Select(i => shares[i * classes + k])]))];
    }

    private static float[] Rows(FeatureTile tile, TaughtScene scene, int features)
    {
        var (rows, line) = (new float[scene.Width * scene.Height * features], new float[scene.Width * features]);
        for (var y = 0; y < scene.Height; y++)
        {
            tile.Fill(0, y, scene.Width, line, scene.Width);
            for (var x = 0; x < scene.Width; x++)
                for (var f = 0; f < features; f++) rows[(y * scene.Width + x) * features + f] = line[f * scene.Width + x];
        }
        return rows;
    }
}
