using Sandarac.Imaging;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>A bag in a folder. Links are refused, wherever they lead.</summary>
internal sealed class FolderSource : IBagSource
{
    private readonly string _root;
    private readonly BagLimits _limits;
    private readonly List<BagFile> _files = [];

    /// <exception cref="InputProblem">A link, too many or too deep folders, too many bytes, or a folder that may not be read.</exception>
    public FolderSource(string folder, BagLimits limits)
    {
        (_root, _limits) = (Path.GetFullPath(folder), limits);
        try
        {
            Enter(new DirectoryInfo(_root), "", 0);
        }
        catch (UnauthorizedAccessException e)
        {
            throw new InputProblem("bag-unreadable", folder, $"A part of the bag may not be read: {e.Message}", "Give yourself permission to read it.", e);
        }
        _files.Sort((a, b) => string.CompareOrdinal(a.Path, b.Path));
        BagSources.RequireRoom(folder, _files.Sum(f => f.Bytes), limits);
    }

    public IReadOnlyList<BagFile> Files => _files;

    public bool HasPayload => Directory.Exists(Path.Combine(_root, "data"));

    public IReadOnlyList<BagNote> Warnings => [];

    /// <summary>What has no length is not opened: it may be a pipe, which would never end.</summary>
    public Stream Open(BagFile file) => file.Bytes == 0 ? Stream.Null : new BoundedStream(new FileStream(Path.Combine(_root, file.Path), FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16, FileOptions.SequentialScan), file.Bytes);

    public void Dispose()
    {
    }

    private void Enter(DirectoryInfo folder, string path, int depth)
    {
        if (depth > _limits.Depth) throw BagSources.TooDeep(path, _limits);
        foreach (var entry in folder.EnumerateFileSystemInfos())
        {
            var inner = path.Length == 0 ? entry.Name : $"{path}/{entry.Name}";
            if (entry.LinkTarget is not null || entry.Attributes.HasFlag(FileAttributes.ReparsePoint)) throw BagSources.Link(inner);
            if (BagPath.Problem(inner) is { } reason) throw BagSources.Escape(inner, reason);
            if (entry is DirectoryInfo down) Enter(down, inner, depth + 1);
            else _files.Add(new BagFile(inner, ((FileInfo)entry).Length));
            if (_files.Count > _limits.Files) throw BagSources.TooMany(_root, _limits);
        }
    }
}
