using System.Globalization;
using Sandarac.Benchmarks.Alignment;
using Sandarac.Benchmarks.Brushwork;
using Sandarac.Benchmarks.BuildUp;
using Sandarac.Benchmarks.Documents;
using Sandarac.Benchmarks.Fourier;
using Sandarac.Benchmarks.Ingest;
using Sandarac.Benchmarks.MainJob;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Benchmarks.Relief;
using Sandarac.Benchmarks.Search;
using Sandarac.Benchmarks.Sections;
using Sandarac.Benchmarks.Solvents;
using Sandarac.Benchmarks.Spectra;
using Sandarac.Benchmarks.Teaching;
using Sandarac.Benchmarks.Tiles;
using Sandarac.Benchmarks.Zones;

namespace Sandarac.Benchmarks;

/// <summary>Measures the program's figures, each beside its peer where there is one, and prints them with their limits.</summary>
public static class Program
{
    private static readonly IReadOnlyList<Benchmark> All =
    [
        new FftBenchmark(), new SpecimenBenchmark(), new ExamineBenchmark(), new TilesBenchmark(), new IngestBenchmark(),
        new LandmarksBenchmark(), new WrongPairsBenchmark(), new LargePairBenchmark(),
        new PosesBenchmark(), new TilesJoinedBenchmark(), new MemoryBenchmark(),
        new LaterAdditionsBenchmark(), new LuminescenceSpeedBenchmark(), new ChangesBenchmark(),
        new TeachSpecimenBenchmark(), new TeachRealBenchmark(), new TeachSpeedBenchmark(),
        new SectionsBenchmark(), new BoxedLayersBenchmark(), new ParticlesBenchmark(), new BuildUpBenchmark(), new BlendBenchmark(), new SpectrumBenchmark(), new SearchBenchmark(), new DocumentsBenchmark(), new ReliefBenchmark(), new BrushworkBenchmark(),
    ];

    private const string Help = """
        Usage: sandarac bench [--only NAME]... [--quick] [--keep FOLDER] [--seeds N] [--ppi N]
          --only NAME     one benchmark, or all whose names begin with NAME and a hyphen; may be given several times
          --quick         small inputs and few rounds: shows that everything runs, its figures mean little
          --keep FOLDER   keeps the tables of single pairs there
          --seeds N       how many specimens, where the chosen benchmarks draw many
          --ppi N         at what resolution they are drawn, where that may be chosen
        """;

    /// <summary>Runs the benchmarks.</summary>
    /// <returns>0 when every limit that was measured is met, 1 when one is missed, 2 for a faulty command line.</returns>
    public static int Main(string[] args)
    {
        CultureInfo.DefaultThreadCurrentCulture = CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        if (args is ["child", .. var work]) return ChildWork.Run(work);
        var settings = new Settings(false, "", null);
        var only = new List<string>();
        for (var i = 0; i < args.Length; i++)
        {
            if (args[i] == "--quick") settings = settings with { Quick = true };
            else if (args[i] == "--only" && i + 1 < args.Length && All.Any(b => b.IsMeant(args[i + 1]))) only.Add(args[++i]);
            else if (args[i] == "--keep" && i + 1 < args.Length) settings = settings with { Keep = args[++i] };
            else if (args[i] == "--seeds" && i + 1 < args.Length && int.TryParse(args[i + 1], out var seeds) && seeds > 0) (settings, i) = (settings with { Seeds = seeds }, i + 1);
            else if (args[i] == "--ppi" && i + 1 < args.Length && double.TryParse(args[i + 1], out var ppi) && ppi > 0) (settings, i) = (settings with { PixelsPerInch = ppi }, i + 1);
            else return Refuse(args[i]);
        }
        Benchmark[] chosen = [.. All.Where(b => only.Count == 0 || only.Any(b.IsMeant))];
        if (args.FirstOrDefault(a => a is "--seeds" or "--ppi" && !chosen.Any(b => b.Takes.Contains(a))) is { } idle) return Refuse(idle);
        return Measure(chosen, settings);
    }

    private static int Measure(Benchmark[] chosen, Settings settings)
    {
        Console.WriteLine(Machine.Describe());
        var rows = new List<Figure>();
        var failed = chosen.Count(benchmark => !TryRun(benchmark, settings, rows));
        Console.WriteLine();
        Table.Print(rows);
        if (failed > 0) Console.WriteLine($"{failed} of {chosen.Length} benchmarks failed; see above.");
        return failed > 0 || rows.Any(r => r.Met == false) ? 1 : 0;
    }

    /// <summary>One that fails does not take the others' figures with it.</summary>
    private static bool TryRun(Benchmark benchmark, Settings settings, List<Figure> rows)
    {
        using var folder = new WorkFolder();
        Console.WriteLine($"\n{benchmark.Name}: {benchmark.Summary}");
        try
        {
            foreach (var row in benchmark.Run(settings with { Folder = folder.Path }))
            {
                rows.Add(row);
                Console.WriteLine("  " + row.Sentence);
            }
            return true;
        }
        catch (Exception e)
        {
            Console.WriteLine($"  failed: {e}");
            return false;
        }
    }

    private static int Refuse(string argument)
    {
        Console.Error.WriteLine($"\"{argument}\" is not understood. Benchmarks: {string.Join(", ", All.Select(b => b.Name))}.\n{Help}");
        return argument is "--help" or "-h" ? 0 : 2;
    }
}
