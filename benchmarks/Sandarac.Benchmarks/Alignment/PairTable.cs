using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>Every pair in a line of its own, for whoever asks with <c>--keep</c> which ones failed.</summary>
internal static class PairTable
{
    public static void Write(Settings settings, string name, IReadOnlyList<string> header, IEnumerable<string[]> rows)
    {
        var folder = Directory.CreateDirectory(settings.Keep ?? settings.Folder).FullName;
        File.WriteAllLines(Path.Combine(folder, name), rows.Prepend([.. header]).Select(r => string.Join(',', r.Select(Quoted))));
    }

    private static string Quoted(string cell) =>
        cell.AsSpan().ContainsAny(',', '"') ? $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : cell;
}
