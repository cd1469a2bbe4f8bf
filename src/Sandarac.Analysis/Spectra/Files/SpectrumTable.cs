using System.Globalization;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Spectra.Files;

/// <summary>A table in text: counts alone, or channel or energy and counts; a heading may say which and in what unit. Fields by semicolon, tab, comma or blank; with semicolon or tab the comma may be the decimal mark. Lines with # are notes.</summary>
internal static class SpectrumTable
{
    /// <summary>Above this, energies without a unit are taken for eV: no tube used on paintings goes so far in kV.</summary>
    private const double MostKev = 200;

    public static Spectrum Parse(string[] lines, string name)
    {
        var text = new SpectrumText(name);
        var rows = lines.Select((l, i) => (Text: l.Trim(), Line: i + 1)).Where(r => r.Text.Length > 0 && !r.Text.StartsWith('#')).ToList();
        if (rows.Count == 0) throw new InputProblem("spectrum-empty", name, $"{name} has no data.", "Export the spectrum again.");
        var heading = rows[0].Text.Any(c => char.IsLetter(c) && c is not ('e' or 'E')) && !rows[0].Text.Contains("nan", StringComparison.OrdinalIgnoreCase) ? rows[0].Text : null;
        if (heading is not null) rows.RemoveAt(0);
        if (rows.Count > Spectrum.MostChannels) throw new InputProblem("spectrum-channels", name, $"{name} has {rows.Count} rows; a spectrum has at most {Spectrum.MostChannels} channels.", "Give one spectrum, not a map; sum neighbouring channels where there are more.");
        if (rows.Count == 0) throw new InputProblem("spectrum-empty", name, $"{name} has a heading and no data.", "Export the spectrum again.");
        var separator = Separator(rows[0].Text);
        var fields = rows.Select(r => (Fields: Fields(r.Text, separator), r.Line)).ToList();
        var columns = fields[0].Fields.Length;
        if (fields.FirstOrDefault(f => f.Fields.Length != columns) is { Fields: not null } odd)
            throw new InputProblem("spectrum-columns", name, $"{name}, line {odd.Line}: {odd.Fields.Length} fields where the rows above have {columns}.", "Give a table of channel or energy and counts; the file may end early.");
        var counts = fields.Select(f => text.Count(f.Fields[columns == 1 ? 0 : 1], f.Line)).ToList();
        Warning[] warnings = columns > 2 ? [new Warning("spectrum-columns", $"Of {columns} columns the second is taken as counts, the others after it are left out.")] : [];
        if (columns == 1 || counts.Count < 2) return text.Made(null, counts, null, null, null, warnings);
        var axis = fields.Select(f => text.Number(f.Fields[0], f.Line)).ToList();
        var (scale, note) = Scale(axis, heading, name, fields[0].Line);
        return text.Made(null, counts, scale, null, null, note is null ? warnings : [.. warnings, note]);
    }

    private static char Separator(string row) => row.Contains(';', StringComparison.Ordinal) ? ';' : row.Contains('\t', StringComparison.Ordinal) ? '\t' : row.Contains(',', StringComparison.Ordinal) ? ',' : ' ';

    private static string[] Fields(string row, char separator) =>
        [.. row.Split(separator, separator == ' ' ? StringSplitOptions.RemoveEmptyEntries : StringSplitOptions.None).Select(f => separator == ',' ? f.Trim() : f.Trim().Replace(',', '.'))];

    /// <summary>Channels number by one and need a calibration; anything else that is even is energy.</summary>
    private static (EnergyScale? Scale, Warning? Note) Scale(List<double> axis, string? heading, string name, int line)
    {
        var step = (axis[^1] - axis[0]) / (axis.Count - 1);
        for (var i = 0; i < axis.Count; i++)
            if (!(step > 0 && Math.Abs(axis[i] - axis[0] - i * step) <= 0.5 * step))
                throw new InputProblem("spectrum-axis", name, string.Create(CultureInfo.InvariantCulture, $"{name}, line {line + i}: {axis[i]} breaks the even steps of the first column."), "Give a table with an even scale in its first column, rising.");
        if (heading is not null && Says(heading, "chan", "kanal", "canal")) return (null, null);
        if (heading is not null && Says(heading, "kev")) return (new EnergyScale(axis[0], step), null);
        if (heading is not null && Says(heading, "ev")) return (new EnergyScale(axis[0] / 1000, step / 1000), null);
        if (Math.Abs(step - 1) < 1e-9 && axis[0] is 0 or 1) return (null, null);
        return axis[^1] > MostKev ? (new EnergyScale(axis[0] / 1000, step / 1000), new Warning("spectrum-unit", "The first column states no unit; it is taken as eV, for it goes too far for keV."))
            : (new EnergyScale(axis[0], step), new Warning("spectrum-unit", "The first column states no unit; it is taken as keV."));
    }

    private static bool Says(string heading, params string[] words) => words.Any(w => heading.Contains(w, StringComparison.OrdinalIgnoreCase));
}
