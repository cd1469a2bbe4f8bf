using System.Diagnostics;
using System.Security.Cryptography;
using System.Text;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Formats;
using Sandarac.Materials.Terms;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Benchmarks.Search;

/// <summary>Questions to a studio of 2,000 paintings and 100,000 generated findings; beside SQLite that reads the whole table.</summary>
internal sealed class SearchBenchmark : Benchmark
{
    private const string Python = "/usr/bin/python3";
    private const int Paintings = 2000, FindingsEach = 50;

    private static readonly string Script = Path.Combine(AppContext.BaseDirectory, "peers", "sqlite_scan.py");
    private static readonly string[] Words = ["veil", "whitish", "join", "along", "lower", "edge", "drip", "brown", "haze", "matt", "stroke", "scratch", "corner", "sky", "figure", "shadow", "lifted", "old", "thin", "local", "sharp", "lattice", "mast", "sail", "shore"];

    private static readonly ImageFacts Facts = new() { Width = 1, Height = 1, Bands = 1, Format = SampleFormat.UInt8, FullScale = 255, Kind = "TIFF" };

    /// <summary>A question, and the same in the peer's words.</summary>
    private static readonly (string What, SearchQuestion Question, string Condition)[] Questions =
    [
        ("all findings of blanching over 50 cm2 since 2019", new() { Term = "blanching", LeastMm2 = 5000, From = new DateOnly(2019, 1, 1) }, "\"Term\" LIKE '%/blanching%' AND \"AreaMm2\" >= 5000 AND \"On\" >= '2019-01-01'"),
        ("two words that many findings hold", new() { Words = "whitish veil" }, "\"Words\" LIKE '%whitish%' AND \"Words\" LIKE '%veil%'"),
        ("one word that most findings hold", new() { Words = "s" }, "\"Words\" LIKE '% s%'"),
        ("a word that one finding holds", new() { Words = "unicum" }, "\"Words\" LIKE '%unicum%'"),
        ("words in one light, since 2019", new() { Words = "haze sky", Light = "UVL", From = new DateOnly(2019, 1, 1) }, "\"Words\" LIKE '%haze%' AND \"Words\" LIKE '%sky%' AND \"Lights\" LIKE '% UVL %' AND \"On\" >= '2019-01-01'"),
        ("everything, the last page", new() { Skip = 99_900 }, "1"),
    ];

    public override string Name => "search";

    public override string Summary => $"{Questions.Length} questions to {Paintings} paintings with {FindingsEach} findings each, SQLite, beside reading the whole table with LIKE";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var (paintings, folder) = (settings.Quick ? 50 : Paintings, Path.Combine(settings.Folder, "studio"));
        using (var studio = OpenStudio.At(folder)) Fill(studio, paintings);
        var begin = Stopwatch.GetTimestamp();
        using var full = OpenStudio.At(folder);
        yield return new Figure("opening a record whose search rows are not made yet", "s", Stopwatch.GetElapsedTime(begin).TotalSeconds);
        var search = new Searching(full);
        var peers = Peers(folder);
        foreach (var ((what, question, _), i) in Questions.Select((q, i) => (q, i)))
        {
            var total = search.Find(question).Total;
            var seconds = Rounds.Median(Enumerable.Range(0, 9).Select(_ => Seconds(() => search.Find(question))));
            yield return new Figure(what, "s", seconds)
            {
                Peer = peers?[i].Seconds, PeerName = peers is null ? "peer not present: python3" : "SQLite by Python, the whole table read with LIKE", Limit = new Limit(0.2, false),
                Note = $"{total} found{(peers is null || peers[i].Count == total ? "" : $", the peer {peers[i].Count}")}",
            };
        }
    }

    private static void Fill(OpenStudio studio, int paintings)
    {
        var dice = new Random(7);
        var terms = Term.All.Where(t => t.Category == "condition").ToList();
        for (var i = 0; i < paintings; i++)
        {
            using var db = studio.CreateDb();
            var painting = new Painting { Title = $"Painting {i}", WidthMm = 600, HeightMm = 800, CreatedAt = DateTime.UnixEpoch };
            Photograph[] photographs = [.. new[] { "VIS", "UVL", "IR" }.Select(light => Photographed(painting, light, i))];
            db.Paintings.Add(painting);
            db.Objects.AddRange(photographs.Select(p => new StoredObject { Sha256 = p.Sha256, Bytes = 1, MediaType = "image/tiff", IsDerived = false, CreatedAt = DateTime.UnixEpoch }));
            db.Photographs.AddRange(photographs);
            for (var f = 0; f < FindingsEach; f++) Add(db, painting, photographs[dice.Next(3)], terms[dice.Next(terms.Count)], f + 1, i == 7 && f == 7 ? "unicum" : "", dice);
            db.SaveChanges();
        }
    }

    private static Photograph Photographed(Painting painting, string light, int number) => new()
    {
        PaintingId = painting.Id, FileName = $"{light}_01.tif", Sha256 = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{light} {number}"))), Light = light, Facts = Facts,
    };

    private static void Add(StudioDb db, Painting painting, Photograph photograph, Term term, int number, string rare, Random dice)
    {
        var side = Math.Sqrt(dice.NextDouble() * 12_000);
        var zone = new Zone { PaintingId = painting.Id, Name = $"zone {number}", CreatedAt = DateTime.UnixEpoch, Geometry = FormattableString.Invariant($$"""{"type":"Polygon","coordinates":[[[0,0],[{{side}},0],[{{side}},{{side}}],[0,{{side}}],[0,0]]]}""") };
        var content = new FindingContent
        {
            Number = number, Observation = $"{rare} {string.Join(' ', dice.GetItems(Words, 12))}", Interpretation = string.Join(' ', dice.GetItems(Words, 12)), Term = term.Key, Author = "Marta Oud", Zones = [zone.Id],
            SeenOn = new DateOnly(2010, 1, 1).AddDays(dice.Next(6000)), Evidence = [new Evidence(EvidenceKind.Photograph, photograph.Id, "")],
        };
        db.Zones.Add(zone);
        db.Findings.Add(new Finding { PaintingId = painting.Id, Content = content, CreatedAt = DateTime.UnixEpoch, Revision = 1 });
    }

    private static (double Seconds, int Count)[]? Peers(string folder)
    {
        if (!File.Exists(Python)) return null;
        var lines = Child.Run(Child.Of(Python, [Script, Path.Combine(folder, "studio.db"), .. Questions.Select(q => q.Condition)])).Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        return [.. lines.Select(l => l.Split(' ')).Select(f => (Invariant.Number(f[0]), (int)Invariant.Number(f[1])))];
    }

    private static double Seconds(Action work)
    {
        var start = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }
}
