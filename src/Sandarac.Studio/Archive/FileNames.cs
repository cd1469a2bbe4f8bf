using System.Text;

namespace Sandarac.Studio.Archive;

/// <summary>Names under which files lie in a package: as a person knows them, once each, and usable on every kind of machine.</summary>
internal sealed class FileNames
{
    private const int Longest = 100;

    private static readonly HashSet<string> Reserved = new(["CON", "PRN", "AUX", "NUL", .. Enumerable.Range(0, 10).SelectMany(i => new[] { $"COM{i}", $"LPT{i}" })], StringComparer.OrdinalIgnoreCase);

    private readonly HashSet<string> _taken = new(StringComparer.Ordinal);

    /// <summary>A path in a folder for a file; asked in the same order, the same paths.</summary>
    /// <param name="folder">The folder in the package.</param>
    /// <param name="name">The file's name, with folders before it where it has them.</param>
    /// <param name="extension">The extension it is given, ".tif"; null to keep its own.</param>
    public string Take(string folder, string name, string? extension = null)
    {
        var sound = string.Join('/', name.Split('/', StringSplitOptions.RemoveEmptyEntries).Select(Sound));
        if (sound.Length == 0) sound = "unnamed";
        var (stem, end) = (Path.ChangeExtension(sound, null), extension ?? Path.GetExtension(sound));
        for (var i = 1; ; i++)
        {
            var path = $"{folder}/{stem}{(i == 1 ? "" : $"-{i}")}{end}";
            if (_taken.Add(BagIt.BagPath.Folded(path))) return path;
        }
    }

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
