using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;
using Sandarac.Imaging;
using Sandarac.Imaging.Colour;
using Sandarac.Materials.Terms;

namespace Sandarac.Studio.Plans;

/// <summary>What a studio changes of an appearance; what it leaves out stays.</summary>
/// <param name="Code">Letters.</param>
/// <param name="Ink">"#0072b2".</param>
/// <param name="Angle">Degrees, anticlockwise.</param>
/// <param name="Cell">"4x1.8", mm. With a cell its strokes are given anew.</param>
/// <param name="Fine">Strokes of the fine pen.</param>
/// <param name="Bold">Strokes of the broad pen.</param>
/// <param name="Outline">Dashes and gaps, mm.</param>
internal sealed record AppearanceChange(string? Code, string? Ink, double? Angle, string? Cell, string? Fine, string? Bold, IReadOnlyList<double>? Outline);

/// <summary>
/// How each kind of phenomenon is drawn in one studio: the program's table, letters for the studio's own terms, and what the studio changed in the file <c>appearances.json</c> in its folder, an object from keys of terms
/// to what is different: <c>{"varnish/bloom": {"code": "Bx", "cell": "2x2", "fine": "M0 1H2"}}</c>.
/// </summary>
public sealed partial class StudioAppearances
{
    /// <summary>The file's name.</summary>
    public const string FileName = "appearances.json";

    /// <summary>Least contrast of an ink to the paper: WCAG 2.2, 1.4.11, for graphics that must be seen.</summary>
    public const double LeastContrast = 3;

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow, ReadCommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    private readonly Dictionary<string, Appearance> _byName;

    private StudioAppearances(IReadOnlyList<Appearance> all)
    {
        All = all;
        _byName = all.ToDictionary(a => a.Key, StringComparer.Ordinal);
        foreach (var kind in all.Where(a => a.Kind.Length > 0)) _byName.TryAdd(kind.Kind, kind);
    }

    /// <summary>All: a note and the kinds that readings propose first, then terms in the table's order, then the studio's own.</summary>
    public IReadOnlyList<Appearance> All { get; }

    /// <summary>A studio's appearances as they are now.</summary>
    /// <exception cref="InputProblem">Its file cannot be read, names a key that does not exist, gives letters twice, a hatch that cannot be drawn or an ink too pale to print ("appearances").</exception>
    public static StudioAppearances Of(OpenStudio studio)
    {
        using var db = studio.CreateDb();
        var all = Appearance.All.ToList();
        // In the order in which they were added, so that a new term never changes another's letters.
        foreach (var own in db.HouseTerms.OrderBy(t => t.At).ThenBy(t => t.Key).AsEnumerable())
            all.Add(Appearance.Of(new Term(own.Category, own.Group, own.Name, own.Definition, "", ThesaurusMatch.None, ""), [.. all.Select(a => a.Code)]));
        return new StudioAppearances(Changed(all, Path.Combine(studio.Folder, FileName)));
    }

    /// <summary>The appearance of a term's key or a zone's kind; what nobody knows is a note under its own name.</summary>
    public Appearance Find(string keyOrKind) => _byName.GetValueOrDefault(keyOrKind) ?? Appearance.Note with { Name = keyOrKind.Length > 0 ? StudioTerms.NameOf(keyOrKind) : Appearance.Note.Name };

    private static List<Appearance> Changed(List<Appearance> all, string file)
    {
        if (!File.Exists(file)) return all;
        foreach (var (key, change) in ReadFile(file))
        {
            var at = all.FindIndex(a => a.Key == key);
            if (at < 0) throw Wrong(key, $"There is no term or kind \"{key}\".", "Name it by its key, \"varnish/bloom\", as the list of terms does.");
            all[at] = With(all[at], change);
        }
        var twice = all.GroupBy(a => a.Code, StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1);
        return twice is null ? all : throw Wrong(twice.Key, $"\"{twice.First().Name}\" and \"{twice.Last().Name}\" would both have the letters {twice.Key}.", "Give one of them other letters.");
    }

    private static Dictionary<string, AppearanceChange> ReadFile(string file)
    {
        try
        {
            return JsonSerializer.Deserialize<Dictionary<string, AppearanceChange>>(File.ReadAllText(file), Json) ?? throw new JsonException("it holds nothing");
        }
        catch (Exception e) when (e is JsonException or IOException or UnauthorizedAccessException)
        {
            throw new InputProblem("appearances", FileName, $"{FileName} cannot be read: {e.Message}", "Correct it, or move it away: the program's own appearances are used then.", e);
        }
    }

    private static Appearance With(Appearance old, AppearanceChange change)
    {
        if (change is null) throw Wrong(old.Key, $"\"{old.Key}\" has no value.", "Give an object with what is different.");
        if (change.Code is { } code && !Letters().IsMatch(code)) throw Wrong(old.Key, $"\"{code}\" is no code of one to three letters or digits.", "Give two letters.");
        if (change.Ink is { } ink && !(Colour().IsMatch(ink) && Contrast(ink) >= LeastContrast)) throw Wrong(old.Key, $"The ink {ink} is no colour, or too pale for paper.", $"Give a colour as #rrggbb that stands out from white by {LeastContrast} to 1.");
        if (change.Cell is null && (change.Fine ?? change.Bold) is not null) throw Wrong(old.Key, "Strokes are given without a cell.", "Give the cell's sides in mm: \"cell\": \"4x1.8\".");
        if (change.Outline is { } dashes && (dashes.Count > 12 || dashes.Any(d => d is not (> 0 and <= 20)))) throw Wrong(old.Key, "A dash or gap of the outline is not between 0 and 20 mm, or there are more than twelve.", "Give them in mm, [3, 1].");
        try
        {
            var angle = change.Angle ?? old.Hatch.AngleDeg;
            var hatch = change.Cell is { } cell ? Hatch.Parse(angle, cell, change.Fine ?? "", change.Bold ?? "") : old.Hatch with { AngleDeg = angle };
            return old with { Code = change.Code ?? old.Code, Ink = change.Ink ?? old.Ink, Hatch = hatch, HasOwnHatch = old.HasOwnHatch || change.Cell is not null || change.Angle is not null, Outline = old.Outline with { Dashes = change.Outline ?? old.Outline.Dashes } };
        }
        catch (FormatException e)
        {
            throw new InputProblem("appearances", old.Key, $"{FileName}, \"{old.Key}\": {e.Message}", "The table of appearances in the documentation shows how a hatch is written.", e);
        }
    }

    /// <summary>Contrast of an ink to white by WCAG 2.2's definition.</summary>
    internal static double Contrast(string ink) => 1.05 / (0.2126 * Light(ink, 1) + 0.7152 * Light(ink, 3) + 0.0722 * Light(ink, 5) + 0.05);

    private static double Light(string ink, int at) => Srgb.ToLight(int.Parse(ink.AsSpan(at, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0);

    private static InputProblem Wrong(string subject, string message, string remedy) => new("appearances", subject, $"{FileName}: {message}", remedy);

    [GeneratedRegex("^[A-Za-z][A-Za-z0-9]{0,2}$")]
    private static partial Regex Letters();

    [GeneratedRegex("^#[0-9a-fA-F]{6}$")]
    private static partial Regex Colour();
}
