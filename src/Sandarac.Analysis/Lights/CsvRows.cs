using System.Text;

namespace Sandarac.Analysis.Lights;

/// <summary>A row of a table in text.</summary>
/// <param name="Number">Line on which it begins, from 1.</param>
/// <param name="Fields">Its fields.</param>
internal sealed record CsvRow(int Number, IReadOnlyList<string> Fields);

/// <summary>Reads comma-separated text (RFC 4180), or semicolon-separated as spreadsheets write it where the comma is the decimal mark.</summary>
internal static class CsvRows
{
    /// <summary>The rows that are not blank.</summary>
    public static IReadOnlyList<CsvRow> Read(string text)
    {
        text = text.TrimStart('\uFEFF').Replace("\r\n", "\n", StringComparison.Ordinal);
        var head = text.Split('\n')[0];
        var separator = head.Contains(';', StringComparison.Ordinal) && !head.Contains(',', StringComparison.Ordinal) ? ';' : ',';
        var rows = new List<CsvRow>();
        var fields = new List<string>();
        var field = new StringBuilder();
        var quoted = false;
        var (line, start) = (1, 1);
        for (var i = 0; i <= text.Length; i++)
        {
            var c = i < text.Length ? text[i] : '\n';
            if (quoted && i < text.Length)
            {
                if (c == '"' && i + 1 < text.Length && text[i + 1] == '"') field.Append(text[++i]);
                else if (c == '"') quoted = false;
                else field.Append(c);
            }
            else if (c == '"' && field.Length == 0) quoted = true;
            else if (c == separator || c == '\n')
            {
                fields.Add(field.ToString());
                field.Clear();
                if (c == '\n')
                {
                    if (fields.Any(f => !string.IsNullOrWhiteSpace(f))) rows.Add(new CsvRow(start, fields));
                    fields = [];
                }
            }
            else field.Append(c);
            if (c != '\n') continue;
            line++;
            if (!quoted) start = line;
        }
        return rows;
    }
}
