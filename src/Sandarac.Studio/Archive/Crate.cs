using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Sandarac.Studio.Archive.BagIt;
using Sandarac.Studio.Archive.Rows;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Archive;

/// <summary>
/// Describes a package's files for programs that know nothing of it: the metadata file of RO-Crate 1.1 (https://w3id.org/ro/crate/1.1). It lies at the top of the payload, as that specification's notes on BagIt have it, so that paths
/// in it are relative to data/.
/// </summary>
internal static class Crate
{
    private const string Specification = "https://w3id.org/ro/crate/1.1";
    private const string FileName = "ro-crate-metadata.json";

    public static void Write(Stream stream, RecordFile record, PackPlan plan, IReadOnlyList<WrittenFile> payload, DateTime now)
    {
        var (painting, files) = (record.Rows.Painting, payload.Select(f => f with { Path = f.Path["data/".Length..] }).OrderBy(f => f.Path, StringComparer.Ordinal).ToList());
        var people = People(record.Rows);
        JsonArray graph =
        [
            new JsonObject { ["@id"] = FileName, ["@type"] = "CreativeWork", ["conformsTo"] = Reference(Specification), ["about"] = Reference("./") },
            new JsonObject
            {
                ["@id"] = "./", ["@type"] = "Dataset", ["name"] = $"{painting.Title}: record of its examination", ["description"] = Description(painting), ["identifier"] = $"urn:uuid:{painting.Id}", ["datePublished"] = Day(now),
                ["license"] = Reference("#rights"), ["author"] = References(people.Select(p => p.Id)), ["hasPart"] = References(files.Select(f => IdOf(f.Path))), ["mentions"] = References(plan.Runs.Select(r => IdOf(r.Run))),
            },
            new JsonObject { ["@id"] = "#rights", ["@type"] = "CreativeWork", ["name"] = "Rights are not stated", ["description"] = "The package grants no licence. Ask the painting's owner and those who took the photographs before any of it is published." },
            new JsonObject { ["@id"] = "#software", ["@type"] = "SoftwareApplication", ["name"] = "Sandarac", ["softwareVersion"] = record.Software },
            .. people.Select(p => new JsonObject { ["@id"] = p.Id, ["@type"] = "Person", ["name"] = p.Name }),
            .. files.Select(f => FileOf(f, record)),
            .. plan.Runs.Select(r => ActionOf(r, files, record.Rows, plan)),
        ];
        // The context of 1.1 was made before schema.org had a term for SHA-256.
        var crate = new JsonObject { ["@context"] = new JsonArray { $"{Specification}/context", new JsonObject { ["sha256"] = "https://schema.org/sha256" } }, ["@graph"] = graph };
        using var writer = new Utf8JsonWriter(stream, RecordJson.Written);
        crate.WriteTo(writer);
    }

    private static JsonObject FileOf(WrittenFile file, RecordFile record)
    {
        var stored = record.Objects.FirstOrDefault(o => o.Path == file.Path);
        var entity = new JsonObject { ["@id"] = IdOf(file.Path), ["@type"] = "File", ["name"] = file.Path[(file.Path.LastIndexOf('/') + 1)..], ["contentSize"] = file.Bytes.ToString(CultureInfo.InvariantCulture), ["encodingFormat"] = stored?.MediaType ?? MediaType(file.Path), ["sha256"] = file.Sha256 };
        if (record.Rows.Of<Photograph>().FirstOrDefault(p => p.Sha256 == stored?.Sha256) is not { } photograph) return entity;
        entity["description"] = Words.LightOf(photograph);
        if (photograph.TakenAt is { } taken) entity["dateCreated"] = taken.ToString("yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture);
        return entity;
    }

    private static JsonObject ActionOf(PackedRun packed, IReadOnlyList<WrittenFile> files, RecordRows rows, PackPlan plan)
    {
        var originals = rows.Of<Photograph>().ToDictionary(p => p.Id, p => plan.PathOf(p.Sha256));
        var action = new JsonObject
        {
            ["@id"] = IdOf(packed.Run), ["@type"] = "CreateAction", ["name"] = string.Create(CultureInfo.InvariantCulture, $"{packed.Run.ReadingId}, version {packed.Run.ReadingVersion}"), ["instrument"] = Reference("#software"), ["agent"] = Reference(PersonId(packed.Run.UserName)),
            ["object"] = References(packed.Run.Inputs.Where(i => originals.ContainsKey(i.PhotographId)).Select(i => IdOf(originals[i.PhotographId])).Distinct()), ["result"] = References(files.Where(f => f.Path.StartsWith(packed.Folder + "/", StringComparison.Ordinal)).Select(f => IdOf(f.Path))),
        };
        if (packed.Run.StartedAt is { } started) action["startTime"] = Instant(started);
        if (packed.Run.EndedAt is { } ended) action["endTime"] = Instant(ended);
        return action;
    }

    private static List<(string Id, string Name)> People(RecordRows rows) =>
        [.. rows.Of<Run>().Select(r => r.UserName).Concat(rows.Of<WrittenChange>().Select(c => c.By)).Distinct().Order(StringComparer.Ordinal).Select(name => (PersonId(name), name))];

    private static string Description(Painting painting) => string.Join(" ", new[] { painting.Technique, painting.AccessionNumber is { } number ? $"Accession number {number}." : null, "Originals, readings with their provenance, findings, samples and documents of one painting." }.OfType<string>());

    private static string MediaType(string path) => Path.GetExtension(path) switch
    {
        ".json" => "application/json",
        ".jsonld" => "application/ld+json",
        ".csv" => "text/csv",
        ".html" => "text/html",
        ".pdf" => "application/pdf",
        ".docx" => "application/vnd.openxmlformats-officedocument.wordprocessingml.document",
        ".tif" => "image/tiff",
        ".txt" => "text/plain",
        _ => "application/octet-stream",
    };

    /// <summary>Ids are relative addresses: what is no letter of those is percent-encoded.</summary>
    private static string IdOf(string path) => string.Join('/', path.Split('/').Select(Uri.EscapeDataString));

    private static string IdOf(Run run) => $"#run-{run.Id}";

    private static string PersonId(string name) => $"#person-{Uri.EscapeDataString(name)}";

    private static string Day(DateTime utc) => utc.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Instant(DateTime utc) => utc.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFFF'Z'", CultureInfo.InvariantCulture);

    private static JsonObject Reference(string id) => new() { ["@id"] = id };

    private static JsonArray References(IEnumerable<string> ids) => [.. ids.Select(Reference)];
}
