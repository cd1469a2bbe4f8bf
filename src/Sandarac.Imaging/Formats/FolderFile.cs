namespace Sandarac.Imaging.Formats;

/// <summary>Finds a file that a list or a walk through a folder names, and makes sure that it lies in that folder.</summary>
public static class FolderFile
{
    /// <summary>The full path of a file under a folder.</summary>
    /// <param name="folder">The folder that nothing may lead out of.</param>
    /// <param name="name">The file's name, or its path from the folder; <c>/</c> and <c>\</c> both separate.</param>
    /// <exception cref="InputProblem">The name is empty, absolute, climbs out with <c>..</c>, holds characters that no name has, or a symbolic link on the
    /// way leads out of the folder. The file itself need not exist.</exception>
    public static string Resolve(string folder, string name)
    {
        var parts = name.Split('/', '\\');
        if (name.Length == 0 || parts.Any(p => p is "" or "." or ".." || p.Any(char.IsControl)) || parts[0].Contains(':'))
            throw Outside(name, $"\"{Printable(name)}\" is not the name of a file in the folder.", "Name files as they lie in the folder, without .. and without a drive or leading slash.");
        var root = Followed(Path.GetFullPath(folder), name);
        var path = root;
        foreach (var part in parts)
        {
            path = Followed(Path.Combine(path, part), name);
            if (!path.StartsWith(Path.TrimEndingDirectorySeparator(root) + Path.DirectorySeparatorChar, StringComparison.Ordinal))
                throw Outside(name, $"{Printable(name)} is a link that leads out of the folder.", "Put the file itself into the folder.");
        }
        return path;
    }

    /// <summary>The path with links followed in every one of its parts, so that two of them can be compared.</summary>
    private static string Followed(string path, string name)
    {
        try
        {
            var parent = Path.GetDirectoryName(path);
            if (parent is null) return path;
            var full = Path.Combine(Followed(parent, name), Path.GetFileName(path));
            FileSystemInfo entry = Directory.Exists(full) ? new DirectoryInfo(full) : new FileInfo(full);
            return entry.LinkTarget is null ? full : Path.GetFullPath(entry.ResolveLinkTarget(returnFinalTarget: true)!.FullName);
        }
        catch (IOException e)
        {
            throw new InputProblem("link-broken", Printable(name), $"{Printable(name)} is a link that leads nowhere.", "Put the file itself into the folder.", e);
        }
    }

    private static InputProblem Outside(string name, string message, string remedy) => new("path-outside", Printable(name), message, remedy);

    private static string Printable(string name) => new([.. name.Select(c => char.IsControl(c) ? '?' : c)]);
}
