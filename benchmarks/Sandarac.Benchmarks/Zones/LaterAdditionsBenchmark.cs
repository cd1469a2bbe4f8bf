using NetTopologySuite.Geometries;
using Sandarac.Analysis.Luminescence;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Tiles;
using Sandarac.Specimen;
using Sandarac.Specimen.Scoring;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Benchmarks.Zones;

/// <summary>
/// Many specimens, each with a seed of its own, examined as a user does: later additions over and under varnish, the earlier cleaning, the varnish's thickness and leaked light, against truth.
/// </summary>
internal sealed class LaterAdditionsBenchmark : Benchmark
{
    private const string Glow = "UVL_01.tif", Visible = "VIS_01.tif";

    /// <summary>Visible light that the specimen's lamps and filter let through, per cent: as it is drawn.</summary>
    private static readonly double[] Leak = [2.0, 1.8, 7.5];

    public override string Name => "later-additions";

    public override string Summary => "later additions, earlier cleaning and varnish on many specimens, examined from their photographs, against truth";

    public override IReadOnlyList<string> Takes => ["--seeds", "--ppi"];

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var (seeds, all) = (settings.Seeds ?? (settings.Quick ? 1 : 20), new List<One>());
        for (var seed = 1; seed <= seeds; seed++)
        {
            var folder = Path.Combine(settings.Folder, $"specimen{seed}");
            SpecimenDrawing.Draw(new SpecimenSettings(settings.PixelsPerInch ?? 60, seed, [Visible, Glow, "VIS_flat.tif", "UVL_flat.tif"]), folder);
            all.Add(Examine(folder, seed));
            Directory.Delete(folder, true);
            Say(all[^1].Line);
        }
        yield return Of("additions over varnish, F1 by area", all, o => o.Score.Over.AreaF1, 0.9);
        yield return Of("additions over varnish, F1 by object", all, o => o.Score.Over.ObjectF1, 0.95);
        yield return Of("additions under varnish, F1 by object", all, o => o.Score.Under.ObjectF1, 0.75);
        yield return Of("all additions, F1 by area", all, o => o.Score.Additions.AreaF1, null);
        yield return Of("earlier cleaning, overlap", all, o => o.Score.Cleaning.Overlap, 0.9);
        yield return Of("varnish's thickness, correlation", all, o => o.Varnish, 0.9);
        yield return new Figure("dark original paint taken for later", "share", all.Max(o => o.Score.FalseOnDark)) { Limit = new Limit(0.02, false), Note = "the worst" };
        yield return new Figure("leaked light, error", "%", all.Max(o => o.LeakError)) { Limit = new Limit(1, false), Note = "the worst band of the worst specimen, per cent of the visible light" };
    }

    /// <summary>Limits are upper ones; a share that should be large is shown by what it lacks.</summary>
    private static Figure Of(string what, List<One> all, Func<One, double> share, double? least) => new($"{what}: lacks to 1, mean", "share", 1 - all.Average(share))
    {
        Limit = least is { } l ? new Limit(1 - l, false) : null,
        Note = $"mean {Figure.Show(all.Average(share))}, worst {Figure.Show(all.Min(share))} of {all.Count} specimens",
    };

    private static One Examine(string folder, int seed)
    {
        using var studio = OpenStudio.At(Path.Combine(folder, "studio"));
        var examined = new Examining(studio).Examine(Path.Combine(folder, "photographs"), new ExamineOptions { HeightMm = SpecimenPainting.HeightMm, WidthMm = SpecimenPainting.WidthMm });
        var run = examined.Runs.Single(r => r.ReadingId == new LuminescenceReading().Declaration.Id);
        List<(string, Geometry)> zones = [.. new Sandarac.Studio.Zones(studio).Of(examined.Painting.Id).Select(z => (z.Kind, FoundZones.Geometry(z.Geometry)))];
        var leaks = run.Figures.Where(f => f.Name == "leaked-light").Select((f, b) => Math.Abs(f.Value!.Value - Leak[b]));
        return new One(seed, SpecimenScore.Of(folder, zones), Correlation(studio, run, folder), leaks.Max());
    }

    private static double Correlation(OpenStudio studio, Run run, string folder)
    {
        var truth = SpecimenScore.VarnishUm(folder);
        using var raster = PyramidFile.Open(studio.Objects.PathOf(run.Rasters.Single(r => r.Name == "varnish").Pyramid.Sha256));
        var map = raster.ReadWindow(0, 0, 0, raster.Width, raster.Height)[0];
        var (columns, rows) = SpecimenScore.Lattice;
        var pairs = truth.Select((um, i) => (Um: (double)um, Seen: (double)map[(int)((i % columns + 0.5) / columns * map.Width), (int)((i / columns + 0.5) / rows * map.Height)]))
            .Where(p => double.IsFinite(p.Um) && double.IsFinite(p.Seen)).ToList();
        return MathNet.Numerics.Statistics.Correlation.Pearson(pairs.Select(p => p.Um), pairs.Select(p => p.Seen));
    }

    private sealed record One(int Seed, SpecimenScore Score, double Varnish, double LeakError)
    {
        public string Line => FormattableString.Invariant($"seed {Seed}: over F1 {Score.Over.AreaF1:0.000} by area, {Score.Over.ObjectF1:0.000} by object; under {Score.Under.ObjectF1:0.000}; cleaning {Score.Cleaning.Overlap:0.000}; varnish r {Varnish:0.000}; dark {100 * Score.FalseOnDark:0.00} %; leak off by {LeakError:0.00} %");
    }
}
