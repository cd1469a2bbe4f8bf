using System.Text;

namespace Sandarac.Studio.Archive;

/// <summary>Names under which files lie in a package: as a person knows them, once each, and usable on every kind of machine.</summary>
internal sealed class FileNames
{
    private const int Longest = 100;

    private static readonly HashSet<string> Reserved = new(["CON", "PRN", "AUX", "NUL", .. Enumerable.Range(0, 10).SelectMany(i => new[] { $"COM{i}", $"LPT{i}" })], StringComparer.OrdinalIgnoreCase);

    private readonly HashSet<string> _files = new(StringComparer.Ordinal);

    private readonly HashSet<string> _folders = new(StringComparer.Ordinal);

    /// <summary>A path in a folder for a file; asked in the same order, the same paths. No file has the name of a folder.</summary>
    /// <param name="folder">The folder in the package.</param>
    /// <param name="name">The file's name, with folders before it where it has them.</param>
    /// <param name="extension">The extension it is given, ".tif"; null to keep its own.</param>
    public string Take(string folder, string name, string? extension = null)
    {
        var segments = name.Split('/', StringSplitOptions.RemoveEmptyEntries).Select(Sound).DefaultIfEmpty("unnamed").ToArray();
        foreach (var segment in segments[..^1])
        {
            folder = Free(folder, segment, "", _files.Contains);
            _folders.Add(BagIt.BagPath.Folded(folder));
        }
        var path = Free(folder, Path.ChangeExtension(segments[^1], null), extension ?? Path.GetExtension(segments[^1]), p => _files.Contains(p) || _folders.Contains(p));
        _files.Add(BagIt.BagPath.Folded(path));
        return path;
    }

    /// <summary>The name itself, or the first number behind it that is not taken.</summary>
    private static string Free(string folder, string stem, string end, Func<string, bool> isTaken) =>
        Enumerable.Range(1, int.MaxValue).Select(i => $"{folder}/{stem}{(i == 1 ? "" : $"-{i}")}{end}").First(path => !isTaken(BagIt.BagPath.Folded(path)));

    /// <summary>A name without folders that every kind of machine takes.</summary>
    public static string Sound(string segment)
    {
        var kept = new StringBuilder();
        foreach (var c in segment.Normalize(NormalizationForm.FormC)) kept.Append(char.IsControl(c) || "/<>:\"|?*\\%~\uFFFD".Contains(c, StringComparison.Ordinal) ? '_' : c);
        var text = kept.ToString().Trim().TrimEnd('.');
        if (text.Length > Longest) text = Path.GetFileNameWithoutExtension(text)[..(Longest - 20)] + Path.GetExtension(text);
        return text.Length == 0 || text[0] == '.' || Reserved.Contains(Path.GetFileNameWithoutExtension(text)) ? "_" + text : text;
    }
}
