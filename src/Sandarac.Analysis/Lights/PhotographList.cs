using System.Globalization;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Lights;

/// <summary>Reads <c>photographs.csv</c>, in which a studio states what each photograph is, so that nothing is guessed.</summary>
/// <remarks>
/// UTF-8, first row names the columns, separated by commas or semicolons, fields may be quoted (RFC 4180). Columns: <c>file</c> (path below the folder, needed), <c>light</c>,
/// <c>side</c> (N, NE, ...), <c>azimuth</c> and <c>elevation</c> (degrees), <c>subject</c>, <c>sample</c>, <c>plate</c>, <c>section-light</c>. An empty field states nothing.
/// </remarks>
public static class PhotographList
{
    /// <summary>The file's usual name.</summary>
    public const string FileName = "photographs.csv";

    private static readonly string[] Known = ["file", "light", "side", "azimuth", "elevation", "subject", "sample", "plate", "section-light"];
    private static readonly string[] Sides = ["N", "NE", "E", "SE", "S", "SW", "W", "NW"];

    /// <summary>What the list states, by path with forward slashes; paths are compared without regard to case.</summary>
    /// <param name="text">The file's text.</param>
    /// <exception cref="InputProblem">An unknown column, light, side or subject, a number out of range, a file named twice or outside the folder; with the row's number.</exception>
    public static IReadOnlyDictionary<string, LightGuess> Parse(string text)
    {
        var rows = CsvRows.Read(text);
        if (rows.Count == 0) throw new InputProblem("list-empty", FileName, $"{FileName} is empty.", "Give a first row with column names, and a row for each photograph.");
        var columns = rows[0].Fields.Select(f => f.Trim().ToLowerInvariant()).ToArray();
        foreach (var column in columns.Where(c => !Known.Contains(c)))
            throw new InputProblem("list-column", FileName, $"{FileName} has an unknown column \"{column}\".", Declaring.Suggestion.Remedy(column, Known, "column"));
        if (!columns.Contains("file")) throw new InputProblem("list-column", FileName, $"{FileName} has no column \"file\".", "Name the column with the file names \"file\".");
        var result = new Dictionary<string, LightGuess>(StringComparer.OrdinalIgnoreCase);
        foreach (var row in rows.Skip(1))
        {
            var line = new Line(row, columns);
            if (!result.TryAdd(line.File(), line.Statement())) throw line.Problem("list-twice", $"names {line.File()} a second time", "Keep one row for each file.");
        }
        return result;
    }

    private sealed class Line(CsvRow row, string[] columns)
    {
        public string File()
        {
            var file = Text("file")?.Replace('\\', '/') ?? throw Problem("list-file", "names no file", "Fill in the column \"file\".");
            return Path.IsPathRooted(file) || file.Split('/').Contains("..") || file.Contains(':', StringComparison.Ordinal)
                ? throw Problem("list-file", $"names \"{file}\", which is not below the folder", "Give paths below the folder that holds the list.")
                : file.StartsWith("./", StringComparison.Ordinal) ? file[2..] : file;
        }

        public LightGuess Statement()
        {
            var light = LightIn("light");
            var azimuth = Number("azimuth", 0, 360) % 360;
            return new LightGuess(light, Subject(light), Confidence.Certain, string.Create(CultureInfo.InvariantCulture, $"stated in {FileName}, row {row.Number}"))
            {
                Side = Side() ?? (azimuth is { } a ? LampGuess.SideOf(a) : null),
                AzimuthDegrees = azimuth,
                ElevationDegrees = Number("elevation", 0, 90),
                Sample = Text("sample"),
                Plate = (int?)Number("plate", 1, 10000),
                SectionLight = LightIn("section-light"),
            };
        }

        public InputProblem Problem(string code, string what, string remedy) =>
            new(code, FileName, string.Create(CultureInfo.InvariantCulture, $"Row {row.Number} of {FileName} {what}."), remedy);

        private string? Text(string column)
        {
            var i = Array.IndexOf(columns, column);
            return i < 0 || i >= row.Fields.Count || string.IsNullOrWhiteSpace(row.Fields[i]) ? null : row.Fields[i].Trim();
        }

        private Light? LightIn(string column) => Text(column) is not { } text ? null : Light.Find(text)
            ?? throw Problem("list-light", $"has the unknown light \"{text}\"", $"The lights are: {string.Join(", ", Light.All.Select(l => l.Code))}.");

        private PhotographSubject Subject(Light? light)
        {
            if (Text("subject") is not { } text) return light == Light.Section ? PhotographSubject.Sample : PhotographSubject.Painting;
            var word = string.Concat(text.Split('-', '_', ' '));
            return Enum.GetNames<PhotographSubject>().Contains(word, StringComparer.OrdinalIgnoreCase)
                ? Enum.Parse<PhotographSubject>(word, true)
                : throw Problem("list-subject", $"has the unknown subject \"{text}\"", "The subjects are: painting, detail, sample, chart, flat-field, dark-frame.");
        }

        private string? Side() => Text("side") is not { } text ? null : Sides.FirstOrDefault(s => s.Equals(text, StringComparison.OrdinalIgnoreCase))
            ?? throw Problem("list-side", $"has the unknown side \"{text}\"", "The lamp's side is one of N (top), NE, E (right), SE, S (bottom), SW, W (left), NW.");

        private double? Number(string column, double minimum, double maximum) => Text(column) is not { } text ? null
            : double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) && v >= minimum && v <= maximum ? v
            : throw Problem("list-number", $"has \"{text}\" as {column}", string.Create(CultureInfo.InvariantCulture, $"Give a number from {minimum} to {maximum} with a decimal point."));
    }
}
