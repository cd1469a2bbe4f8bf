using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.MainJob;

/// <summary>How long it takes to draw all photographs of the specimen. There is no peer: nothing else draws it.</summary>
internal sealed class SpecimenBenchmark : Benchmark
{
    public override string Name => "specimen";

    public override string Summary => "drawing all photographs of the specimen";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        (int Ppi, double? Seconds)[] cases = settings.Quick ? [(60, null)] : [(150, 45), (300, 240)];
        foreach (var (ppi, limit) in cases)
        {
            var folder = Path.Combine(settings.Folder, $"{ppi}");
            var drawing = Child.Run(Child.Sandarac("specimen", folder, "--ppi", $"{ppi}"));
            var bytes = Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Sum(f => new FileInfo(f).Length);
            yield return new Figure($"specimen at {ppi} ppi, all photographs", "s", drawing.Seconds)
            {
                Limit = limit is { } seconds ? new Limit(seconds, false) : null,
                Note = $"{bytes / 1e6:0} MB written, peak memory {drawing.PeakMegabytes:0} MB",
            };
            Directory.Delete(folder, true);
        }
    }
}
