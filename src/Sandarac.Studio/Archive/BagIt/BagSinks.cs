using System.IO.Compression;
using Sandarac.Imaging;
using Sandarac.Studio.Storage;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>Where a bag is written: under another name first, and under its own only when it is whole and on the disk.</summary>
internal interface IBagSink : IDisposable
{
    /// <summary>Writes one file.</summary>
    void Write(string path, Action<Stream> write);

    /// <summary>Gives the bag its name. Without this nothing of it stays.</summary>
    void Finish();
}

/// <summary>Choosing where, and clearing what ended processes left there.</summary>
internal static class BagSinks
{
    /// <summary>A zip when the name ends so, else a folder.</summary>
    /// <exception cref="InputProblem">There is something of that name, or its folder is missing.</exception>
    public static IBagSink Create(string target)
    {
        var path = Path.TrimEndingDirectorySeparator(Path.GetFullPath(target));
        if (Path.Exists(path)) throw new InputProblem("out-there", target, $"There is something at {target} already; nothing is overwritten.", "Give another name.");
        if (Path.GetDirectoryName(path) is not { } parent || !Directory.Exists(parent)) throw new InputProblem("out-folder", target, $"The folder for {target} is not there.", "Make it first, or give another.");
        try
        {
            Sweep(parent, Path.GetFileName(path));
            var part = $"{path}.{Owner.This.FileStem}.part";
            return path.EndsWith(".zip", StringComparison.OrdinalIgnoreCase) ? new ZipSink(path, part) : new FolderSink(path, part);
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException)
        {
            throw new InputProblem("out-folder", target, $"Nothing can be written there: {e.Message}", "Choose a folder you may write to, on a disk with room.", e);
        }
    }

    /// <summary>What a killed packing to the same place left.</summary>
    private static void Sweep(string folder, string name)
    {
        foreach (var left in Directory.EnumerateFileSystemEntries(folder, "*.part").Where(p => Path.GetFileName(p).StartsWith(name + ".", StringComparison.Ordinal)).ToList())
        {
            if (Owner.Parse($"{Path.GetFileName(left)[(name.Length + 1)..^".part".Length]}@{Environment.MachineName}") is not { IsDead: true }) continue;
            if (Directory.Exists(left)) Directory.Delete(left, recursive: true);
            else File.Delete(left);
        }
    }
}

/// <summary>A bag as a folder.</summary>
internal sealed class FolderSink : IBagSink
{
    private readonly string _target;
    private readonly string _part;

    public FolderSink(string target, string part)
    {
        (_target, _part) = (target, part);
        Directory.CreateDirectory(part);
    }

    public void Write(string path, Action<Stream> write)
    {
        var file = Path.Combine(_part, path);
        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        using var stream = new FileStream(file, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1 << 16);
        write(stream);
        stream.Flush(flushToDisk: true);
    }

    public void Finish() => Directory.Move(_part, _target);

    public void Dispose()
    {
        if (Directory.Exists(_part)) Directory.Delete(_part, recursive: true);
    }
}

/// <summary>A bag as a zip, its files stored as they are: a damaged byte then spoils one file, and any program finds the others.</summary>
internal sealed class ZipSink : IBagSink
{
    /// <summary>The earliest that a zip can state; the record has the times that count.</summary>
    private static readonly DateTimeOffset NoTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private readonly string _target;
    private readonly string _part;
    private readonly string _top;
    private readonly FileStream _file;
    private readonly ZipArchive _zip;

    public ZipSink(string target, string part)
    {
        (_target, _part, _top) = (target, part, Path.GetFileNameWithoutExtension(target));
        _file = new FileStream(part, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 1 << 16);
        _zip = new ZipArchive(_file, ZipArchiveMode.Create, leaveOpen: true);
    }

    public void Write(string path, Action<Stream> write)
    {
        var entry = _zip.CreateEntry($"{_top}/{path}", CompressionLevel.NoCompression);
        entry.LastWriteTime = NoTime;
        using var stream = entry.Open();
        write(stream);
    }

    public void Finish()
    {
        _zip.Dispose();
        _file.Flush(flushToDisk: true);
        _file.Dispose();
        File.Move(_part, _target, overwrite: false);
    }

    /// <summary>An unfinished zip is not closed properly: it is deleted.</summary>
    public void Dispose()
    {
        _file.Dispose();
        File.Delete(_part);
    }
}
