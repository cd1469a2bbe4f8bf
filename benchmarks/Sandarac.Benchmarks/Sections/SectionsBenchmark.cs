using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using NetTopologySuite.Geometries;
using NetTopologySuite.IO;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Specimen.Scoring;
using Sandarac.Specimen.Sections;
using Figure = Sandarac.Benchmarks.Measuring.Figure;

namespace Sandarac.Benchmarks.Sections;

/// <summary>Layers of drawn sections, each with a seed of its own, found by themselves and with one click a boundary, against truth.</summary>
internal sealed class SectionsBenchmark : Benchmark
{
    public override string Name => "sections";

    public override string Summary => "layers of drawn paint sections: boundaries, their number and thickness against truth, by themselves and with one click a boundary";

    public override IReadOnlyList<string> Takes => ["--seeds"];

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var all = new List<One>();
        for (var seed = 1; seed <= (settings.Seeds ?? (settings.Quick ? 2 : 40)); seed++)
        {
            SectionSpecimens.Draw(seed, settings.Folder);
            all.Add(Measure(settings.Folder, seed));
            Directory.Delete(Path.Combine(settings.Folder, "photographs"), true);
            Say(all[^1].Line);
        }
        var (own, clicked) = (all.SelectMany(o => o.Own).ToArray(), all.SelectMany(o => o.Clicked).ToArray());
        var thickness = all.SelectMany(o => o.Thickness).ToArray();
        yield return new Figure("boundaries by themselves, not within 2 px", "share", own.Count(e => e > 2) / (double)own.Length) { Limit = new Limit(0.15, false), Note = Of(own) };
        yield return new Figure("number of layers by themselves, wrong", "share", all.Count(o => o.Found != o.Layers) / (double)all.Count) { Limit = new Limit(0.2, false), Note = $"of {all.Count} sections" };
        yield return new Figure("boundaries with one click each, mean error", "px", Rounds.Median(clicked)) { Note = Of(clicked) };
        yield return new Figure("boundaries with one click each, not within 1 px", "share", clicked.Count(e => e > 1) / (double)clicked.Length) { Limit = new Limit(0, false), Note = Of(clicked) };
        yield return new Figure("thickness with one click each, not within 3 % or 1 um", "share", thickness.Count(t => !t.Met) / (double)thickness.Length)
        {
            Limit = new Limit(0, false), Note = $"of {thickness.Length} layers; median error {Rounds.Median(thickness.Select(t => t.Um)):0.00} um, worst {thickness.Max(t => t.Um):0.0} um",
        };
        yield return new Figure("true mean thickness outside of the 95 % interval, one click each", "share", thickness.Count(t => !t.Inside) / (double)thickness.Length) { Limit = new Limit(0.1, false), Note = $"of {thickness.Length} layers" };
        yield return new Figure("layers called divided by themselves", "share", all.Sum(o => o.Divided) / (double)all.Sum(o => o.Found)) { Note = $"of {all.Sum(o => o.Found)}; no true layer is" };
    }

    private static string Of(double[] errors) => $"{errors.Length} boundaries, median {Figure.Show(Rounds.Median(errors))} px, p95 {Figure.Show(Rounds.Percentile(errors, 0.95))} px, worst {Figure.Show(errors.Max())} px";

    private static One Measure(string folder, int seed)
    {
        var truth = SectionScore.Read(folder, seed);
        var clock = Stopwatch.StartNew();
        var proposed = Read(folder, seed, truth, null, "own");
        var own = Lines(proposed);
        var seconds = clock.Elapsed.TotalSeconds;
        var steered = Read(folder, seed, truth, Clicks(truth, seed), "clicked");
        var clicked = Lines(steered);
        var same = clicked.Length == truth.Layers + 1;
        return new One(seed, truth.Layers, own.Length - 1, [.. Enumerable.Range(0, truth.Layers + 1).Select(b => truth.LeastError(b, own))],
            [.. Enumerable.Range(0, truth.Layers + 1).Select(b => same ? truth.MeanError(b, clicked[b]) : double.PositiveInfinity)],
            [.. Enumerable.Range(1, truth.Layers).Select(l => Thickness(truth, steered, l))], proposed.Figures.Count(f => f.Name == "sublayers"), seconds);
    }

    private static (double Um, bool Met, bool Inside) Thickness(SectionScore truth, BareResult result, int layer)
    {
        double Value(string name) => result.Figures.FirstOrDefault(f => f.Name == name && f.Subject == $"layer {layer}")?.Value ?? 0;
        var (found, real) = (Value("thickness-mean") * Value("coverage") / 100, truth.ThicknessUm(layer));
        var spread = result.Figures.FirstOrDefault(f => f.Name == "thickness-mean" && f.Subject == $"layer {layer}")?.Uncertainty ?? 0;
        return (Math.Abs(found - real), Math.Abs(found - real) <= Math.Max(1, 0.03 * real), Math.Abs(found - real) <= spread);
    }

    private static BareResult Read(string folder, int seed, SectionScore truth, string? clicks, string name)
    {
        string Photograph(string light) => Path.Combine(folder, "photographs", SectionSpecimens.FileName(seed, light));
        var parameters = new Dictionary<string, string> { ["obliquity"] = truth.ObliquityDegrees.ToString(CultureInfo.InvariantCulture), ["um-per-pixel"] = truth.UmPerPixel.ToString(CultureInfo.InvariantCulture) };
        if (clicks is not null) (parameters["clicks"], parameters["boundaries"]) = (clicks, "clicked");
        return BareRun.Execute(new BareRequest(new LayersReading(), [$"visible={Photograph("VIS")}", $"luminescence={Photograph("UV")}"], parameters, null, Path.Combine(folder, $"{name}-{seed}")));
    }

    private static LineString[] Lines(BareResult result) => [.. result.Candidates.Where(c => c.Kind == "layer-boundary").Select(c => (LineString)new WKTReader().Read(c.Geometry))];

    /// <summary>A click on each true boundary, somewhere in the middle half where the layers on both sides are there, as a person would click.</summary>
    private static string Clicks(SectionScore truth, int seed)
    {
        var dice = new Random(seed);
        return JsonSerializer.Serialize(new
        {
            type = "FeatureCollection",
            features = Enumerable.Range(0, truth.Layers + 1).Select(b => truth.Click(b, dice.NextDouble())).Select(c => new { type = "Feature", properties = new { }, geometry = new { type = "Point", coordinates = new[] { c.X, c.Y } } }),
        });
    }

    private sealed record One(int Seed, int Layers, int Found, double[] Own, double[] Clicked, (double Um, bool Met, bool Inside)[] Thickness, int Divided, double Seconds)
    {
        public string Line => FormattableString.Invariant($"section {Seed}: {Layers} layers, found {Found}; {Own.Count(e => e <= 2)} of {Own.Length} within 2 px; clicked: {Clicked.Count(e => e <= 1)} within 1 px, worst {Figure.Show(Clicked.Max())}; thickness {Thickness.Count(t => t.Met)} of {Layers}; {Seconds:0.0} s");
    }
}
