using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;

namespace Sandarac.Benchmarks.Teaching;

/// <summary>How well a reading taught with simulated strokes does where no stroke lies.</summary>
/// <param name="Recognised">Share of each class's pixels that is recognised.</param>
/// <param name="CalibrationError">Expected calibration error over ten bins, classes counted alike.</param>
/// <param name="Result">What the reading says of itself; null for a peer.</param>
internal sealed record TaughtScore(IReadOnlyList<double> Recognised, double CalibrationError, BareResult? Result)
{
    /// <summary>Areas as near as this to a stroke are not held out, mm.</summary>
    private const double Touched = 3;

    private const int Bins = 10;

    public double Balanced => Recognised.Average();

    /// <summary>Teaches and scores.</summary>
    public static TaughtScore Of(TaughtScene scene, IReadOnlyList<string> classes, IReadOnlyList<SimulatedStrokes.Stroke> strokes, string outFolder)
    {
        var result = Teach(scene, strokes, outFolder);
        if (result.NoAnswer is not null) return new TaughtScore([.. classes.Select(_ => 0.0)], 1, result);
        return Of(scene, classes, strokes, [.. Enumerable.Range(1, classes.Count).Select(k => MapOf(Path.Combine(outFolder, $"probability-{k}.tif")))], result);
    }

    /// <summary>Scores maps of probability, whoever made them.</summary>
    public static TaughtScore Of(TaughtScene scene, IReadOnlyList<string> classes, IReadOnlyList<SimulatedStrokes.Stroke> strokes, Plane[] maps, BareResult? result)
    {
        var (recognised, bins) = (new double[classes.Count], new (double Weight, double Said, double Right)[Bins]);
        var touched = Touches(scene, strokes);
        for (var k = 0; k < classes.Count; k++)
        {
            var truth = scene.TruthOf(classes[k]);
            int[] heldOut = [.. Enumerable.Range(0, truth.Length).Where(i => truth[i] && !touched[i] && float.IsFinite(maps[0].Data[i]))];
            foreach (var i in heldOut)
            {
                var likeliest = Enumerable.Range(0, maps.Length).MaxBy(c => maps[c].Data[i]);
                var (said, right, weight) = (maps[likeliest].Data[i], likeliest == k ? 1.0 : 0, 1.0 / heldOut.Length);
                recognised[k] += weight * right;
                var bin = Math.Min(Bins - 1, (int)(said * Bins));
                bins[bin] = (bins[bin].Weight + weight, bins[bin].Said + weight * said, bins[bin].Right + weight * right);
            }
        }
        return new TaughtScore(recognised, bins.Sum(b => Math.Abs(b.Said - b.Right)) / classes.Count, result);
    }

    /// <summary>Runs the reading as people run it, on files.</summary>
    public static BareResult Teach(TaughtScene scene, IReadOnlyList<SimulatedStrokes.Stroke> strokes, string outFolder) => BareRun.Execute(new BareRequest(new TaughtZonesReading(), scene.Layers,
        new Dictionary<string, string> { ["marks"] = SimulatedStrokes.GeoJson(strokes), ["marks-unit"] = "px" }, scene.MmPerPixel, outFolder));

    private static bool[] Touches(TaughtScene scene, IReadOnlyList<SimulatedStrokes.Stroke> strokes)
    {
        var (touched, reach) = (new bool[scene.Width * scene.Height], Touched / scene.MmPerPixel);
        foreach (var s in strokes)
            for (var y = Math.Max(0, (int)(Math.Min(s.Y1, s.Y2) - reach)); y < Math.Min(scene.Height, Math.Max(s.Y1, s.Y2) + reach); y++)
                for (var x = Math.Max(0, (int)(Math.Min(s.X1, s.X2) - reach)); x < Math.Min(scene.Width, Math.Max(s.X1, s.X2) + reach); x++)
                    touched[y * scene.Width + x] |= s.Distance(x + 0.5, y + 0.5) < reach;
        return touched;
    }

    private static Plane MapOf(string file)
    {
        using var image = ImageFile.Open(file);
        return image.ReadWindow(0, 0, image.Facts.Width, image.Facts.Height)[0];
    }
}
