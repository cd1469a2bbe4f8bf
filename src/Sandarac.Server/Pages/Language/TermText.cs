using System.Resources;
using Sandarac.Materials.Terms;
using Sandarac.Studio;

namespace Sandarac.Server.Pages.Language;

/// <summary>What terms and their groups are called in the request's language. The record keeps the key, which no language changes; a studio's own terms are called
/// what the studio called them.</summary>
internal static class TermText
{
    private static readonly ResourceManager Terms = new("Sandarac.Server.Pages.Language.Terms", typeof(TermText).Assembly);

    /// <summary>The name of a term: "bloom".</summary>
    public static string Name(string key) => PageText.Find(Terms, key) ?? StudioTerms.NameOf(key);

    /// <summary>What a list adds to a term's key, which is English: its definition, or its name in another language.</summary>
    public static string Gloss(Term term) => PageText.Find(Terms, term.Key) ?? term.Definition;

    /// <summary>What a plan's table calls what is drawn so.</summary>
    public static string Called(Appearance appearance) => PageText.Find(Terms, appearance.Key) ?? appearance.Name;

    /// <summary>The name of a category or group: "condition", "varnish".</summary>
    public static string Group(string name) => PageText.Find(Terms, name) ?? name;
}
