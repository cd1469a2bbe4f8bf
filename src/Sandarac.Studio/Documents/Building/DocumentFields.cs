using System.Text.Json;
using System.Text.Json.Serialization;
using Sandarac.Imaging;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Who signs a document.</summary>
public sealed record SigningField
{
    /// <summary>As what: "Conservator".</summary>
    public string Role { get; init; } = "";

    /// <summary>Who; empty when it is signed by hand.</summary>
    public string Name { get; init; } = "";

    /// <summary>When, as written.</summary>
    public string At { get; init; } = "";
}

/// <summary>What a person writes into one document because the record has no place for it. Empty is not known: documents then say that it is missing.</summary>
public sealed record DocumentFields
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow, ReadCommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    /// <summary>Nothing filled in.</summary>
    public static DocumentFields None { get; } = new();

    /// <summary>What the document is for.</summary>
    public string Purpose { get; init; } = "";

    /// <summary>Who is responsible for it.</summary>
    public string Author { get; init; } = "";

    /// <summary>Who owns the painting.</summary>
    public string Owner { get; init; } = "";

    /// <summary>Who made it.</summary>
    public string Maker { get; init; } = "";

    /// <summary>Signatures, labels, stamps.</summary>
    public string Marks { get; init; } = "";

    /// <summary>Why and under which conditions it was looked at.</summary>
    public string Circumstances { get; init; } = "";

    /// <summary>Stretcher, frame, mounts.</summary>
    public string Accessories { get; init; } = "";

    /// <summary>What was done to it before.</summary>
    public string PastTreatment { get; init; } = "";

    /// <summary>Books, earlier reports.</summary>
    public string References { get; init; } = "";

    /// <summary>Who signs; the document's own lines when empty.</summary>
    public IReadOnlyList<SigningField> Signatures { get; init; } = [];

    /// <summary>Reads the fields from a JSON file.</summary>
    /// <exception cref="InputProblem">"fields-file": there is none, it is no JSON, or it has a key that is no field.</exception>
    public static DocumentFields Read(string path)
    {
        try
        {
            return JsonSerializer.Deserialize<DocumentFields>(File.ReadAllText(path), Json) is { } fields && fields.IsWhole() ? fields : throw new JsonException("A field is null.");
        }
        catch (Exception e) when (e is JsonException or IOException or UnauthorizedAccessException)
        {
            throw new InputProblem("fields-file", path, $"The fields cannot be read: {e.Message}", "It is JSON with keys such as \"purpose\", \"author\", \"owner\"; docs/documents.md lists them.", e);
        }
    }

    private bool IsWhole() => typeof(DocumentFields).GetProperties().Where(p => p.GetMethod!.IsStatic == false).All(p => p.GetValue(this) is not null) && Signatures.All(s => s is { Role: not null, Name: not null, At: not null });
}
