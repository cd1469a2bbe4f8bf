using System.IO.Compression;
using Sandarac.Imaging;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>A bag in a zip: one folder at its top, as RFC 8493 has it. Entries are read where they lie; nothing is unpacked under its own name.</summary>
internal sealed class ZipSource : IBagSource
{
    private const int UnixTypeMask = 0xF000;
    private const int UnixLink = 0xA000;
    private readonly string _name;
    private readonly ZipArchive _zip;
    private readonly Dictionary<string, ZipArchiveEntry> _entries = new(StringComparer.Ordinal);

    /// <exception cref="InputProblem">It is no zip, or one that does not mean well.</exception>
    public ZipSource(string file, BagLimits limits)
    {
        _name = file;
        _zip = Opened(file);
        try
        {
            Take(limits);
            RequireHonest(new FileInfo(file).Length, limits);
        }
        catch
        {
            _zip.Dispose();
            throw;
        }
    }

    public IReadOnlyList<BagFile> Files { get; private set; } = [];

    public bool HasPayload { get; private set; }

    public IReadOnlyList<BagNote> Warnings { get; private set; } = [];

    public Stream Open(BagFile file) => new BoundedStream(_entries[file.Path].Open(), file.Bytes);

    public void Dispose() => _zip.Dispose();

    private static ZipArchive Opened(string file)
    {
        try
        {
            var zip = ZipFile.OpenRead(file);
            _ = zip.Entries.Count;
            return zip;
        }
        catch (Exception e) when (e is InvalidDataException or EndOfStreamException)
        {
            throw new InputProblem("bag-zip", file, $"The file is no zip, or a part of it is missing: {e.Message}", "Copy it anew from where it came from.", e);
        }
    }

    private void Take(BagLimits limits)
    {
        if (_zip.Entries.Count > limits.Files) throw BagSources.TooMany(_name, limits);
        var paths = new HashSet<string>(StringComparer.Ordinal);
        foreach (var entry in _zip.Entries)
        {
            var path = entry.FullName.TrimEnd('/');
            if (BagPath.Problem(path) is { } reason) throw BagSources.Escape(entry.FullName, reason);
            if ((entry.ExternalAttributes >> 16 & UnixTypeMask) == UnixLink) throw BagSources.Link(path);
            if (!paths.Add(path)) throw new InputProblem("zip-entry-twice", path, $"The zip holds two entries named \"{path}\": which of them counts would depend on the program.", "Ask the sender for a sound one.");
            if (path.Count(c => c == '/') > limits.Depth) throw BagSources.TooDeep(path, limits);
            if (entry.IsEncrypted) throw new InputProblem("zip-encrypted", path, "The zip is encrypted.", "Unpack it with its password first, then give the folder.");
        }
        var top = Top();
        foreach (var entry in _zip.Entries.Where(e => !e.FullName.EndsWith('/'))) _entries.Add(entry.FullName[top.Length..], entry);
        HasPayload = _zip.Entries.Any(e => e.FullName.StartsWith($"{top}data/", StringComparison.Ordinal));
        Files = [.. _entries.Select(e => new BagFile(e.Key, e.Value.Length)).OrderBy(f => f.Path, StringComparer.Ordinal)];
    }

    /// <summary>The folder at the top, with its slash; empty for a zip without one.</summary>
    private string Top()
    {
        var tops = _zip.Entries.Select(e => e.FullName.Split('/', 2) is [var first, _] ? first + "/" : "").Distinct().ToList();
        if (tops is [var top and not ""]) return top;
        Warnings = [new BagNote("zip-top", _name, "The zip has no single folder at its top; its files are taken as the bag.")];
        return "";
    }

    /// <summary>Sizes are as stated until they are read, where <see cref="BoundedStream"/> holds them to it.</summary>
    private void RequireHonest(long zipBytes, BagLimits limits)
    {
        var (content, packed) = (_entries.Values.Sum(e => (decimal)e.Length), _entries.Values.Sum(e => (decimal)e.CompressedLength));
        if (content > limits.RatioFrom && content > limits.Ratio * packed)
            throw new InputProblem("zip-bomb", _name, $"The zip states {content / packed:0} times as many bytes as it has, far more than photographs ever shrink.", "If you trust it, unpack it with another program and give the folder.");
        if (packed > zipBytes) throw new InputProblem("zip-bomb", _name, "The zip's entries lie in one another.", "Ask the sender for a sound one.");
        BagSources.RequireRoom(_name, content, limits);
    }
}
