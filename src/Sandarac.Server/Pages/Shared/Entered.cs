using System.Globalization;
using Sandarac.Imaging;

namespace Sandarac.Server.Pages.Shared;

/// <summary>What a person entered into a form: shown again when something was wrong with it, and read as values.</summary>
internal sealed class Entered(IFormCollection? form)
{
    /// <summary>What stands in a field: what was entered, else what is stored.</summary>
    public string Or(string field, string? stored) => form is null ? stored ?? "" : Text(field);

    /// <summary>The words in a field.</summary>
    public string Text(string field) => form?[field].ToString().Trim() ?? "";

    /// <summary>The key chosen in a list; null for none.</summary>
    public Guid? Key(string field) => Guid.TryParse(Text(field), out var id) ? id : null;

    /// <summary>The keys that are ticked.</summary>
    public IReadOnlyList<Guid> Keys(string field) => [.. (form?[field] ?? []).Select(t => Guid.TryParse(t, out var id) ? id : (Guid?)null).OfType<Guid>()];

    /// <summary>The whole number in a hidden field; 0 when there is none.</summary>
    public int Whole(string field) => int.TryParse(Text(field), CultureInfo.InvariantCulture, out var value) ? value : 0;

    /// <summary>A number, with a point or a comma; null when the field is empty.</summary>
    /// <exception cref="InputProblem">It is none ("number").</exception>
    public double? Number(string field, string called) => Text(field) is not { Length: > 0 } text ? null
        : double.TryParse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value
        : throw new InputProblem("number", field, $"{called}: \"{text}\" is not a number.", "Enter digits, with a point or a comma.");

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
}
