using System.Diagnostics;
using System.Globalization;
using Sandarac.Analysis.Brushwork;
using Sandarac.Analysis.Declaring;
using Sandarac.Benchmarks.Alignment;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;
using Sandarac.Specimen;
using Figure = Sandarac.Benchmarks.Measuring.Figure;

namespace Sandarac.Benchmarks.Brushwork;

/// <summary>Brushwork of specimens, photographs laid on the plane by their true maps, against the marks that were laid.</summary>
internal sealed class BrushworkBenchmark : Benchmark
{
    private static readonly string[] Sides = ["N_az000", "NE_az045", "E_az090", "SE_az135", "S_az180", "SW_az225", "W_az270", "NW_az315"];

    public override string Name => "brushwork";

    public override string Summary => "directions, body and strokes of specimens under eight raking lamps against the marks that were laid";

    public override IReadOnlyList<string> Takes => ["--seeds", "--ppi"];

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var (ppi, all) = (settings.PixelsPerInch ?? (settings.Quick ? 60 : 150), new List<One>());
        for (var seed = 1; seed <= (settings.Seeds ?? (settings.Quick ? 1 : 3)); seed++)
        {
            var folder = Path.Combine(settings.Folder, $"specimen{seed}");
            all.Add(Score(folder, seed, ppi));
            Directory.Delete(folder, true);
            Say(all[^1].Line);
        }
        Figure Mean(string what, string unit, Func<One, double> of, Limit? limit) => new($"{what}, {ppi} ppi", unit, all.Average(of)) { Limit = limit, Note = $"mean of {all.Count} specimens, from {Figure.Show(all.Min(of))} to {Figure.Show(all.Max(of))}" };
        yield return Mean("direction of the topmost mark, median error", "degrees", o => o.Field, null);
        yield return Mean("direction of strokes, median error", "degrees", o => o.Strokes, new Limit(3, false));
        yield return Mean("strokes that are for the most part one mark", "%", o => 100 * o.OneMark, null);
        yield return Mean("classes of body, balanced accuracy lacks to 1", "share", o => 1 - o.Body, new Limit(0.15, false));
        yield return Mean("the reading", "s", o => o.Seconds, null);
    }

    private static One Score(string folder, int seed, double ppi)
    {
        string[] names = ["VIS_01.tif", "VIS_flat.tif", .. Sides.SelectMany(s => new[] { $"RAK_{s}_el15.tif", $"RAK_{s}_el15_flat.tif" })];
        SpecimenDrawing.Draw(new SpecimenSettings(ppi, seed, names), folder);
        var truth = BrushTruth.Read(folder);
        var maps = SpecimenTruth.Read(folder);
        var grid = new PlaneGrid(new Box(0, 0, truth.Mm * truth.Height.Width, truth.Mm * truth.Height.Height), truth.Mm);
        foreach (var name in names) maps.LayOnPlane(folder, name, grid, name.Replace("_flat", "", StringComparison.Ordinal).Replace("VIS.tif", "VIS_01.tif", StringComparison.Ordinal));
        string[] images = [.. names.Select(n => $"{(n.StartsWith("VIS", StringComparison.Ordinal) ? "visible" : "raking")}{(n.Contains("flat", StringComparison.Ordinal) ? "-board" : "")}={Path.Combine(folder, n)}")];
        var started = Stopwatch.GetTimestamp();
        BareRun.Execute(new BareRequest(new BrushworkReading(), images, new Dictionary<string, string>(), truth.Mm, Path.Combine(folder, "out")), null, CancellationToken.None);
        var seconds = Stopwatch.GetElapsedTime(started).TotalSeconds;
        Plane Raster(string name)
        {
            using var image = ImageFile.Open(Path.Combine(folder, "out", name + ".tif"));
            return image.ReadWindow(0, 0, image.Facts.Width, image.Facts.Height)[0];
        }
        var direction = Raster("direction");
        var (strokes, oneMark) = OfStrokes(Raster("strokes"), direction, truth);
        var field = Rounds.Median(direction.Data.Zip(truth.Degrees.Data, (a, b) => BrushTruth.Between(a, b)).Where(double.IsFinite));
        return new One(seed, field, strokes, oneMark, Body(Raster("body"), truth), seconds);
    }

    /// <summary>Directions of strokes against the mean of the marks on top within them; how many are for the most part one mark.</summary>
    private static (double Error, double OneMark) OfStrokes(Plane strokes, Plane direction, BrushTruth truth)
    {
        var (errors, one) = (new List<double>(), 0);
        var pieces = Enumerable.Range(0, strokes.Data.Length).Where(i => strokes.Data[i] > 0).GroupBy(i => strokes.Data[i]).Select(g => g.ToArray()).ToList();
        foreach (var piece in pieces)
        {
            if (piece.CountBy(i => truth.Topmost.Data[i]).Where(t => t.Key > 0).Select(t => t.Value).DefaultIfEmpty(0).Max() * 2 >= piece.Length) one++;
            var marked = piece.Where(i => float.IsFinite(truth.Degrees.Data[i])).ToList();
            if (marked.Count > 0) errors.Add(BrushTruth.Between(BrushTruth.Mean(piece.Select(i => (double)direction.Data[i])), BrushTruth.Mean(marked.Select(i => (double)truth.Degrees.Data[i]))));
        }
        return (Rounds.Median(errors), (double)one / pieces.Count);
    }

    /// <summary>Mean over the classes of the part of the true surface's class that is recognised, classes that cover less than a thousandth left out.</summary>
    private static double Body(Plane classes, BrushTruth truth)
    {
        var (threads, parameters) = (new ParallelOptions(), new BrushworkReading().Declaration.Parameters);
        double Default(string name) => double.Parse(parameters.Single(p => p.Name == name).DefaultText, CultureInfo.InvariantCulture);
        var relief = ReliefTexture.Between(truth.Height, Default("shortest-wave") / truth.Mm, Default("longest-wave") / truth.Mm, threads);
        var sq = ReliefTexture.LocalSq(relief, Default("window") / truth.Mm, threads);
        double[] thresholds = [Default("thin-from"), Default("body-from"), Default("impasto-from")];
        var known = Enumerable.Range(0, sq.Data.Length).Where(i => float.IsFinite(classes.Data[i])).Select(i => (Truth: thresholds.Count(t => sq.Data[i] >= t), Found: (int)classes.Data[i])).ToList();
        return known.GroupBy(k => k.Truth).Where(g => g.Count() * 1000.0 >= known.Count).Average(g => g.Average(k => k.Found == k.Truth ? 1.0 : 0));
    }

    private sealed record One(int Seed, double Field, double Strokes, double OneMark, double Body, double Seconds)
    {
        public string Line => FormattableString.Invariant($"seed {Seed}: field {Field:0.0}, strokes {Strokes:0.0} degrees; {100 * OneMark:0} % one mark; body {Body:0.000}; {Seconds:0.0} s");
    }
}
