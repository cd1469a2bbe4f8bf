using System.Globalization;
using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Pigments;

/// <summary>Which pigments a zone's infrared false colour and infrared response are consistent with.</summary>
public static class PigmentRules
{
    /// <summary>Bounds of dark and bright in near infrared, as shares of white, and how far a measured share may lie on the wrong side. Common practice has words only; these numbers are ours, no source.</summary>
    private const double Dark = 0.25, Bright = 0.55, Doubt = 0.08;

    private static readonly string[] Cautions =
    [
        "Pigments are seldom alone: mixtures, glazes and what lies beneath change both infrared and false colour.",
        "False colour depends on both exposures and on the infrared band: compare with known places of the same picture.",
        "A row marked MEMORY was recalled and not verified. Visible colours are from memory in every row.",
        "Consistent with is not identified: only analysis of the material can name a pigment.",
    ];

    /// <summary>
    /// Looks in the table. Candidates look like this by themselves. With a visible colour, pigments that agree in false colour and infrared alone stand apart: paint mixed of several has a colour that none of them has,
    /// so visible colour rules a pigment out by itself and never from a mixture.
    /// </summary>
    /// <param name="falseColour">Name of the zone's false colour: "red", "blue-green", "dark violet".</param>
    /// <param name="infrared">Infrared of the zone as a share of white, 0 to 1.</param>
    /// <param name="visible">Name of its visible colour; null to leave it out.</param>
    /// <exception cref="ArgumentOutOfRangeException">The infrared is not a number of 0 or more.</exception>
    public static ConsistentWith<PigmentAppearance> Find(string falseColour, double infrared, string? visible = null)
    {
        if (!(infrared >= 0 && double.IsFinite(infrared))) throw new ArgumentOutOfRangeException(nameof(infrared), infrared, "A share of white is 0 or more.");
        var (shifted, seen, response) = (ColourWords.In(falseColour), visible is null ? null : ColourWords.In(visible), Responses(infrared));
        var matches = PigmentAppearance.All.Select(p => Matched(p, shifted, seen, response, infrared)).OfType<(Match<PigmentAppearance> Match, bool Alone)>().ToList();
        return ConsistentWith<PigmentAppearance>.Of(matches.Where(m => m.Alone).Select(m => m.Match), matches.Where(m => !m.Alone).Select(m => m.Match), Cautions);
    }

    private static (Match<PigmentAppearance> Match, bool Alone)? Matched(PigmentAppearance pigment, IReadOnlySet<string> shifted, IReadOnlySet<string>? seen, IReadOnlySet<string> response, double infrared)
    {
        var usual = Usual(pigment.NearInfrared);
        var colour = ColourWords.Agreement(shifted, ColourWords.In(pigment.FalseColour));
        var visible = seen is null ? 2 : ColourWords.Agreement(seen, ColourWords.In(pigment.VisibleColour));
        if (colour == 0 || usual.Count > 0 && !usual.Overlaps(response)) return null;
        var reason = string.Create(CultureInfo.InvariantCulture, $"false colour usually {pigment.FalseColour}; near infrared usually {pigment.NearInfrared}, here {100 * infrared:0} % of white")
            + (seen is null ? "" : $"; usually {pigment.VisibleColour}");
        return (new Match<PigmentAppearance>(pigment, (colour + visible) / 4.0, reason), visible > 0);
    }

    /// <summary>What a measured share may be called: two words near a bound.</summary>
    private static HashSet<string> Responses(double infrared) =>
    [
        .. infrared < Dark + Doubt ? ["dark"] : Array.Empty<string>(),
        .. infrared > Dark - Doubt && infrared < Bright + Doubt ? ["mid"] : Array.Empty<string>(),
        .. infrared > Bright - Doubt ? ["bright"] : Array.Empty<string>(),
    ];

    /// <summary>Words of the table; a pigment that clears within the band may be either, by the filter; none where it says nothing of reflection.</summary>
    private static HashSet<string> Usual(string nearInfrared)
    {
        (string Word, string Meaning)[] words = [("bright", "bright"), ("clear", "bright"), ("dark to 7", "bright"), ("mid", "mid"), ("dark", "dark"), ("black", "dark")];
        return [.. words.Where(w => nearInfrared.Contains(w.Word, StringComparison.Ordinal)).Select(w => w.Meaning)];
    }
}
