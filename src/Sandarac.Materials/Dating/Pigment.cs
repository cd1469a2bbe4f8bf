using System.Globalization;
using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Dating;

/// <summary>A pigment with its elements and the years of its use.</summary>
/// <param name="Name">Name.</param>
/// <param name="Hue">Colour words.</param>
/// <param name="ChemicalName">What it is.</param>
/// <param name="Formula">Its formula; may be empty.</param>
/// <param name="ColourIndex">Colour Index name and number.</param>
/// <param name="Elements">Elements that a spectrum of it shows; none for organic ones and carbon.</param>
/// <param name="Companions">Elements that often come with it.</param>
/// <param name="From">Earliest year in which a painting may hold it; negative before our era.</param>
/// <param name="Introduced">Its introduction in words.</param>
/// <param name="RareAfter">Year after which it is rare or gone; null where the words give none.</param>
/// <param name="Ending">Its end in words; may be empty.</param>
/// <param name="ContestedFrom">Earliest year of a claim that it is older; null when the claim has no year, or there is none.</param>
/// <param name="Contested">Claim and counter-claim; empty when there are none.</param>
/// <param name="Note">What to bear in mind; may be empty.</param>
/// <param name="Aat">Number in the Getty's Art &amp; Architecture Thesaurus; may be empty.</param>
/// <param name="Source">Where it is known from.</param>
/// <param name="Flag">READ with the fields that were read, or MEMORY for what was recalled and not verified. Shown beside it.</param>
/// <param name="WhatWasRead">What was read in the source; may be empty.</param>
public sealed record Pigment(string Name, string Hue, string ChemicalName, string Formula, string ColourIndex, IReadOnlyList<string> Elements, IReadOnlyList<string> Companions, int From, string Introduced,
    int? RareAfter, string Ending, int? ContestedFrom, string Contested, string Note, string Aat, string Source, string Flag, string WhatWasRead)
{
    /// <summary>All pigments of the table.</summary>
    public static IReadOnlyList<Pigment> All { get; } = [.. Table.Rows("pigments.csv").Select(f => new Pigment(f[0], f[1], f[2], f[3], f[4], f[5].Split(' ', StringSplitOptions.RemoveEmptyEntries),
        f[6].Split(' ', StringSplitOptions.RemoveEmptyEntries), Year(f[7])!.Value, f[8], Year(f[9]), f[10], Year(f[11]), f[12], f[13], f[14], f[15], f[16], f[17]))];

    /// <summary>Whether its dates were read in a source; else they are from memory, and the screen says that they are not verified.</summary>
    public bool IsRead => Flag.StartsWith("READ", StringComparison.Ordinal);

    /// <summary>The pigment of that name, whatever its case; null when there is none.</summary>
    public static Pigment? Find(string name) => All.FirstOrDefault(p => p.Name.Equals(name.Trim(), StringComparison.OrdinalIgnoreCase));

    /// <summary>Pigments whose names begin with or hold these words: "titanium white" gives both kinds.</summary>
    public static IReadOnlyList<Pigment> Named(string words) => Find(words) is { } one ? [one] : [.. All.Where(p => words.Trim().Length > 2 && p.Name.Contains(words.Trim(), StringComparison.OrdinalIgnoreCase))];

    private static int? Year(string text) => text.Length == 0 ? null : int.Parse(text, CultureInfo.InvariantCulture);
}
