using System.Globalization;
using Microsoft.Extensions.Primitives;
using Sandarac.Imaging;

namespace Sandarac.Server.Pages.Shared;

/// <summary>What a person entered into a form, or asked for in an address: shown again when something was wrong with it, and read as values.</summary>
internal sealed class Entered(IEnumerable<KeyValuePair<string, StringValues>>? fields)
{
    private readonly Dictionary<string, StringValues>? _fields = fields?.ToDictionary();

    /// <summary>What stands in a field: what was entered, else what is stored.</summary>
    public string Or(string field, string? stored) => _fields is null ? stored ?? "" : Text(field);

    /// <summary>The words in a field.</summary>
    public string Text(string field) => Values(field).ToString().Trim();

    /// <summary>The key chosen in a list; null for none.</summary>
    public Guid? Key(string field) => Guid.TryParse(Text(field), out var id) ? id : null;

    /// <summary>The keys that are ticked.</summary>
    public IReadOnlyList<Guid> Keys(string field) => [.. Values(field).Select(t => Guid.TryParse(t, out var id) ? id : (Guid?)null).OfType<Guid>()];

    /// <summary>The keys that are ticked, each with the revision that was looked at: "key:revision".</summary>
    public IReadOnlyList<(Guid Id, int Revision)> Pairs(string field) => [.. Values(field).Select(t => t?.Split(':'))
        .Where(p => p is [var id, var revision] && Guid.TryParse(id, out _) && int.TryParse(revision, CultureInfo.InvariantCulture, out _)).Select(p => (Guid.Parse(p![0]), int.Parse(p[1], CultureInfo.InvariantCulture)))];

    /// <summary>The whole number in a hidden field; 0 when there is none.</summary>
    public int Whole(string field) => int.TryParse(Text(field), CultureInfo.InvariantCulture, out var value) ? value : 0;

    /// <summary>A number, with a point or a comma; null when the field is empty.</summary>
    /// <exception cref="InputProblem">It is none ("number").</exception>
    public double? Number(string field, string called) => Text(field) is not { Length: > 0 } text ? null
        : double.TryParse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value
        : throw new InputProblem("number", field, $"{called}: \"{text}\" is not a number.", "Enter digits, with a point or a comma.");

    /// <summary>Numbers with blanks between, each with a point or a comma.</summary>
    /// <exception cref="InputProblem">One is none ("number").</exception>
    public IReadOnlyList<double> Numbers(string field) => [.. Text(field).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Select(text =>
        double.TryParse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value
        : throw new InputProblem("number", field, $"\"{text}\" is not a number.", "Enter digits, with a point or a comma, and blanks between numbers."))];

    /// <summary>A date; null when the field is empty.</summary>
    /// <exception cref="InputProblem">It is none ("date").</exception>
    public DateOnly? Date(string field, string called) => Text(field) is not { Length: > 0 } text ? null
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var value) ? value
        : throw new InputProblem("date", field, $"{called}: \"{text}\" is not a date.", "Enter year, month and day: 2026-05-04.");

    /// <summary>A choice of a fixed list.</summary>
    /// <exception cref="InputProblem">It is not in it ("choice").</exception>
    public T Choice<T>(string field) where T : struct, Enum => Enum.TryParse<T>(Text(field), out var value) && Enum.IsDefined(value) ? value
        : throw new InputProblem("choice", field, $"\"{Text(field)}\" is none of the choices.", "Choose one of the list.");

    /// <summary>A number as a field shows it; empty for none.</summary>
    public static string Shown(double? value) => value?.ToString("0.###", CultureInfo.InvariantCulture) ?? "";

    private StringValues Values(string field) => _fields?.GetValueOrDefault(field) ?? StringValues.Empty;
}
