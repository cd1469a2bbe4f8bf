using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Sandarac.Studio.Archive.Rows;

/// <summary>Tables as comma-separated text for people and other programs (RFC 4180): the same values as record.json, structures as JSON in one cell. Nothing is an empty cell, an empty text is "".</summary>
internal static class RecordTables
{
    public static void Write(Stream stream, RecordTable table, IReadOnlyList<object> rows)
    {
        using var writer = new StreamWriter(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), leaveOpen: true) { NewLine = "\r\n" };
        writer.WriteLine(string.Join(',', table.Columns.Select(c => Cell(c.Name))));
        foreach (var row in rows) writer.WriteLine(string.Join(',', table.Columns.Select(c => Cell(c, c.Get(row)))));
    }

    private static string Cell(RecordColumn column, object? value) => value switch
    {
        null => "",
        bool yes => yes ? "true" : "false",
        DateTime time => RecordJson.Time(time),
        _ when column.IsNested => Cell(JsonSerializer.Serialize(value, column.Type, RecordJson.Options)),
        IFormattable number => Cell(number.ToString(number is DateOnly ? "yyyy-MM-dd" : null, CultureInfo.InvariantCulture)),
        _ => Cell(value.ToString()!),
    };

    private static string Cell(string text) => text.Length == 0 || text.AsSpan().ContainsAny(",\"\r\n") || text[0] == ' ' || text[^1] == ' ' ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text;
}
