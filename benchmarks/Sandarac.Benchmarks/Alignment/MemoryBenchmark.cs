using MathNet.Numerics.Statistics;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>
/// Two scans of gigapixels on one another by the command line: how much memory that takes, and how long. The scans are the specimen in two lights,
/// enlarged; how they lie in their files differs.
/// </summary>
internal sealed class MemoryBenchmark : Benchmark
{
    /// <summary>The largest image that is read by default has eight gigapixels.</summary>
    private static readonly (HugeLayout Layout, double Gigapixels, bool WithOut)[] Cases =
        [(HugeLayout.Pyramid, 8, false), (HugeLayout.Tiles, 8, false), (HugeLayout.Strips, 2, false), (HugeLayout.Tiles, 2, true)];

    public override string Name => "align-memory";

    public override string Summary => "a pair of 8 gigapixels each, aligned in a process of its own: peak memory";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var drawn = LargePair.Draw(settings.Quick ? 60 : 200, Path.Combine(settings.Folder, "specimen"));
        foreach (var c in Cases)
        {
            var pixels = (settings.Quick ? 0.02 : 1) * c.Gigapixels * 1e9;
            var pair = Enlarged(drawn, pixels, c.Layout, settings.Folder);
            Say($"{c.Layout}: {pair.Size.Width} x {pair.Size.Height}, files of {(new FileInfo(pair.Pair.Visible).Length + new FileInfo(pair.Pair.Infrared).Length) / 1e9:0.0} GB");
            foreach (var figure in Measure(pair.Pair, pair.Scale, $"pair of {pixels / 1e9:0.##} gigapixels, {c.Layout.ToString().ToLowerInvariant()}{(c.WithOut ? ", with --out" : "")}", c.WithOut, settings)) yield return figure;
            File.Delete(pair.Pair.Visible);
            File.Delete(pair.Pair.Infrared);
        }
    }

    private static (LargePair Pair, (int Width, int Height) Size, double Scale) Enlarged(LargePair drawn, double pixels, HugeLayout layout, string folder)
    {
        (int Width, int Height) Size(string photograph)
        {
            using var image = NetVips.Image.NewFromFile(photograph);
            var factor = Math.Sqrt(pixels / image.Width / image.Height);
            return ((int)(factor * image.Width), (int)(factor * image.Height));
        }

        IReadOnlyList<Point2> Scaled(IReadOnlyList<Point2> points, string photograph, (int Width, int Height) size)
        {
            using var image = NetVips.Image.NewFromFile(photograph);
            return [.. points.Select(p => new Point2(p.X * size.Width / image.Width, p.Y * size.Height / image.Height))];
        }

        string Write(string photograph, int grain)
        {
            var target = Path.Combine(folder, $"{layout}{grain}.tif");
            HugeFile.Write(photograph, target, Size(photograph), layout, grain);
            return target;
        }

        var (visible, infrared) = (Size(drawn.Visible), Size(drawn.Infrared));
        var pair = new LargePair(Write(drawn.Visible, 1), Write(drawn.Infrared, 2), Scaled(drawn.OnVisible, drawn.Visible, visible), Scaled(drawn.OnInfrared, drawn.Infrared, infrared));
        return (pair, visible, pair.OnVisible[^1].X / drawn.OnVisible[^1].X);
    }

    private static IEnumerable<Figure> Measure(LargePair pair, double scale, string what, bool withOut, Settings settings)
    {
        var result = Path.Combine(settings.Folder, "result.tif");
        var run = AlignRun.Of(settings.Folder, pair.Visible, pair.Infrared, pair.OnInfrared, withOut ? ["--out", result] : []);
        File.Delete(result);
        yield return new Figure($"{what}: peak memory", "MB", run.Process.PeakMegabytes)
        {
            Limit = settings.Quick ? null : new Limit(3000, false),
            Note = $"{run.Answer.Verdict}, {run.Process.Seconds:0} s: {string.Join(", ", (run.Answer.Stages ?? []).Select(s => $"{s.Name} {s.Seconds:0.0} s"))}",
        };
        double[]? errors = run.Points is null ? null : [.. Outcome.Distances(run.Points, pair.OnVisible)];
        yield return new Figure($"{what}: p95 of {pair.OnVisible.Count} points", "px", errors?.QuantileCustom(0.95, QuantileDefinition.R7))
        {
            Note = errors is null ? "no answer" : $"median {errors.Median():0.00} px; what was drawn was enlarged {scale:0.0} times: p95 {errors.QuantileCustom(0.95, QuantileDefinition.R7) / scale:0.00} of its pixels",
        };
    }
}
