using System.Globalization;
using NetTopologySuite.IO;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Figure = Sandarac.Benchmarks.Measuring.Figure;

namespace Sandarac.Benchmarks.Sections;

/// <summary>Layers of real electron micrographs against the edges of boxes drawn by hand, beside the steepest places of the mean profile. Not every layer is boxed: what is proposed outside of the boxes is not judged.</summary>
internal sealed class BoxedLayersBenchmark : Benchmark
{
    /// <summary>As near as this, as a share of the image across the layers, an edge is found; edges of two boxes nearer than that are one.</summary>
    private const double Near = 0.02;

    public override string Name => "layers-real";

    public override string Summary => "layers proposed in real electron micrographs against hand-drawn boxes, beside the steepest places of the mean profile";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        if (SharedFolder.Find(Path.Combine("layers", "sem")) is not { } folder)
        {
            yield return new Figure("edges of boxed layers without a boundary", "share", null) { Note = SharedFolder.Missing };
            yield break;
        }
        string[] boxed = [.. Directory.GetFiles(folder, "*.txt").Order(StringComparer.Ordinal).Where(f => File.Exists(Path.ChangeExtension(f, ".jpg")))];
        var all = boxed.Take(settings.Quick ? 3 : boxed.Length).Select((boxes, i) => Measure(boxes, Path.Combine(settings.Folder, $"boxed-{i}"))).ToArray();
        var (edges, answers) = (all.Sum(o => o.Edges.Length), all.Where(o => o.Ours.Length > 0).ToArray());
        const string Peer = "steepest places of the mean profile";
        yield return new Figure("micrographs without an answer", "share", 1 - answers.Length / (double)all.Length) { Note = $"of {all.Length}" };
        yield return new Figure("edges of boxed layers without a boundary", "share", Missed(all, o => o.Ours)) { Peer = Missed(all, o => o.Steepest), PeerName = $"{Peer}, twice as many as boxes", Note = $"of {edges} edges; within 2 % of the image" };
        yield return new Figure("the same where there is an answer", "share", answers.Length == 0 ? null : Missed(answers, o => o.Ours)) { Peer = answers.Length == 0 ? null : Missed(answers, o => o.Steepest), PeerName = Peer, Note = $"of {answers.Sum(o => o.Edges.Length)}" };
        yield return new Figure("boundaries within the boxes' reach that are at no edge", "share", Spurious(all, o => o.Ours)) { Peer = Spurious(all, o => o.Steepest), PeerName = Peer };
    }

    private static double Missed(One[] all, Func<One, double[]> of) => all.Sum(o => o.Edges.Count(e => !of(o).Any(p => Math.Abs(p - e) <= Near))) / (double)all.Sum(o => o.Edges.Length);

    private static double? Spurious(One[] all, Func<One, double[]> of)
    {
        var judged = all.SelectMany(o => of(o).Where(p => p >= o.Edges[0] - Near && p <= o.Edges[^1] + Near).Select(p => o.Edges.Any(e => Math.Abs(p - e) <= Near))).ToArray();
        return judged.Length == 0 ? null : judged.Count(found => !found) / (double)judged.Length;
    }

    private static One Measure(string boxes, string output)
    {
        var photograph = Path.ChangeExtension(boxes, ".jpg");
        double[][] rows = [.. File.ReadLines(boxes).Select(l => l.Split(' ', StringSplitOptions.RemoveEmptyEntries)).Where(c => c.Length == 5).Select(c => c.Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray())];
        // A box is as long as the image along the layers.
        var axis = rows.Average(r => r[3]) < rows.Average(r => r[4]) ? 0 : 1;
        var edges = new List<double>();
        foreach (var e in rows.SelectMany(r => new[] { r[1 + axis] - r[3 + axis] / 2, r[1 + axis] + r[3 + axis] / 2 }).Order())
            if (edges.Count == 0 || e - edges[^1] > Near) edges.Add(e);
        var result = BareRun.Execute(new BareRequest(new LayersReading(), [$"visible={photograph}"], new Dictionary<string, string>(), null, output));
        using var image = ImageFile.Open(photograph);
        var side = axis == 0 ? image.Facts.Width : image.Facts.Height;
        var reader = new WKTReader();
        double[] ours = [.. result.Candidates.Where(c => c.Kind == "layer-boundary").Select(c => reader.Read(c.Geometry).Coordinates).Select(c => c.Average(p => axis == 0 ? p.X : p.Y) / side)];
        var one = new One([.. edges], ours, Steepest(image.ReadWindow(0, 0, image.Facts.Width, image.Facts.Height)[0], axis, 2 * rows.Length));
        Say($"{Path.GetFileName(photograph)}: {edges.Count} edges, {ours.Length} boundaries{(result.NoAnswer is { } why ? $" ({why})" : "")}, {edges.Count(e => ours.Any(p => Math.Abs(p - e) <= Near))} found; the profile {edges.Count(e => one.Steepest.Any(p => Math.Abs(p - e) <= Near))}");
        return one;
    }

    /// <summary>Where means along the layers differ most over a hundredth of the image, none nearer to another than that an edge counts once.</summary>
    private static double[] Steepest(Plane light, int axis, int number)
    {
        var side = axis == 0 ? light.Width : light.Height;
        var (means, reach) = (new double[side], Math.Max(1, side / 100));
        for (var y = 0; y < light.Height; y++)
            for (var x = 0; x < light.Width; x++) means[axis == 0 ? x : y] += light[x, y];
        var places = new List<int>();
        foreach (var i in Enumerable.Range(reach, side - 2 * reach).OrderByDescending(i => Math.Abs(Enumerable.Range(0, reach).Sum(k => means[i + k] - means[i - 1 - k]))))
            if (places.Count < number && places.All(p => Math.Abs(p - i) > Near * side)) places.Add(i);
        return [.. places.Select(p => p / (double)side)];
    }

    /// <summary>One micrograph: edges of boxes, boundaries proposed, and the peer's, as shares of the image across the layers.</summary>
    private sealed record One(double[] Edges, double[] Ours, double[] Steepest);
}
