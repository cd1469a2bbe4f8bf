using Sandarac.Server.Pages.Language;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Pages.Findings;

/// <summary>Which findings of a painting a list shows; every part that is left out lets all through.</summary>
internal sealed record FindingFilter(string? Words, string? Group, string? Confidence)
{
    /// <summary>Whether it leaves anything out.</summary>
    public bool IsIdle => string.IsNullOrWhiteSpace(Words) && string.IsNullOrEmpty(Group) && string.IsNullOrEmpty(Confidence);

    /// <summary>The findings that pass, in the order of their numbers.</summary>
    public IReadOnlyList<Finding> Of(IEnumerable<Finding> findings)
    {
        var wanted = (Words ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return [.. findings.Where(f => Passes(f.Content, wanted)).OrderBy(f => f.Content.Number)];
    }

    private bool Passes(FindingContent c, string[] wanted) =>
        (string.IsNullOrEmpty(Group) || c.Term.StartsWith($"{Group}/", StringComparison.Ordinal)) && (string.IsNullOrEmpty(Confidence) || $"{c.Confidence}" == Confidence)
            && wanted.All(w => $"{c.Number} {StudioTerms.NameOf(c.Term)} {TermText.Name(c.Term)} {c.Observation} {c.Interpretation} {c.Author}".Contains(w, StringComparison.OrdinalIgnoreCase));
}
