using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Terms;

/// <summary>How well a concept of the Getty's Art &amp; Architecture Thesaurus fits a term.</summary>
public enum ThesaurusMatch
{
    /// <summary>No concept is known.</summary>
    None,

    /// <summary>Its label is the term.</summary>
    Label,

    /// <summary>A wider one.</summary>
    Broad,

    /// <summary>The nearest that was found; a person must check it.</summary>
    Near,
}

/// <summary>A term of condition, technique or treatment.</summary>
/// <param name="Category">"condition", "technique", "treatment".</param>
/// <param name="Group">The layer that it belongs to ("varnish"), or its group ("clean").</param>
/// <param name="Name">The term.</param>
/// <param name="Definition">What is meant by it, in our own words.</param>
/// <param name="Aat">Number of the thesaurus' concept; empty when none is known.</param>
/// <param name="Match">How well that concept fits.</param>
/// <param name="Source">Where the definition is from: MEMORY for what was recalled and not verified. Shown beside it.</param>
public sealed record Term(string Category, string Group, string Name, string Definition, string Aat, ThesaurusMatch Match, string Source)
{
    /// <summary>All terms that come with the program, in the order of the table.</summary>
    public static IReadOnlyList<Term> All { get; } = [.. Table.Rows("terms.csv").Select(f => new Term(f[0], f[1], f[2], f[3], f[4], f[5] switch { "label" => ThesaurusMatch.Label, "broad" => ThesaurusMatch.Broad, "near" => ThesaurusMatch.Near, _ => ThesaurusMatch.None }, f[7]))];

    /// <summary>What a record names it by: "varnish/bloom". One name can be a condition and a treatment: a lining is both.</summary>
    public string Key => $"{Group}/{Name}";

    /// <summary>The concept's address; null when none is known.</summary>
    public string? Address => Aat.Length == 0 ? null : $"http://vocab.getty.edu/aat/{Aat}";
}
