using System.Globalization;

namespace Sandarac.Analysis.Rings.Files;

/// <summary>One line of a Tucson decadal file: an id, the year of its first value, and up to ten values.</summary>
/// <param name="Number">Line, from 1.</param>
/// <param name="Id">The series.</param>
/// <param name="Year">Year of the first value.</param>
/// <param name="Values">Whole numbers, in hundredths or thousandths of a millimetre, stop markers included.</param>
internal sealed record TucsonLine(int Number, string Id, int Year, IReadOnlyList<int> Values)
{
    /// <summary>As the format lays it out: the id in columns 1-8, the year in 9-12, each value in six columns. Where column 8 holds a minus sign or a year of five places begins there, the id has seven.</summary>
    private const int IdWidth = 8, YearEnd = 12, ValueWidth = 6;

    /// <summary>The line; null when it is none. Columns decide; a line that does not fit them is cut at its blanks, as many programs write them.</summary>
    public static TucsonLine? Parse(int number, string line) => InColumns(number, line) ?? AtBlanks(number, line);

    private static TucsonLine? InColumns(int number, string line)
    {
        if (line.Length <= YearEnd || line.Contains('\t', StringComparison.Ordinal)) return null;
        var idWidth = line[IdWidth - 1] == '-' && char.IsAsciiDigit(line[IdWidth]) ? IdWidth - 1 : IdWidth;
        var id = line[..idWidth].Trim();
        if (id.Length == 0 || Whole(line[idWidth..YearEnd]) is not { } year) return null;
        var values = new List<int>();
        var rest = line[YearEnd..].TrimEnd();
        for (var at = 0; at < rest.Length; at += ValueWidth)
        {
            if (Whole(rest[at..Math.Min(at + ValueWidth, rest.Length)]) is not { } value) return null;
            values.Add(value);
        }
        return values.Count == 0 ? null : new TucsonLine(number, id, year, values);
    }

    private static TucsonLine? AtBlanks(int number, string line)
    {
        var parts = line.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length < 3 || Whole(parts[1]) is not { } year) return null;
        int?[] values = [.. parts.Skip(2).Select(Whole)];
        return values.All(v => v is not null) ? new TucsonLine(number, parts[0], year, [.. values.Select(v => v!.Value)]) : null;
    }

    private static int? Whole(string text) => int.TryParse(text, NumberStyles.Integer, CultureInfo.InvariantCulture, out var v) ? v : null;
}
