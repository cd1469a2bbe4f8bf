using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Studio.Documents;

/// <summary>The usual cautions for photographs whose making can hurt someone. Common practice, no single source; they defer to local rules.</summary>
public static class Cautions
{
    private static readonly (string[] Lights, Phrase Text)[] All = [(["UVL", "UVR"], Phrase.CautionUltraviolet), (["XR"], Phrase.CautionXrays)];

    /// <summary>Cautions for these lights, in a fixed order.</summary>
    /// <param name="lights">Codes.</param>
    /// <param name="phrases">The language; English by default.</param>
    public static IEnumerable<string> For(IEnumerable<string?> lights, Phrases? phrases = null)
    {
        var present = lights.ToHashSet();
        return All.Where(c => c.Lights.Any(present.Contains)).Select(c => (phrases ?? Phrases.English)[c.Text]);
    }
}
