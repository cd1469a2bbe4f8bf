using System.Diagnostics;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Archive;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Tests.Treatment;

/// <summary>A treatment in a package, and in a studio whose program is killed.</summary>
public sealed class TreatmentArchiveTests(ITestOutputHelper output)
{
    [Fact]
    public void A_package_carries_the_treatment_and_its_approval_still_holds_where_it_is_unpacked()
    {
        using var home = new TreatmentHome();
        var steps = home.Begun();
        var entry = home.Write(TreatmentHome.Entry(steps[0].Id, 0, 2, home.Zone("left", 0, 0, 100, 100)) with { Materials = [new LogMaterial("isooctane", 20, "mL", "B7", MaterialUse.Used)] });
        using var studios = new PackStudios();
        PackStudios.Pack(home.Studio, home.Painting.Id, studios["bag"]);
        PackStudios.Unpack(studios.B, studios["bag"]);
        Assert.Equal(PackStudios.Rows(home.Studio, home.Painting.Id), PackStudios.Rows(studios.B, home.Painting.Id));
        var approval = Assert.Single(new Approvals(studios.B).Of(home.Painting.Id));
        Assert.Empty(new Approvals(studios.B).Verify(approval.ProposalId));
        Assert.Equal(0.25, new TreatmentProgress(studios.B).Of(home.Painting.Id)[0].Days[0].Share, 9);
        Assert.Equal("proposal-approved", Assert.Throws<InputProblem>(() => new Proposals(studios.B).Delete(approval.ProposalId, 1, TreatmentHome.User)).Code);
        var logged = JsonNode.Parse(File.ReadAllText(Path.Combine(studios["bag"], "data", "record", "record.jsonld")))!["modified_by"]!.AsArray().Single()!;
        Assert.Equal(($"urn:uuid:{entry.Id}", "Modification", "Marta Oud", "varnish removal", "2026-03-02T00:00:00Z"),
            ((string)logged["id"]!, (string)logged["type"]!, (string)logged["carried_out_by"]![0]!["_label"]!, (string)logged["technique"]![0]!["_label"]!, (string)logged["timespan"]!["begin_of_the_begin"]!));
        Assert.Equal(["Swabs, rolled.", "isooctane, 20 mL, B7, Used"], logged["referred_to_by"]!.AsArray().Select(r => (string)r!["content"]!));
    }

    [Fact]
    public void An_approval_that_was_tampered_with_is_not_packed()
    {
        using var home = new TreatmentHome();
        home.Approved();
        using var db = home.Studio.CreateDb();
        db.Database.ExecuteSqlRaw("""UPDATE "ProposalApprovals" SET "Text" = replace("Text", '2500', '9500')""");
        using var studios = new PackStudios();
        Assert.Equal("seal-broken", Assert.Throws<InputProblem>(() => PackStudios.Pack(home.Studio, home.Painting.Id, studios["bag"])).Code);
    }

    /// <summary>A child process writes entries and says of each that it is stored; wherever it is killed, what it said is there, whole and with its history.</summary>
    [Fact]
    public void An_entry_reported_stored_survives_a_kill()
    {
        var random = new Random(Environment.TickCount);
        using var home = new TreatmentHome();
        var (step, folder) = (home.Begun()[0].Id, home.Home.Folder);
        home.Studio.Dispose();
        HashSet<Guid> reported = [];
        for (var kill = 0; kill < 4; kill++)
        {
            var after = TimeSpan.FromMilliseconds(200 * random.NextDouble());
            reported.UnionWith(Run(folder, home.Painting.Id, step, after));
            using var studio = OpenStudio.At(folder);
            var log = new TreatmentLog(studio);
            var stored = log.Of(home.Painting.Id).Select(e => e.Id).ToHashSet();
            Assert.True(reported.IsSubsetOf(stored), $"kill {kill} after {after.TotalMilliseconds:0} ms");
            Assert.All(stored, id => Assert.Single(log.History(id)));
        }
        output.WriteLine($"{reported.Count} entries were reported");
    }

    private static List<Guid> Run(string folder, Guid painting, Guid step, TimeSpan killAfter)
    {
        using var child = Process.Start(new ProcessStartInfo(Environment.ProcessPath!, ["log", folder, $"{painting}", $"{step}"]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        Assert.Equal("open", child.StandardOutput.ReadLine());
        // The first entry takes as long as starting does; the time counts from then on.
        List<Guid> lines = [Guid.Parse(child.StandardOutput.ReadLine()!)];
        child.WaitForExit(killAfter);
        child.Kill();
        // The last line may have been cut.
        while (child.StandardOutput.ReadLine() is { } line)
            if (Guid.TryParse(line, out var id)) lines.Add(id);
        child.WaitForExit();
        return lines;
    }
}
