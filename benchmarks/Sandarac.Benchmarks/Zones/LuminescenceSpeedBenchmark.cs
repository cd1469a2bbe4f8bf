using Sandarac.Benchmarks.Alignment;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;
using Sandarac.Specimen;

namespace Sandarac.Benchmarks.Zones;

/// <summary>The luminescence of 30 million pixels as a person has it read from files: three rasters with their pictures, and figures.</summary>
internal sealed class LuminescenceSpeedBenchmark : Benchmark
{
    private const string Glow = "UVL_01.tif", Visible = "VIS_01.tif";

    public override string Name => "luminescence-speed";

    public override string Summary => "luminescence of 30 megapixels from file to file";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        // 300 ppi make 6118 x 4866 pixels of the face alone.
        var ppi = settings.Quick ? 60 : 300;
        var folder = Path.Combine(settings.Folder, "specimen");
        Say($"drawing two lights at {ppi} ppi");
        Child.Ours("photographs", $"{ppi}", folder, Visible, Glow);
        var (truth, grid) = (SpecimenTruth.Read(folder), PlaneGrid.Covering(new Box(0, 0, SpecimenPainting.WidthMm, SpecimenPainting.HeightMm), 25.4 / ppi));
        var (glow, visible) = (truth.LayOnPlane(folder, Glow, grid), truth.LayOnPlane(folder, Visible, grid));
        Directory.Delete(Path.Combine(folder, "photographs"), true);
        ChildResult[] rounds = [.. Enumerable.Range(0, settings.Quick ? 1 : 3).Select(_ => Read(glow, visible, Path.Combine(settings.Folder, "out")))];
        yield return new Figure($"luminescence, {grid.Width} x {grid.Height} pixels, file to file", "s", Rounds.Median(rounds.Select(r => r.Seconds)))
        {
            Limit = settings.Quick ? null : new Limit(10, false),
            Note = $"rounds {string.Join(" ", rounds.Select(r => $"{r.Seconds:0.0}"))}; peak memory {rounds.Max(r => r.PeakMegabytes):0} MB",
        };
    }

    private static ChildResult Read(string glow, string visible, string target)
    {
        var result = Child.Run(Child.Sandarac("read", "luminescence", "--image", $"luminescence={glow}", "--image", $"visible={visible}", "--out", target));
        Directory.Delete(target, true);
        return result;
    }
}
