using System.Text.Json;
using System.Text.Json.Serialization;
using Sandarac.Imaging;
using Sandarac.Studio.Documents.Building;
using Sandarac.Studio.Documents.Model;
using SkiaSharp;

namespace Sandarac.Studio.Documents.Templates;

/// <summary>A studio's own paper: its letterhead, the order of sections, what is left out. Identity, purpose, author and date stand on the first page of every document: no template takes them off, because the obligation to
/// give them cannot be waived (AIC Commentary 24).</summary>
public sealed record DocumentTemplate
{
    private const int LargestLogo = 10_000_000;

    private static readonly string[] Required = ["identity", "purpose", "author", "date"];

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow, ReadCommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    /// <summary>Plain paper, everything in its own order.</summary>
    public static DocumentTemplate Plain { get; } = new();

    /// <summary>The studio's or museum's name; plain paper without one.</summary>
    public string Name { get; init; } = "";

    /// <summary>Lines below the name.</summary>
    public IReadOnlyList<string> Address { get; init; } = [];

    /// <summary>A JPEG or PNG beside the template's file.</summary>
    public string Logo { get; init; } = "";

    /// <summary>Sections that come first, in this order; the others follow in their own.</summary>
    public IReadOnlyList<string> Order { get; init; } = [];

    /// <summary>Sections that are left out.</summary>
    public IReadOnlyList<string> LeftOut { get; init; } = [];

    /// <summary>What stands at the foot of every page.</summary>
    public string Footer { get; init; } = "";

    /// <summary>The folder in which the logo is looked for.</summary>
    [JsonIgnore]
    public string Folder { get; private init; } = "";

    /// <summary>Reads a template from a JSON file.</summary>
    /// <exception cref="InputProblem">"template-file": there is none, it is no JSON, has an unknown key or section, leaves out what cannot be left out, or its logo cannot be read.</exception>
    public static DocumentTemplate Read(string path)
    {
        try
        {
            var template = JsonSerializer.Deserialize<DocumentTemplate>(File.ReadAllText(path), Json) ?? throw new JsonException("It is null.");
            var whole = template with { Folder = Path.GetDirectoryName(Path.GetFullPath(path))! };
            whole.Check(path);
            return whole;
        }
        catch (Exception e) when (e is JsonException or IOException or UnauthorizedAccessException)
        {
            throw Wrong(path, $"The template cannot be read: {e.Message}", "It is JSON with the keys name, address, logo, order, leftOut and footer.", e);
        }
    }

    /// <summary>The sections of a kind of document in this template's order.</summary>
    internal IReadOnlyList<string> Sections(DocumentKind kind)
    {
        var own = DocumentPlan.Of(kind);
        return [.. Order.Where(own.Contains).Concat(own.Where(s => !Order.Contains(s))).Where(s => !LeftOut.Contains(s))];
    }

    /// <summary>The letterhead; null for plain paper.</summary>
    internal Letterhead? Letterhead() => Name.Length == 0 && Logo.Length == 0 ? null : new Letterhead(Name, Address, Picture());

    private RasterPicture? Picture()
    {
        if (Logo.Length == 0) return null;
        var bytes = File.ReadAllBytes(Path.Combine(Folder, Logo));
        using var codec = SKCodec.Create(new MemoryStream(bytes));
        return new RasterPicture(codec.Info.Width, codec.Info.Height, _ => bytes);
    }

    private void Check(string path)
    {
        if (Name is null || Address is null || Logo is null || Order is null || LeftOut is null || Footer is null || Address.Concat(Order).Concat(LeftOut).Any(t => t is null)) throw Wrong(path, "A key of the template is null.", "Leave it out, or give a value.");
        if (LeftOut.Concat(Order).FirstOrDefault(s => !DocumentPlan.Names.Contains(s) && !Required.Contains(s)) is { } unknown)
            throw Wrong(path, $"\"{unknown}\" is no section.", $"Sections are: {string.Join(", ", DocumentPlan.Names)}.");
        if (LeftOut.FirstOrDefault(Required.Contains) is { } required) throw Wrong(path, $"\"{required}\" cannot be left out of a document.", "Every document says which object it is of, what for, by whom and when.");
        if (Order.FirstOrDefault(Required.Contains) is { } first) throw Wrong(path, $"\"{first}\" stands on the first page of every document.", "Order the sections that follow it.");
        if (Logo.Length == 0) return;
        // A template that came from elsewhere must not read other files into a document.
        if (Path.GetFileName(Logo) != Logo) throw Wrong(path, "The logo lies in another folder.", "Put it beside the template, and give its name alone.");
        var file = new FileInfo(Path.Combine(Folder, Logo));
        if (!file.Exists || file.Length > LargestLogo) throw Wrong(path, $"The logo {Logo} is missing, or larger than 10 MB.", "Put a JPEG or PNG beside the template.");
        var bytes = File.ReadAllBytes(file.FullName);
        using var codec = RasterPicture.TypeOf(bytes) is null ? null : SKCodec.Create(new MemoryStream(bytes));
        if (codec is null) throw Wrong(path, $"The logo {Logo} is neither JPEG nor PNG.", "Save it as PNG.");
    }

    private static InputProblem Wrong(string path, string message, string remedy, Exception? cause = null) => new("template-file", path, message, remedy, cause);
}
