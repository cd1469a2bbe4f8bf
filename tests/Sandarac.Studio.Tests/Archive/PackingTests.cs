using System.Diagnostics;
using System.Text.Json.Nodes;
using Sandarac.Imaging;
using Sandarac.Studio.Archive;
using Sandarac.Studio.Record;
using Sandarac.Studio.Storage;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Archive;

[Collection(nameof(PackedOnce))]
public sealed class PackingTests(PackedOnce once)
{
    /// <summary>The witness is GNU coreutils: its program reads the manifest and compares every file.</summary>
    [Fact]
    public void The_manifests_are_what_sha512sum_reads()
    {
        if (!OperatingSystem.IsLinux()) Assert.Skip("sha512sum is a program of Linux.");
        var bag = once.Bag;
        foreach (var manifest in new[] { "manifest-sha512.txt", "tagmanifest-sha512.txt" })
        {
            // A percent sign in a name is encoded in the manifest, which sha512sum does not know: no name has one.
            Assert.DoesNotContain('%', File.ReadAllText(Path.Combine(bag, manifest)));
            using var process = Process.Start(new ProcessStartInfo("sha512sum", ["--check", "--strict", "--quiet", manifest]) { WorkingDirectory = bag, RedirectStandardOutput = true, RedirectStandardError = true })!;
            var said = process.StandardOutput.ReadToEnd() + process.StandardError.ReadToEnd();
            process.WaitForExit();
            Assert.True(process.ExitCode == 0, said);
        }
        var listed = File.ReadLines(Path.Combine(bag, "manifest-sha512.txt")).Select(l => l[130..]).ToList();
        Assert.Equal(listed.Order(StringComparer.Ordinal), listed);
        Assert.Equal(Directory.GetFiles(Path.Combine(bag, "data"), "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(bag, f).Replace('\\', '/')).Order(StringComparer.Ordinal), listed);
    }

    /// <summary>What RO-Crate 1.1 demands of a crate (https://www.researchobject.org/ro-crate/specification/1.1/): "Root Data Entity" and "Data Entities".</summary>
    [Fact]
    public void The_crate_is_as_RO_Crate_demands()
    {
        var (painting, bag) = (once.Painting, once.Bag);
        var crate = JsonNode.Parse(File.ReadAllText(Path.Combine(bag, "data", "ro-crate-metadata.json")))!;
        var graph = crate["@graph"]!.AsArray().ToDictionary(e => (string)e!["@id"]!, e => e!.AsObject());
        Assert.Equal("https://w3id.org/ro/crate/1.1/context", (string)crate["@context"]![0]!);
        var descriptor = graph["ro-crate-metadata.json"];
        Assert.Equal(("CreativeWork", "./", "https://w3id.org/ro/crate/1.1"), ((string)descriptor["@type"]!, (string)descriptor["about"]!["@id"]!, (string)descriptor["conformsTo"]!["@id"]!));
        var root = graph["./"];
        Assert.Equal("Dataset", (string)root["@type"]!);
        Assert.All(new[] { "name", "description", "datePublished", "license" }, p => Assert.NotNull(root[p]));
        Assert.Equal("2026-11-26", (string)root["datePublished"]!);
        Assert.Equal($"urn:uuid:{painting}", (string)root["identifier"]!);
        var files = graph.Values.Where(e => (string)e["@type"]! == "File").Select(e => (string)e["@id"]!).Order(StringComparer.Ordinal).ToList();
        Assert.Equal(files, root["hasPart"]!.AsArray().Select(p => (string)p!["@id"]!).Order(StringComparer.Ordinal));
        string[] there = [.. Directory.GetFiles(Path.Combine(bag, "data"), "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(Path.Combine(bag, "data"), f).Replace('\\', '/'))];
        Assert.Equal(there.Where(f => f != "ro-crate-metadata.json").Order(StringComparer.Ordinal), files.Select(Uri.UnescapeDataString).Order(StringComparer.Ordinal));
        foreach (var id in files)
        {
            var file = Path.Combine(bag, "data", Uri.UnescapeDataString(id));
            Assert.Equal((new FileInfo(file).Length, ObjectStore.Hash(file)), (long.Parse((string)graph[id]["contentSize"]!, System.Globalization.CultureInfo.InvariantCulture), (string)graph[id]["sha256"]!));
        }
        // Every reference leads to an entity, or out into the web.
        Assert.All(References(crate["@graph"]!), id => Assert.True(graph.ContainsKey(id) || id.StartsWith("https://", StringComparison.Ordinal), id));
    }

    [Fact]
    public void Cancelled_anywhere_nothing_is_left()
    {
        using var studios = new PackStudios();
        var painting = RandomRecord.Write(studios.A, 3);
        foreach (var name in new[] { "bag", "bag.zip" })
            for (var after = 1; after < 6; after += 2)
            {
                using var cancel = new CancellationTokenSource();
                var reports = 0;
                var progress = new Reports(() => { if (++reports == after) cancel.Cancel(); });
                Assert.ThrowsAny<OperationCanceledException>(() => new Packing(studios.A, _ => []).Pack(painting, studios[name], progress, cancel.Token));
                Assert.Equal(["a"], Directory.GetFileSystemEntries(studios.Root).Select(Path.GetFileName).Order(StringComparer.Ordinal));
            }
        var thrown = Assert.Throws<InvalidOperationException>(() => new Packing(studios.A, _ => [new PackedDocument("x", "text/plain", _ => throw new InvalidOperationException("a defect"))]).Pack(painting, studios["bag"], cancellation: TestContext.Current.CancellationToken));
        Assert.Equal("a defect", thrown.Message);
        Assert.False(Path.Exists(studios["bag"]));
    }

    private static bool HasFileAndRun(OpenStudio studio, Guid painting)
    {
        using var db = studio.CreateDb();
        return db.Runs.Any(r => r.PaintingId == painting) && db.Photographs.Where(p => p.PaintingId == painting).AsEnumerable().Any(p => db.Objects.Find(p.Sha256)!.Bytes > 0);
    }

    [Fact]
    public void What_a_killed_packing_left_is_cleared_and_what_a_living_one_writes_is_not()
    {
        using var studios = new PackStudios();
        var painting = RandomRecord.Write(studios.A, 3);
        var dead = studios[$"bag.{(Owner.This with { StartedAt = Owner.This.StartedAt - 1000 }).FileStem}.part"];
        Directory.CreateDirectory(Path.Combine(dead, "data"));
        var own = studios["bag.notes.part"];
        File.WriteAllText(own, "somebody's own");
        PackStudios.Pack(studios.A, painting, studios["bag"]);
        Assert.False(Path.Exists(dead));
        Assert.True(File.Exists(own));
    }

    [Fact]
    public void Invalid_targets_and_paintings_are_refused_and_nothing_is_overwritten()
    {
        using var studios = new PackStudios();
        var painting = Enumerable.Range(3, 20).Select(seed => RandomRecord.Write(studios.A, seed)).First(id => HasFileAndRun(studios.A, id));
        File.WriteAllText(studios["there.zip"], "a letter");
        Assert.Equal("out-there", Assert.Throws<InputProblem>(() => PackStudios.Pack(studios.A, painting, studios["there.zip"])).Code);
        Assert.Equal("a letter", File.ReadAllText(studios["there.zip"]));
        Assert.Equal("out-folder", Assert.Throws<InputProblem>(() => PackStudios.Pack(studios.A, painting, studios["nowhere/bag"])).Code);
        Assert.Equal("unknown-painting", Assert.Throws<InputProblem>(() => PackStudios.Pack(studios.A, Guid.NewGuid(), studios["bag"])).Code);
        using var db = studios.A.CreateDb();
        var run = db.Runs.First(r => r.PaintingId == painting);
        run.State = RunState.Queued;
        db.SaveChanges();
        Assert.Equal("runs-under-way", Assert.Throws<InputProblem>(() => PackStudios.Pack(studios.A, painting, studios["bag"])).Code);
        run.State = RunState.Done;
        db.SaveChanges();
        var file = studios.A.Objects.PathOf(db.Photographs.Where(p => p.PaintingId == painting).AsEnumerable().First(p => db.Objects.Find(p.Sha256)!.Bytes > 0).Sha256);
        Forgery.Flip(file, 0);
        Assert.Equal("object-damaged", Assert.Throws<InputProblem>(() => PackStudios.Pack(studios.A, painting, studios["bag"])).Code);
        File.Delete(file);
        Assert.Equal("object-missing", Assert.Throws<InputProblem>(() => PackStudios.Pack(studios.A, painting, studios["bag"])).Code);
        Assert.False(Path.Exists(studios["bag"]));
    }

    /// <summary>The main job: an examination is packed, unpacked in an empty studio, and a run repeated there gives the same numbers.</summary>
    [Fact]
    public void An_examination_goes_to_another_studio_and_can_be_repeated_there()
    {
        using var studios = new PackStudios();
        SmallPhotographs.WriteSet(studios["photographs"]);
        var examination = new Examining(studios.A).Examine(studios["photographs"], new ExamineOptions { HeightMm = 100, WidthMm = 117, CornersOnly = true }, cancellation: TestContext.Current.CancellationToken);
        new Packing(studios.A).Pack(examination.Painting.Id, studios["bag"], cancellation: TestContext.Current.CancellationToken);
        var data = Path.Combine(studios["bag"], "data");
        foreach (var name in new[] { "VIS_01.tif", "IR_01.tif", "UVL_01.tif" }) Assert.Equal(File.ReadAllBytes(Path.Combine(studios["photographs"], name)), File.ReadAllBytes(Path.Combine(data, "originals", name)));
        Assert.Equal(new FirstDocument(studios.A).Html(examination.Painting.Id), File.ReadAllText(Path.Combine(data, "documents", "first-examination.html")));
        PackStudios.Unpack(studios.B, studios["bag"]);
        Assert.True(new Checking(studios.B).Check(cancellation: TestContext.Current.CancellationToken).IsClean);
        var again = new Running(studios.B).Rerun(examination.Runs.First(r => r.ReadingId == "false-colour").Id, null, TestContext.Current.CancellationToken);
        Assert.True(again is { FiguresEqual: true, RastersEqual: true }, string.Join("; ", again.Differences));
        Assert.Equal(new FirstDocument(studios.A).Html(examination.Painting.Id), new FirstDocument(studios.B).Html(examination.Painting.Id));
    }

    private static IEnumerable<string> References(JsonNode node) => node switch
    {
        JsonArray array => array.SelectMany(n => References(n!)),
        JsonObject o when o.Count == 1 && o["@id"] is { } id => [(string)id!],
        JsonObject o => o.Select(p => p.Value).OfType<JsonNode>().SelectMany(References),
        _ => [],
    };

    private sealed class Reports(Action report) : IProgress<double>
    {
        public void Report(double value) => report();
    }
}
