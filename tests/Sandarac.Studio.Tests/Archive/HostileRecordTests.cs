using System.Text.Json.Nodes;
using Sandarac.Imaging;

namespace Sandarac.Studio.Tests.Archive;

/// <summary>Packages that are sound as bags, and whose record does not mean well. The studio stays as it was.</summary>
[Collection(nameof(PackedOnce))]
public sealed class HostileRecordTests(PackedOnce studios)
{
    private static readonly Dictionary<string, (string Code, Action<JsonObject> Change)> Changes = new()
    {
        ["a text where a number belongs"] = ("record-damaged", r => r.First("Paintings")["WidthMm"] = "wide"),
        ["a number where a text belongs"] = ("record-damaged", r => r.First("Zones")["Name"] = 7),
        ["a list where a row belongs"] = ("record-damaged", r => r["tables"]!["Zones"]!.AsArray().Add(new JsonArray())),
        ["nothing where a text belongs"] = ("record-damaged", r => r.First("Zones")["Name"] = null),
        ["nothing in a list"] = ("record-damaged", r => r.First("Photographs")["Warnings"] = new JsonArray { null }),
        ["no size"] = ("record-damaged", r => r.First("Paintings")["HeightMm"] = "NaN"),
        ["a value that no list has"] = ("record-damaged", r => r.First("Runs")["State"] = "Exploded"),
        ["a value by its number"] = ("record-damaged", r => r.First("Runs")["State"] = 3),
        ["a time that is none"] = ("record-damaged", r => r.First("Paintings")["CreatedAt"] = "yesterday"),
        ["a key that is none"] = ("record-damaged", r => r.First("Zones")["Id"] = "1"),
        ["a map without coefficients"] = ("record-damaged", r => r.First("Alignments")["Map"] = new JsonObject { ["model"] = "homography", ["pixelToPlane"] = new JsonArray { 1 } }),
        ["a map of an unknown kind"] = ("record-damaged", r => r.First("Alignments")["Map"] = new JsonObject { ["model"] = "System.Diagnostics.Process" }),
        ["a row twice"] = ("record-damaged", r => r["tables"]!["Zones"]!.AsArray().Add(r.First("Zones").DeepClone())),
        ["two paintings"] = ("record-damaged", r => { var other = r.First("Paintings").DeepClone(); other["Id"] = Guid.NewGuid(); r["tables"]!["Paintings"]!.AsArray().Add(other); }),
        ["no painting"] = ("record-damaged", r => r["tables"]!.AsObject().Remove("Paintings")),
        ["a file that no row speaks of"] = ("record-damaged", r => r["objects"]![0]!["sha256"] = new string('a', 64)),
        ["a file's path that leads out"] = ("record-damaged", r => r["objects"]![0]!["path"] = "../../../etc/passwd"),
        ["a file's hash with a path in it"] = ("record-damaged", r => r["objects"]![0]!["sha256"] = "../../../../../../../../../../../../../../../../../../../../../../ab"),
        ["a pyramid of another size"] = ("record-damaged", r => { foreach (var run in r["tables"]!["RunRasters"]!.AsArray()) run!["Pyramid"]!["width"] = 900; }),
        ["a history of another kind"] = ("record-damaged", r => r.First("WrittenChanges")["Content"] = "[]"),
        ["a history of nothing"] = ("refers-outside", r => r.First("WrittenChanges")["SubjectId"] = Guid.NewGuid()),
        ["a zone of another painting"] = ("refers-outside", r => r.First("Zones")["PaintingId"] = Guid.NewGuid()),
        ["a run that is not there"] = ("refers-outside", r => r.First("Zones")["RunId"] = Guid.NewGuid()),
        ["a photograph that is a zone"] = ("refers-outside", r => r.First("Alignments")["PhotographId"] = r.First("Zones")["Id"]!.DeepClone()),
        ["evidence that is not there"] = ("refers-outside", r => r.First("Findings")["Evidence"] = new JsonArray { new JsonObject { ["kind"] = "Sample", ["id"] = null, ["note"] = "" } }),
        ["a geometry that is none"] = ("geometry", r => r.First("Zones")["Geometry"] = "{\"type\":\"Point\"}"),
        ["a geometry without end"] = ("geometry", r => r.First("Zones")["Geometry"] = "{\"type\":\"Point\",\"coordinates\":[1e999,0]}"),
        ["a geometry a thousand deep"] = ("geometry", r => r.First("Zones")["Geometry"] = Forgery.Nested(1000)),
        ["a sign that is no letter"] = ("text-unreadable", r => r.First("Zones")["Note"] = "\u0000"),
        ["a run that is to be carried out here"] = ("runs-under-way", r => r.First("Runs")["State"] = "Queued"),
        ["a signed state that was changed"] = ("seal-broken", r => r.First("StateSeals")["Text"] = "all is well"),
        ["a signature under another text"] = ("seal-broken", r => r.First("Signatures")["Sha256"] = new string('0', 64)),
        ["an approved proposal that was changed"] = ("seal-broken", r => r.First("ProposalApprovals")["Text"] = "all is well"),
        ["a later version"] = ("record-newer", r => r["version"] = 2),
        ["a table of a later program"] = ("record-newer", r => r["tables"]!["Scents"] = new JsonArray { new JsonObject() }),
        ["a column of a later program"] = ("record-newer", r => r.First("Zones")["Scent"] = "linseed"),
        ["another format"] = ("record-damaged", r => r["format"] = "something else"),
    };

    public static TheoryData<string> Names => [.. Changes.Keys];

    [Theory, MemberData(nameof(Names))]
    public void Invalid_records_are_refused(string name)
    {
        var bag = studios.Copy();
        Forgery.Rewrite(bag, Changes[name].Change);
        Assert.Equal(Changes[name].Code, Assert.Throws<InputProblem>(() => PackStudios.Unpack(studios.B, bag)).Code);
        PackStudios.AssertEmpty(studios.B);
    }

    [Theory]
    [InlineData("not json")]
    [InlineData("{}")]
    [InlineData("[]")]
    [InlineData("")]
    [InlineData("{\"format\":\"sandarac-record\",\"format\":\"sandarac-record\"}")]
    [InlineData("{\"format\":\"sandarac-record\",\"software\":\"\",\"version\":1,\"painting\":\"x\"}")]
    [InlineData("{\"format\":\"sandarac-record\",\"software\":\"\",\"version\":1,\"painting\":\"6f2b1a4e-5d0c-4f6a-9a57-3c1f0e8d7b21\",\"tables\":[],\"objects\":[]}")]
    public void Invalid_records_that_are_none_are_refused(string text)
    {
        var bag = studios.Copy();
        File.WriteAllText(Path.Combine(bag, "data", "record", "record.json"), text);
        Forgery.Seal(bag);
        Assert.Equal("record-damaged", Assert.Throws<InputProblem>(() => PackStudios.Unpack(studios.B, bag)).Code);
    }

    [Fact]
    public void Extreme_nesting_is_refused()
    {
        var bag = studios.Copy();
        File.WriteAllText(Path.Combine(bag, "data", "record", "record.json"), Forgery.Nested(1_000_000));
        Forgery.Seal(bag);
        Assert.Equal("record-damaged", Assert.Throws<InputProblem>(() => PackStudios.Unpack(studios.B, bag)).Code);
    }
}
