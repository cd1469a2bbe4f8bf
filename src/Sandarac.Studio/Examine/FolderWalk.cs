using Sandarac.Analysis.Lights;
using Sandarac.Imaging;

namespace Sandarac.Studio.Examine;

/// <summary>A file that may be a photograph.</summary>
/// <param name="Name">Its path below the folder, forward slashes.</param>
/// <param name="Path">Its full path.</param>
internal sealed record FoundFile(string Name, string Path);

/// <summary>Finds the files of a folder that may be photographs: bounded, without following links, without hidden files.</summary>
internal sealed class FolderWalk
{
    /// <summary>Folders within folders; a studio's shelves are shallower.</summary>
    private const int MaxDepth = 12;

    /// <summary>Entries looked at. A folder with more is a disk chosen by mistake.</summary>
    private const int MaxEntries = 100_000;

    /// <summary>A file of this name says that its folder holds no photographs to examine: working files, results, a specimen's truth.</summary>
    private const string NotEvidence = "not-evidence.txt";

    private readonly string _root;
    private readonly string _studioFolder;
    private readonly List<FoundFile> _files = [];
    private readonly List<Refusal> _refusals = [];
    private int _entries;

    private FolderWalk(string root, string studioFolder) => (_root, _studioFolder) = (root, studioFolder);

    /// <summary>Walks a folder.</summary>
    /// <returns>Files in the order of their names, and what was refused.</returns>
    /// <exception cref="InputProblem">The folder is missing, unreadable, or far too large.</exception>
    public static (IReadOnlyList<FoundFile> Files, IReadOnlyList<Refusal> Refusals) Walk(string folder, string studioFolder)
    {
        var root = System.IO.Path.GetFullPath(folder);
        if (File.Exists(root)) throw new InputProblem("folder-is-file", folder, $"{folder} is a file.", "Give the folder that holds the photographs.");
        if (!Directory.Exists(root)) throw new InputProblem("folder-missing", folder, $"There is no folder {folder}.", "Check the path.");
        var walk = new FolderWalk(root, studioFolder);
        walk.Enter(new DirectoryInfo(root), 0);
        return ([.. walk._files.OrderBy(f => f.Name, StringComparer.Ordinal)], [.. walk._refusals.OrderBy(r => r.File, StringComparer.Ordinal)]);
    }

    private void Enter(DirectoryInfo folder, int depth)
    {
        if (folder.FullName == _studioFolder) return;
        if (depth > MaxDepth)
        {
            Refuse(folder, "folder-depth", $"The folder lies more than {MaxDepth} folders deep.", "Examine it by itself.");
            return;
        }
        // The folder that was asked for is meant, whatever lies in it.
        if (depth > 0 && File.Exists(System.IO.Path.Combine(folder.FullName, NotEvidence)))
        {
            Refuse(folder, "not-evidence", $"The folder is left out, because it holds a file {NotEvidence}.", "Take that file away if it does hold photographs.");
            return;
        }
        foreach (var entry in Entries(folder))
        {
            if (++_entries > MaxEntries)
                throw new InputProblem("folder-size", _root, $"The folder holds more than {MaxEntries} files.", "Give the folder that holds only this painting's photographs.");
            if (IsHidden(entry) || entry.Name == PhotographList.FileName) continue;
            if (entry.LinkTarget is not null) Refuse(entry, "symbolic-link", "It is a link to another place; links are not followed.", "Copy the file itself into the folder.");
            else if (IsEscape(entry.Name)) Refuse(entry, "file-name", "Its name holds characters that mean a path or a command on some computers.", "Rename it with letters, digits, - and _.");
            else if (entry is DirectoryInfo inner) Enter(inner, depth + 1);
            else _files.Add(new FoundFile(NameOf(entry), entry.FullName));
        }
    }

    private IReadOnlyList<FileSystemInfo> Entries(DirectoryInfo folder)
    {
        try
        {
            return [.. folder.EnumerateFileSystemInfos().OrderBy(e => e.Name, StringComparer.Ordinal)];
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException)
        {
            if (folder.FullName == _root) throw new InputProblem("folder-unreadable", _root, "The folder may not be read.", "Give yourself permission to read it.", e);
            Refuse(folder, "folder-unreadable", "The folder may not be read.", "Give yourself permission to read it.");
            return [];
        }
    }

    private static bool IsHidden(FileSystemInfo entry) =>
        entry.Name.StartsWith('.') || (OperatingSystem.IsWindows() && entry.Attributes.HasFlag(FileAttributes.Hidden)) || entry.Name is "Thumbs.db" or "desktop.ini";

    private static bool IsEscape(string name) => name.AsSpan().ContainsAny('\\', ':', '\uFFFD') || name.Any(char.IsControl);

    private string NameOf(FileSystemInfo entry) => System.IO.Path.GetRelativePath(_root, entry.FullName).Replace(System.IO.Path.DirectorySeparatorChar, '/');

    private void Refuse(FileSystemInfo entry, string code, string message, string remedy) => _refusals.Add(new Refusal(NameOf(entry), code, message, remedy));
}
