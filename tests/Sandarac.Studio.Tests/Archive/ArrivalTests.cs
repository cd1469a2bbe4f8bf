using System.Text.Json.Nodes;
using Sandarac.Imaging;

namespace Sandarac.Studio.Tests.Archive;

/// <summary>How a record meets what is in the studio already.</summary>
public sealed class ArrivalTests
{
    [Fact]
    public void A_record_with_the_keys_of_another_painting_is_refused()
    {
        using var studios = new PackStudios();
        var (_, first) = studios.PackOne(1, "first");
        var (_, second) = studios.PackOne(2, "second");
        PackStudios.Unpack(studios.B, first);
        using var db = studios.B.CreateDb();
        var (zone, photograph) = (db.Zones.First().Id, db.Photographs.First().Id);
        var before = (db.Zones.Count(), db.Objects.Count());
        Forgery.Rewrite(second, r =>
        {
            var old = r.First("Zones")["Id"]!.GetValue<string>();
            var text = r["tables"]!.ToJsonString().Replace(old, $"{zone}", StringComparison.Ordinal);
            r["tables"] = JsonNode.Parse(text);
        });
        Assert.Equal("id-clash", Assert.Throws<InputProblem>(() => PackStudios.Unpack(studios.B, second)).Code);
        var (_, third) = studios.PackOne(3, "third");
        Forgery.Rewrite(third, r => r.First("Runs")["Inputs"] = new JsonArray { new JsonObject { ["slot"] = "a", ["photographId"] = photograph, ["fileName"] = "", ["sha256"] = "", ["light"] = null, ["mmPerPixel"] = null, ["scaleOrigin"] = null } });
        Assert.Equal("refers-outside", Assert.Throws<InputProblem>(() => PackStudios.Unpack(studios.B, third)).Code);
        Assert.Equal(before, (db.Zones.Count(), db.Objects.Count()));
    }

    [Fact]
    public void A_term_that_means_something_else_here_is_refused_and_one_that_means_the_same_is_shared()
    {
        using var studios = new PackStudios();
        var (_, bag) = studios.PackOne();
        using var from = studios.A.CreateDb();
        var term = from.HouseTerms.First(t => from.Findings.Any(f => f.Content.Term == t.Key));
        void Add(string definition)
        {
            using var db = studios.B.CreateDb();
            db.HouseTerms.RemoveRange(db.HouseTerms);
            db.HouseTerms.Add(new Record.HouseTerm { Key = term.Key, Category = term.Category, Group = term.Group, Name = term.Name, Definition = definition, By = "someone here", At = DateTime.UtcNow });
            db.SaveChanges();
        }
        Add("something else");
        Assert.Equal("house-term-differs", Assert.Throws<InputProblem>(() => PackStudios.Unpack(studios.B, bag)).Code);
        PackStudios.AssertEmpty(studios.B);
        Add(term.Definition);
        PackStudios.Unpack(studios.B, bag);
        using var into = studios.B.CreateDb();
        Assert.Equal("someone here", into.HouseTerms.Find(term.Key)!.By);
    }

    [Fact]
    public void Packing_refuses_what_could_not_be_unpacked()
    {
        using var studios = new PackStudios();
        var painting = RandomRecord.Write(studios.A, 5);
        using var db = studios.A.CreateDb();
        var zone = db.Zones.First();
        zone.Note = "\u0001";
        db.SaveChanges();
        Assert.Equal("text-unreadable", Assert.Throws<InputProblem>(() => PackStudios.Pack(studios.A, painting, studios["bag"])).Code);
        Assert.False(Path.Exists(studios["bag"]));
    }
}
