using System.Globalization;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>Lamps as a person states them: a table with the columns <c>file</c> and <c>azimuth</c>, <c>elevation</c> (degrees), or <c>x</c>, <c>y</c>, <c>z</c> (mm from the upper left corner of the
/// painted face: right, down, in front).</summary>
public sealed class LampList
{
    private readonly Dictionary<string, double[]> _rows = new(StringComparer.OrdinalIgnoreCase);
    private readonly bool _positions;

    private LampList(string text)
    {
        var rows = CsvRows.Read(text);
        if (rows.Count == 0) return;
        var columns = string.Join(',', rows[0].Fields.Select(f => f.Trim().ToLowerInvariant()));
        _positions = columns == "file,x,y,z";
        if (!_positions && columns != "file,azimuth,elevation") throw Problem(rows[0].Number, "does not name the columns", "The first row is file,azimuth,elevation or file,x,y,z.");
        foreach (var row in rows.Skip(1))
        {
            var numbers = row.Fields.Skip(1).Select(f => double.TryParse(f, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) && double.IsFinite(v) ? v : throw Problem(row.Number, $"has \"{f}\" for a number", "Give numbers with a decimal point.")).ToArray();
            if (numbers.Length != (_positions ? 3 : 2)) throw Problem(row.Number, "has too few or too many fields", "Give a field for each column.");
            if (!_rows.TryAdd(row.Fields[0].Trim(), numbers)) throw Problem(row.Number, $"names {row.Fields[0]} a second time", "Keep one row for each file.");
        }
    }

    /// <summary>Reads a table; an empty text states nothing.</summary>
    /// <exception cref="InputProblem">"lamp-list": not such a table.</exception>
    public static LampList Read(string text) => new(text);

    /// <summary>The same table, checked.</summary>
    /// <exception cref="InputProblem">As <see cref="Read"/>.</exception>
    public static string Canonical(string text)
    {
        Read(text);
        return string.IsNullOrWhiteSpace(text) ? "" : text.ReplaceLineEndings("\n").Trim();
    }

    /// <summary>The stated direction; null when none is stated for the file.</summary>
    public Lamp? LampOf(string file) => !_positions && _rows.TryGetValue(file, out var n) ? Lamp.FromAngles(n[0], n[1]) : null;

    /// <summary>The stated position, mm; null when none is stated for the file.</summary>
    public (double X, double Y, double Z)? PositionOf(string file) => _positions && _rows.TryGetValue(file, out var n) ? (n[0], n[1], n[2]) : null;

    private static InputProblem Problem(int row, string what, string remedy) => new("lamp-list", "lamps", string.Create(CultureInfo.InvariantCulture, $"Row {row} of the lamps {what}."), remedy);
}
