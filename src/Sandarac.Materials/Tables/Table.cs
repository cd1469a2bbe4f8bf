using System.Reflection;
using System.Text;

namespace Sandarac.Materials.Tables;

/// <summary>Reads the tables that come with the program: one row a line, quotes around fields with commas, none inside.</summary>
internal static class Table
{
    /// <summary>The rows of a table without its heading.</summary>
    public static IEnumerable<string[]> Rows(string name)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(name)!;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        reader.ReadLine();
        while (reader.ReadLine() is { Length: > 0 } line) yield return Fields(line);
    }

    private static string[] Fields(string line)
    {
        var fields = new List<string> { "" };
        var quoted = false;
        foreach (var c in line)
            if (c == '"') quoted = !quoted;
            else if (c == ',' && !quoted) fields.Add("");
            else fields[^1] += c;
        return [.. fields];
    }
}
