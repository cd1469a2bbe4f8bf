using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Specimen;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>
/// Every light of many specimens, each with seed and poses of its own, on its photograph in visible light; then parts of these photographs in harsher
/// poses. Scored at points whose places are known.
/// </summary>
internal sealed class PosesBenchmark : Benchmark
{
    private const string Visible = "VIS_01.tif", Plate = "XR_plate";

    private static readonly string[] Whole = [.. SpecimenDrawing.PhotographNames.Where(n => !n.Contains("flat", StringComparison.Ordinal) && (n.StartsWith("RAK", StringComparison.Ordinal) || n is "UVL_01.tif" or "IR_01.tif"))];
    private static readonly string[] Plates = [.. SpecimenDrawing.PhotographNames.Where(n => n.StartsWith(Plate, StringComparison.Ordinal))];

    public override string Name => "align-poses";

    public override string Summary => "every light of many specimens on its visible photograph, as drawn and in harsh poses, against truth";

    public override IReadOnlyList<string> Takes => ["--seeds", "--ppi"];

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var seeds = settings.Seeds ?? (settings.Quick ? 1 : 30);
        var (drawn, harsh) = (new List<PoseOutcome>(), new List<PoseOutcome>());
        for (var seed = 1; seed <= seeds; seed++)
        {
            var folder = Path.Combine(settings.Folder, $"specimen{seed}");
            SpecimenDrawing.Draw(new SpecimenSettings(settings.PixelsPerInch ?? 60, seed, [Visible, .. Whole, .. Plates]), folder);
            var specimen = (Seed: seed, Folder: folder, Truth: SpecimenTruth.Read(folder));
            drawn.AddRange([.. Whole.Select(light => AsDrawn(specimen, light)), .. Joined(specimen)]);
            harsh.AddRange(Chosen(seed).Select(light => Harsh(specimen, light)));
            Directory.Delete(folder, true);
            Say($"{seed} of {seeds} specimens: {drawn.Concat(harsh).Count(o => !o.IsRight)} of {drawn.Count + harsh.Count} not right");
        }
        foreach (var figure in Tell("as drawn", drawn).Concat(Tell("harsh poses", harsh))) yield return figure;
        PairTable.Write(settings, "align-poses.csv", ["light", "seed", "pose", "verdict", "median_px", "p95_px", "coarser"],
            drawn.Concat(harsh).Select(o => new[] { o.Light, $"{o.Seed}", o.Pose, o.Verdict, $"{o.Median:0.000}", $"{o.P95:0.000}", $"{o.Coarser:0.00}" }));
    }

    private static PoseOutcome AsDrawn((int Seed, string Folder, SpecimenTruth Truth) s, string light)
    {
        var found = BareAlignment.Run(new BareAlignmentRequest(SpecimenTruth.Photograph(s.Folder, Visible), SpecimenTruth.Photograph(s.Folder, light)), null, CancellationToken.None);
        return PoseOutcome.Of(light, s.Seed, "", $"{found.Verdict}", found.Map, s.Truth.Points(light, Visible));
    }

    /// <summary>The plates as one mosaic.</summary>
    private static IEnumerable<PoseOutcome> Joined((int Seed, string Folder, SpecimenTruth Truth) s)
    {
        var maps = BareMosaic.Join(SpecimenTruth.Photograph(s.Folder, Visible), [.. Plates.Select(p => SpecimenTruth.Photograph(s.Folder, p))], Path.Combine(s.Folder, "mosaic"));
        return Plates.Zip(maps, (plate, map) => PoseOutcome.Of(plate, s.Seed, "", map is null ? "left out" : "joined", map, s.Truth.Points(plate, Visible)));
    }

    private static IEnumerable<string> Chosen(int seed) => ["UVL_01.tif", "IR_01.tif", Whole[seed % 8], Plates[seed % Plates.Length]];

    private static PoseOutcome Harsh((int Seed, string Folder, SpecimenTruth Truth) s, string light)
    {
        // One throw for each seed and light, whatever else is drawn.
        var dice = new Random(1000 * s.Seed + SpecimenDrawing.PhotographNames.ToList().IndexOf(light));
        var pose = HarshPose.Throw(s.Truth.SizeOf(light), light.StartsWith(Plate, StringComparison.Ordinal), dice);
        var taken = Path.Combine(s.Folder, "harsh.tif");
        pose.Take(SpecimenTruth.Photograph(s.Folder, light), taken);
        var found = BareAlignment.Run(new BareAlignmentRequest(SpecimenTruth.Photograph(s.Folder, Visible), taken), null, CancellationToken.None);
        return PoseOutcome.Of(light, s.Seed, $"{pose.Said}, {pose.Width} x {pose.Height}", $"{found.Verdict}", found.Map, pose.Points(s.Truth.Points(light, Visible)), Math.Max(1, 1 / pose.Map.ScaleAt(default)));
    }

    private static IEnumerable<Figure> Tell(string how, List<PoseOutcome> outcomes)
    {
        int Called(PairVerdict verdict, bool right) => outcomes.Count(o => o.Verdict == $"{verdict}" && o.IsRightForCoarser == right);
        foreach (var o in outcomes.Where(o => !o.IsRight)) Say($"{how}, not right: {o}");
        foreach (var light in outcomes.GroupBy(o => o.Pose.Length == 0 ? o.Light : o.Light[..o.Light.IndexOf('_', StringComparison.Ordinal)]))
            yield return new Figure($"{how}, {light.Key}: worst p95", "px", light.Max(o => o.P95))
            {
                Note = $"worst median {Figure.Show(light.Max(o => o.Median))} px; right {light.Count(o => o.IsRight)} of {light.Count()}",
            };
        yield return new Figure($"{how}: p95 {PoseOutcome.Right} px or more", "share", outcomes.Count(o => !o.IsRight) / (double)outcomes.Count)
        {
            Note = $"of {outcomes.Count}; not right by the coarser photograph's pixel {outcomes.Count(o => !o.IsRightForCoarser)}, {Called(PairVerdict.Aligned, false)} of them called aligned; "
                + $"right yet called uncertain {Called(PairVerdict.Uncertain, true)}",
        };
    }
}
