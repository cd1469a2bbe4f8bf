using System.Globalization;
using System.Text;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Rings.Files;

/// <summary>
/// Ring widths as a table: the first column is <c>year</c>, or <c>ring</c> for rings without a date, each further one a series named by its heading, in mm; a row a year, without gaps; an empty field was not measured.
/// Separated by commas, or by semicolons with decimal commas.
/// </summary>
public static class RingTable
{
    private const double WidestMedian = 20;

    /// <summary>Reads the series of a table.</summary>
    /// <exception cref="InputProblem">A heading, year or width that is none; with the number of the row.</exception>
    public static IReadOnlyList<RingWidths> Parse(string name, string text)
    {
        var rows = CsvRows.Read(text);
        if (rows.Count == 0) throw Empty(name);
        string[] heads = [.. rows[0].Fields.Select(f => f.Trim())];
        RingFile.CheckSize(name, heads.Length - 1, (long)(heads.Length - 1) * (rows.Count - 1));
        if (heads.Length < 2 || heads[0].ToLowerInvariant() is not ("year" or "ring"))
            throw RingFile.Problem("rings-heading", name, 1, "the first row is not year,NAME or ring,NAME", "Name the first column year (or ring, when there is no date) and the others after the samples.");
        if (heads.Skip(1).GroupBy(h => h).FirstOrDefault(g => g.Key.Length == 0 || g.Count() > 1)?.Key is { } bad)
            throw RingFile.Problem("rings-heading", name, 1, $"the name \"{bad}\" is empty or stands twice", "Give each series a name of its own.");
        if (rows.Count < 2) throw Empty(name);
        var first = Year(name, rows[1]);
        RingFile.CheckYears(name, rows[1].Number, heads[1], first, rows.Count - 1);
        for (var i = 1; i < rows.Count; i++)
            if (Year(name, rows[i]) != first + i - 1) throw RingFile.Problem("rings-years", name, rows[i].Number, $"the year is not {first + i - 1}", "Give a row for each year, the oldest first; leave the width empty where none was measured.");
        return [.. Enumerable.Range(1, heads.Length - 1).Select(c => Series(name, rows, c, heads[c], first, heads[0].Equals("year", StringComparison.OrdinalIgnoreCase)))];
    }

    /// <summary>Writes series as a table over all their years.</summary>
    public static string Write(IReadOnlyList<RingWidths> series)
    {
        var text = new StringBuilder(series.All(s => s.IsDated) ? "year" : "ring");
        foreach (var s in series) text.Append(CultureInfo.InvariantCulture, $",\"{s.Id.Replace("\"", "\"\"", StringComparison.Ordinal)}\"");
        text.Append('\n');
        for (var year = series.Min(s => s.FirstYear); year <= series.Max(s => s.LastYear); year++)
            text.Append(CultureInfo.InvariantCulture, $"{year}").AppendJoin("", series.Select(s => double.IsFinite(s[year]) ? string.Create(CultureInfo.InvariantCulture, $",{s[year]:0.####}") : ",")).Append('\n');
        return text.ToString();
    }

    private static RingWidths Series(string name, IReadOnlyList<CsvRow> rows, int column, string id, int first, bool isDated)
    {
        var widths = rows.Skip(1).Select(r => Width(name, r, column)).ToList();
        var (from, to) = (widths.FindIndex(double.IsFinite), widths.FindLastIndex(double.IsFinite));
        if (from < 0) throw new InputProblem("rings-empty", name, $"{id} in {name} has no rings.", "Take the column out.");
        var median = Robust.Median(widths.Where(double.IsFinite));
        if (median > WidestMedian) throw new InputProblem("rings-unit", name, FormattableString.Invariant($"{id} in {name} has a median width of {median:0.#}, which no tree has in mm."), "Give widths in mm.");
        return new RingWidths(id, first + from, widths[from..(to + 1)], isDated);
    }

    private static InputProblem Empty(string name) => new("rings-empty", name, $"{name} holds no ring widths.", "Give a row for each ring.");

    private static int Year(string name, CsvRow row) => int.TryParse(row.Fields[0], NumberStyles.Integer, CultureInfo.InvariantCulture, out var v) ? v
        : throw RingFile.Problem("rings-years", name, row.Number, $"\"{row.Fields[0]}\" is not a year", "Give whole years.");

    private static double Width(string name, CsvRow row, int column)
    {
        var text = column < row.Fields.Count ? row.Fields[column].Trim() : "";
        if (text.Length == 0) return double.NaN;
        return double.TryParse(text.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var v) && v <= 1e6 ? v
            : throw RingFile.Problem("rings-width", name, row.Number, $"\"{text}\" is not a width", "Give mm from 0, or leave the field empty where none was measured.");
    }
}
