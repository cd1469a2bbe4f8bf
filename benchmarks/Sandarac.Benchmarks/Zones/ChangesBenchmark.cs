using System.Text.Json;
using NetTopologySuite.Geometries;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging;
using Sandarac.Imaging.Tiles;
using Sandarac.Specimen;
using Sandarac.Specimen.Later;
using Sandarac.Specimen.Scoring;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Benchmarks.Zones;

/// <summary>
/// Specimens photographed twice, unchanged and with small damages, taken in and aligned as a user does: which of the changes are proposed, and what is proposed that is none. Beside it the
/// difference in colour of the same matched photographs cut at one level for all: the level, chosen with knowledge of the truth, above which no unchanged painting shows anything.
/// </summary>
internal sealed class ChangesBenchmark : Benchmark
{
    /// <summary>How far outside a true change a candidate may lie and still mean it, mm.</summary>
    private const double Near = 1.5;

    public override string Name => "changes";

    public override string Summary => "small changes between two photographs of specimens, and false ones on unchanged pairs, against truth";

    public override IReadOnlyList<string> Takes => ["--seeds", "--ppi"];

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var (seeds, unchanged, changed) = (settings.Seeds ?? (settings.Quick ? 1 : 10), new List<Compared>(), new List<Compared>());
        // Other seeds than those that the reading was made with.
        for (var seed = 101; seed <= 100 + seeds; seed++)
            foreach (var (state, list) in new[] { (LaterState.Unchanged, unchanged), (LaterState.Changed, changed) })
            {
                list.Add(Compare(Path.Combine(settings.Folder, $"{state}{seed}"), settings.PixelsPerInch ?? 60, seed, state));
                Say($"seed {seed}, {state}: {list[^1].Line}");
            }
        var (level, all) = (unchanged.Max(c => c.Highest()), changed.SelectMany(c => c.Changes).ToList());
        foreach (var group in all.GroupBy(c => FormattableString.Invariant($"{c.Kind} {c.WidthMm} mm")).OrderBy(g => g.Key, StringComparer.Ordinal))
            Say(FormattableString.Invariant($"{group.Key}: {group.Count(c => c.IsFound)} of {group.Count()}; one level: {group.Count(c => c.Strongest > level)}; missed by dE {string.Join(", ", group.Where(c => !c.IsFound).Select(c => c.Difference))}"));
        yield return new Figure("changes missed", "share", 1 - all.Average(c => c.IsFound ? 1.0 : 0))
        {
            Peer = 1 - all.Average(c => c.Strongest > level ? 1.0 : 0), PeerName = "one level of the same matched difference", Note = $"{all.Count} changes on {seeds} specimens",
        };
        yield return new Figure("unchanged pairs with a candidate", "share", unchanged.Average(c => c.False > 0 ? 1.0 : 0)) { Limit = new Limit(0.1, false), Note = $"{unchanged.Sum(c => c.False)} candidates on {seeds} pairs" };
        yield return new Figure("false candidates on a changed painting, mean", "1", changed.Average(c => (double)c.False));
    }

    private static Compared Compare(string folder, double ppi, int seed, LaterState state)
    {
        SpecimenDrawing.Draw(new SpecimenSettings(ppi, seed, ["VIS_01.tif"]), folder);
        SpecimenDrawing.Draw(new SpecimenSettings(ppi, seed, ["VIS_02.tif"], Later: state), folder);
        try
        {
            using var studio = OpenStudio.At(Path.Combine(folder, "studio"));
            var painting = new Examining(studio).Examine(Path.Combine(folder, "photographs"), new ExamineOptions { HeightMm = SpecimenPainting.HeightMm, WidthMm = SpecimenPainting.WidthMm }).Painting;
            using var db = studio.CreateDb();
            var photographs = db.Photographs.Where(p => p.PaintingId == painting.Id).ToDictionary(p => p.FileName, p => p.Id);
            var running = new Running(studio);
            var run = running.Execute(running.Queue(new RunRequest(painting.Id, "changes", new Dictionary<string, string>(),
                new Dictionary<string, IReadOnlyList<Guid>> { ["baseline"] = [photographs["VIS_01.tif"]], ["later"] = [photographs["VIS_02.tif"]] }, "bench")).Id);
            if (run.State != RunState.Done) throw new InputProblem("no-comparison", run.ReadingId, $"The comparison ended {run.State}: {run.NoAnswer}", "See the run.");
            Geometry[] found = [.. new Sandarac.Studio.Zones(studio).Of(painting.Id).Where(z => z.RunId == run.Id).Select(z => FoundZones.Geometry(z.Geometry))];
            using var raster = PyramidFile.Open(studio.Objects.PathOf(run.Rasters.Single(r => r.Name == "colour-difference").Pyramid.Sha256));
            return Compared.Of(Path.Combine(folder, "truth", "changes.json"), found, raster.ReadWindow(0, 0, 0, raster.Width, raster.Height)[0]);
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    private sealed record Change(string Kind, double WidthMm, double Difference, bool IsFound, double Strongest);

    private sealed record Compared(IReadOnlyList<Change> Changes, int False, Plane Colour)
    {
        public string Line => FormattableString.Invariant($"{Changes.Count(c => c.IsFound)} of {Changes.Count} found, {False} false");

        public static Compared Of(string truth, Geometry[] found, Plane colour)
        {
            using var document = JsonDocument.Parse(File.ReadAllText(truth));
            var changes = new List<(JsonElement Told, Geometry Place)>();
            foreach (var told in document.RootElement.GetProperty("changes").EnumerateArray().Select(c => c.Clone()))
            {
                Coordinate Place(string field) => new(told.GetProperty(field)[0].GetDouble(), told.GetProperty(field)[1].GetDouble());
                changes.Add((told, ((Geometry)(Place("fromMm").Equals2D(Place("toMm")) ? new Point(Place("fromMm")) : new LineString([Place("fromMm"), Place("toMm")]))).Buffer(told.GetProperty("widthMm").GetDouble() / 2 + 0.1)));
            }
            return new Compared(
                [.. changes.Select(c => new Change(c.Told.GetProperty("kind").GetString()!, c.Told.GetProperty("widthMm").GetDouble(), c.Told.GetProperty("difference").GetDouble(),
                    found.Any(f => f.Distance(c.Place) < Near / 3), Strongest(colour, c.Place)))],
                found.Count(f => changes.All(c => f.Distance(c.Place) > Near)), colour);
        }

        /// <summary>The greatest difference, the picture's rim left out.</summary>
        public double Highest()
        {
            var inner = Enumerable.Range(0, Colour.Data.Length).Where(i => i % Colour.Width is var x && x > 3 && x < Colour.Width - 4 && i / Colour.Width is var y && y > 3 && y < Colour.Height - 4).Select(i => Colour.Data[i]);
            return inner.Where(float.IsFinite).Max();
        }

        private static double Strongest(Plane colour, Geometry place)
        {
            var (mm, box, most) = (SpecimenPainting.WidthMm / colour.Width, place.EnvelopeInternal, 0.0);
            for (var y = Math.Max(0, (int)(box.MinY / mm)); y <= Math.Min(colour.Height - 1, (int)(box.MaxY / mm)); y++)
                for (var x = Math.Max(0, (int)(box.MinX / mm)); x <= Math.Min(colour.Width - 1, (int)(box.MaxX / mm)); x++)
                    if (place.Distance(new Point((x + 0.5) * mm, (y + 0.5) * mm)) < mm) most = Math.Max(most, colour[x, y]);
            return most;
        }
    }
}
