using System.Text.Json;

namespace Sandarac.Specimen.Output;

/// <summary>Writes small files so that they appear whole or not at all.</summary>
internal static class WholeFile
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    private static readonly JsonSerializerOptions Terse = new(JsonSerializerDefaults.Web);

    public static void WriteJson(string path, object value) => WriteText(path, JsonSerializer.Serialize(value, Json) + "\n");

    /// <summary>A long list: one item a line.</summary>
    public static void WriteJsonLines(string path, IEnumerable<object> items) =>
        WriteText(path, string.Concat(items.Select(i => JsonSerializer.Serialize(i, Terse) + "\n")));

    public static void WriteText(string path, string text)
    {
        File.WriteAllText(path + ".part", text);
        File.Move(path + ".part", path, overwrite: true);
    }
}
