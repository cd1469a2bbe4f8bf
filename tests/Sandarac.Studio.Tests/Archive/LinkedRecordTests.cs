using System.Text;
using System.Text.Json.Nodes;
using Sandarac.Imaging;
using Sandarac.Studio.Archive;
using Sandarac.Studio.Archive.Rows;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Tests.Archive;

/// <summary>The record in the terms of Linked Art: the shapes are those of https://linked.art/model/object/physical/ and /model/conservation/, the concepts' numbers those that these pages use.</summary>
[Collection(nameof(PackedOnce))]
public sealed class LinkedRecordTests(PackedOnce once)
{
    [Fact]
    public void A_painting_with_findings_is_what_Linked_Art_has_for_them()
    {
        using var studios = new PackStudios();
        var painting = new Painting { Title = "Ferry at low water", AccessionNumber = "F 12", WidthMm = 412, HeightMm = 518, SizeUncertainty = 0.01, SizeOrigin = ScaleOrigin.Measured, DateFrom = 1630, DateTo = 1640, CreatedAt = DateTime.UtcNow };
        using (var db = studios.A.CreateDb())
        {
            db.Paintings.Add(painting);
            db.Add(Finding(painting, 1, "support-canvas/tear", "A tear of 40 mm"));
            db.Add(Finding(painting, 2, "support-canvas/hole / puncture", "A hole"));
            db.Add(Finding(painting, 3, "support-canvas/tack / staple corrosion", "Rust"));
            db.SaveChanges();
        }
        PackStudios.Pack(studios.A, painting.Id, studios["bag"]);
        var linked = JsonNode.Parse(File.ReadAllText(Path.Combine(studios["bag"], "data", "record", "record.jsonld")))!;
        Assert.Equal(("HumanMadeObject", $"urn:uuid:{painting.Id}", "https://linked.art/ns/v1/linked-art.json"), ((string)linked["type"]!, (string)linked["id"]!, (string)linked["@context"]![0]!));
        Assert.Equal("http://vocab.getty.edu/aat/300033618", (string)linked["classified_as"]![0]!["id"]!);
        Assert.Equal(["Ferry at low water", "F 12"], linked["identified_by"]!.AsArray().Select(n => (string)n!["content"]!));
        Assert.Equal([(518.0, 512.82, 523.18), (412, 407.88, 416.12)], linked["dimension"]!.AsArray().Select(d => ((double)d!["value"]!, Math.Round((double)d["lower_value_limit"]!, 6), Math.Round((double)d["upper_value_limit"]!, 6))));
        Assert.Equal(("1630-01-01T00:00:00Z", "1640-12-31T23:59:59Z"), ((string)linked["produced_by"]!["timespan"]!["begin_of_the_begin"]!, (string)linked["produced_by"]!["timespan"]!["end_of_the_end"]!));
        var stated = linked["attributed_by"]!.AsArray();
        Assert.All(stated, s => Assert.Equal("AttributeAssignment", (string)s!["type"]!));
        // A concept whose label is the term; a term without one; one whose concept is only near.
        Assert.Equal(["http://vocab.getty.edu/aat/300252881", null, null], stated.Select(s => (string?)s!["assigned"]![0]!["id"]));
        Assert.Equal(["tear", "hole / puncture", "tack / staple corrosion"], stated.Select(s => (string)s!["assigned"]![0]!["_label"]!));
        Assert.Equal(("A tear of 40 mm", "A. Conservator", "2026-11-02T00:00:00Z"), ((string)stated[0]!["referred_to_by"]![0]!["content"]!, (string)stated[0]!["carried_out_by"]![0]!["_label"]!, (string)stated[0]!["timespan"]!["begin_of_the_begin"]!));
    }

    /// <summary>Every word of our own is defined in the context that lies beside it.</summary>
    [Fact]
    public void Own_terms_are_defined_beside_the_record()
    {
        var folder = Path.Combine(once.Bag, "data", "record");
        var defined = JsonNode.Parse(File.ReadAllText(Path.Combine(folder, "context.jsonld")))!["@context"]!.AsObject().Select(p => p.Key).ToHashSet();
        Assert.All(Keys(JsonNode.Parse(File.ReadAllText(Path.Combine(folder, "record.jsonld")))!).Where(k => k.StartsWith("sandarac", StringComparison.Ordinal)), k => Assert.Contains(k, defined));
    }

    /// <summary>RFC 4180, section 2: quotes doubled, line ends within quotes, lines ended by both signs.</summary>
    [Fact]
    public void Tables_are_comma_separated_as_RFC_4180_has_it()
    {
        using var db = once.A.CreateDb();
        var table = RecordModel.Of(db).Table<HouseTerm>();
        using var stream = new MemoryStream();
        RecordTables.Write(stream, table, [new HouseTerm { Key = "a,b", Category = "say \"so\"", Group = "two\nlines", Name = "", Definition = "=1+1", By = " x", At = new DateTime(2026, 1, 2, 3, 4, 5, DateTimeKind.Utc) }]);
        Assert.Equal("Key,At,By,Category,Definition,Group,Name\r\n\"a,b\",2026-01-02T03:04:05.0000000,\" x\",\"say \"\"so\"\"\",=1+1,\"two\nlines\",\"\"\r\n", Encoding.UTF8.GetString(stream.ToArray()));
    }

    [Fact]
    public void Names_of_files_are_readable_once_each_and_harmless()
    {
        var names = new FileNames();
        string[] given = ["VIS_01.tif", "vis_01.TIF", "VIS_01.tif", "../../etc/passwd", "a/b/c.tif", "CON.tif", "x:y?.tif", "..", "", new string('x', 300) + ".tif", "e\u0301.tif", "\u00e9.tif", "100 %.tif", ".hidden", "sky", "SKY/detail", "sky-2", "sky/detail", "tree/leaf", "tree", "../etc"];
        string[] taken = [.. given.Select(g => names.Take("o", g))];
        Assert.Equal(["o/VIS_01.tif", "o/vis_01-2.TIF", "o/VIS_01-3.tif", "o/_/_/etc/passwd", "o/a/b/c.tif", "o/_CON.tif", "o/x_y_.tif", "o/_-2", "o/unnamed", $"o/{new string('x', 80)}.tif", "o/\u00e9.tif", "o/\u00e9-2.tif", "o/100 _.tif", "o/_.hidden", "o/sky", "o/SKY-2/detail", "o/sky-2-2", "o/sky-2/detail-2", "o/tree/leaf", "o/tree-2", "o/_/etc"], taken);
        Assert.All(taken, t => Assert.Null(Studio.Archive.BagIt.BagPath.Problem(t)));
    }

    private static Finding Finding(Painting painting, int number, string term, string observation) => new()
    {
        PaintingId = painting.Id, CreatedAt = DateTime.UtcNow, UpdatedAt = DateTime.UtcNow, Revision = 1,
        Content = new FindingContent { Number = number, Term = term, Observation = observation, Author = "A. Conservator", SeenOn = new DateOnly(2026, 11, 2) },
    };

    private static IEnumerable<string> Keys(JsonNode node) => node switch
    {
        JsonArray array => array.OfType<JsonNode>().SelectMany(Keys),
        JsonObject o => o.SelectMany(p => p.Value is null ? [p.Key] : Keys(p.Value).Prepend(p.Key)),
        _ => [],
    };
}
