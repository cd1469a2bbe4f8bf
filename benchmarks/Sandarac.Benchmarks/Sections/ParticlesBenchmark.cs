using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Text.Json;
using Sandarac.Analysis.Sections.Particles;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging;

namespace Sandarac.Benchmarks.Sections;

/// <summary>Grains beside scikit-image's watershed: touching discs at 60 % of the area, drawn by the peer's script, the same pixels on both sides.</summary>
internal sealed class ParticlesBenchmark : Benchmark
{
    private const string Python = "/usr/bin/python3";

    private static readonly string Script = Path.Combine(AppContext.BaseDirectory, "peers", "skimage_grains.py");

    public override string Name => "particles";

    public override string Summary => "grains split and measured beside scikit-image's watershed: touching discs at 60 % packing";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        if (!File.Exists(Python))
        {
            yield return new Figure("grains", "s", null) { Note = "python3 not present: it draws the discs" };
            yield break;
        }
        var side = settings.Quick ? 600 : 1200;
        var image = Path.Combine(settings.Folder, "discs.f32");
        var truth = JsonSerializer.Deserialize<Answer>(Call("draw", image, $"{side}"), JsonSerializerOptions.Web)!;
        var light = new Plane(side, side, MemoryMarshal.Cast<byte, float>(File.ReadAllBytes(image)).ToArray());
        var area = Enumerable.Repeat(true, side * side).ToArray();
        LayerGrains.Of([light], area, 4);
        var (ours, theirs) = Rounds.Alternate(settings.Quick ? 1 : 3, () => Ours(light, area), () => JsonSerializer.Deserialize<Answer>(Call("measure", image, $"{side}"), JsonSerializerOptions.Web)!);
        var name = $"scikit-image {Call("version").Trim()}";
        yield return new Figure($"grains of {side} x {side} pixels", "s", Rounds.Median(ours.Select(o => o.Seconds))) { Peer = Rounds.Median(theirs.Select(o => o.Seconds)), PeerName = name, Limit = new Limit(0.5, true), Note = $"{truth.Count} discs" };
        yield return new Figure("number of grains, error", "%", Off(ours[0].Count, truth.Count)) { Peer = Off(theirs[0].Count, truth.Count), PeerName = name, Limit = new Limit(5, false) };
        yield return new Figure("D50 by number, error", "%", Off(ours[0].D50, truth.D50)) { Peer = Off(theirs[0].D50, truth.D50), PeerName = name, Limit = new Limit(3, false) };
    }

    private sealed record Answer(int Count, double D50, double Seconds);

    private static double Off(double found, double real) => 100 * Math.Abs(found - real) / real;

    private static Answer Ours(Plane light, bool[] area)
    {
        var clock = Stopwatch.StartNew();
        var grains = LayerGrains.Of([light], area, 4)!;
        var seconds = clock.Elapsed.TotalSeconds;
        return new Answer(grains.Grains.Count, GrainSize.Of([.. grains.Grains.Where(g => !g.IsCut).Select(g => g.Diameter)], 0.5, false).Value, seconds);
    }

    private static string Call(params string[] work) => Child.Run(Child.Of(Python, [Script, .. work])).Output;
}
