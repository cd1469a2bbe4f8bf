using System.Globalization;
using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Terms;

/// <summary>The line around a zone.</summary>
/// <param name="Dashes">Dashes and gaps, mm on the sheet; empty for a whole line.</param>
/// <param name="WidthMm">Breadth, mm on the sheet.</param>
public sealed record ZoneOutline(IReadOnlyList<double> Dashes, double WidthMm);

/// <summary>
/// How what a term names is drawn, on the Easel, in condition plans and in documents: by hatch, outline and a letter code of its own, so that it can be told in grey print and by eyes that see few colours. Colour only
/// helps; the inks are those of Okabe and Ito's set for all eyes (Color Universal Design, 2008, from memory) that stand out from paper by 3 to 1 or more to every eye, which its orange, yellow, sky blue and reddish purple do not.
/// </summary>
/// <param name="Key">The term's key, "varnish/bloom"; or the word of a kind that no term names: "note", "veiled-addition".</param>
/// <param name="Kind">What readings, and zones, call it beside the key: "retouching"; empty when they do not.</param>
/// <param name="Group">The layer that it belongs to, whose outline, ink and direction it has.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Code">Its letters; no other has them, whatever their case.</param>
/// <param name="Ink">"#0072b2".</param>
/// <param name="Outline">The line around it.</param>
/// <param name="Hatch">What fills it.</param>
/// <param name="HasOwnHatch">Whether the hatch is its own; otherwise its group's, and the code alone tells it from the group's others.</param>
public sealed record Appearance(string Key, string Kind, string Group, string Name, string Code, string Ink, ZoneOutline Outline, Hatch Hatch, bool HasOwnHatch)
{
    private sealed record Family(double AngleDeg, string Ink, ZoneOutline Outline, Hatch Hatch);

    private static readonly Dictionary<string, Family> Families = Table.Rows("appearance-groups.csv").ToDictionary(f => f[0], f => new Family(Hatch.Number(f[1]), f[2],
        new ZoneOutline([.. f[3].Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Hatch.Number)], Hatch.Number(f[4])), Hatch.Parse(Hatch.Number(f[1]), f[5], f[6], f[7])));

    /// <summary>Those that come with the program: a note, the kinds that readings propose, and every term.</summary>
    public static IReadOnlyList<Appearance> All { get; } = [.. Table.Rows("appearances.csv").Select(Read)];

    /// <summary>A plain one, for what has no other.</summary>
    public static Appearance Note => All[0];

    /// <summary>The appearance of a term that is not in the table: its group's, with letters that are free.</summary>
    /// <param name="term">The term.</param>
    /// <param name="taken">Codes that others have.</param>
    public static Appearance Of(Term term, IReadOnlyCollection<string> taken)
    {
        var family = Families[FamilyOf(term)];
        return new Appearance(term.Key, "", term.Group, term.Name, FreeCode(term.Name, taken), family.Ink, family.Outline, family.Hatch, false);
    }

    /// <summary>The first letter and one more of the name, else two more, else a number.</summary>
    private static string FreeCode(string name, IReadOnlyCollection<string> taken)
    {
        char[] letters = [.. name.ToLowerInvariant().Where(char.IsLetter).DefaultIfEmpty('x')];
        var (first, rest) = (char.ToUpperInvariant(letters[0]), letters[1..]);
        var two = rest.Select(l => $"{first}{l}");
        var three = rest.SelectMany((l, i) => rest[(i + 1)..].Select(m => $"{first}{l}{m}"));
        var numbered = Enumerable.Range(1, taken.Count + 1).Select(n => string.Create(CultureInfo.InvariantCulture, $"{first}{n}"));
        return two.Concat(three).Concat(numbered).First(c => !taken.Contains(c, StringComparer.OrdinalIgnoreCase));
    }

    private static Appearance Read(string[] f)
    {
        var (group, name, kind) = (f[0], f[1], f[6]);
        var term = Term.All.FirstOrDefault(t => t.Key == $"{group}/{name}");
        var family = Families[term is null ? group : FamilyOf(term)];
        return new Appearance(term?.Key ?? kind, kind, group, name, f[2], family.Ink, family.Outline, f[3].Length == 0 ? family.Hatch : Hatch.Parse(family.AngleDeg, f[3], f[4], f[5]), f[3].Length > 0);
    }

    /// <summary>Conditions look like their layer; technique and treatment have one family each, as their groups share names with layers.</summary>
    private static string FamilyOf(Term term) => term.Category == "condition" ? term.Group : term.Category;
}
