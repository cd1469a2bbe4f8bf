using System.Buffers;
using System.Security.Cryptography;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Storage;

/// <summary>
/// Files under their SHA-256, written once: <c>objects/ab/cdef...</c>. A file is written under another name on the same file system, flushed
/// to the disk, renamed into place, and the folder flushed; so an object is either whole or not there, whatever happens to the machine.
/// </summary>
/// <remarks>An object is put in place before the record speaks of it, and the two cannot be one step. A small mark in <c>incoming/</c> names the object
/// until the record's commit; marks of ended processes show which objects nobody speaks of, see <see cref="Recovery"/>.</remarks>
public sealed class ObjectStore
{
    private static readonly SearchValues<char> Hexadecimal = SearchValues.Create("0123456789abcdef");
    private readonly string _objects;
    private readonly string _folder;
    private readonly TimeProvider _clock;

    internal ObjectStore(string folder, TimeProvider clock)
    {
        _clock = clock;
        _folder = folder;
        _objects = Path.Combine(folder, "objects");
        Incoming = Path.Combine(folder, "incoming");
        Directory.CreateDirectory(_objects);
        Directory.CreateDirectory(Incoming);
    }

    /// <summary>Where files wait until they are whole.</summary>
    internal string Incoming { get; }

    /// <summary>A name for a file on its way into the store, on the store's file system; hand it to <see cref="Adopt"/>.</summary>
    public string NewTemporaryPath() => Path.Combine(Incoming, $"{Owner.This.FileStem}-{Guid.CreateVersion7():N}");

    /// <summary>Where an object lies, or would lie.</summary>
    /// <exception cref="ArgumentException">Not a lower-case hexadecimal SHA-256.</exception>
    public string PathOf(string sha256)
    {
        if (sha256.Length != 64 || sha256.AsSpan().ContainsAnyExcept(Hexadecimal))
            throw new ArgumentException("Not a SHA-256 in lower-case hexadecimal.", nameof(sha256));
        return FileOf(sha256);
    }

    /// <summary>Where a name from <see cref="All"/> lies; it may be a file that is no object of ours.</summary>
    internal string FileOf(string name) => Path.Combine(_objects, name[..2], name[2..]);

    /// <summary>Whether the object is there.</summary>
    public bool Contains(string sha256) => File.Exists(PathOf(sha256));

    /// <summary>Moves a finished file into the store; when the object is there already the file is deleted. The file is flushed to the disk first.</summary>
    /// <param name="file">A path from <see cref="NewTemporaryPath"/>.</param>
    /// <param name="sha256">Its hash, when it was taken while writing; null to take it now.</param>
    /// <param name="mediaType">"image/tiff".</param>
    /// <param name="isDerived">Whether it was computed.</param>
    /// <returns>The row to save; call <see cref="Confirm"/> once it is.</returns>
    public StoredObject Adopt(string file, string? sha256, string mediaType, bool isDerived)
    {
        Durable.FlushFile(file);
        sha256 ??= Hash(file);
        var (target, bytes) = (PathOf(sha256), new FileInfo(file).Length);
        using (StoreLock.Enter(_folder))
        {
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.WriteAllBytes(MarkOf(sha256), []);
            if (File.Exists(target)) File.Delete(file);
            else Durable.Move(file, target);
        }
        return new StoredObject { Sha256 = sha256, Bytes = bytes, MediaType = mediaType, CreatedAt = _clock.GetUtcNow().UtcDateTime, IsDerived = isDerived };
    }

    /// <summary>Says that the record now speaks of an object.</summary>
    public void Confirm(string sha256) => File.Delete(MarkOf(sha256));

    /// <summary>Opens an object for reading.</summary>
    /// <param name="sha256">The object.</param>
    /// <param name="verify">Whether to read it once and compare its hash first.</param>
    /// <exception cref="InputProblem">It is missing, or damaged.</exception>
    public FileStream OpenRead(string sha256, bool verify = false)
    {
        var path = PathOf(sha256);
        if (!File.Exists(path))
            throw new InputProblem("object-missing", sha256, $"The object {sha256[..12]} is not in the store.",
                "Restore the studio's folder from a copy, or examine the photographs again.");
        if (verify && Hash(path) != sha256)
            throw new InputProblem("object-damaged", sha256, $"The object {sha256[..12]} is damaged: its content no longer has its hash.",
                "Restore it from a copy; `sandarac check` lists every damaged object.");
        return File.OpenRead(path);
    }

    /// <summary>SHA-256 of a file, lower-case hexadecimal.</summary>
    public static string Hash(string file)
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 20, FileOptions.SequentialScan);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }

    /// <summary>The name of every file in the store, which is its hash unless someone else put it there; sorted.</summary>
    internal IEnumerable<string> All() => Directory.EnumerateDirectories(_objects, "??").Order(StringComparer.Ordinal)
        .SelectMany(d => Directory.EnumerateFiles(d).Order(StringComparer.Ordinal).Select(f => Path.GetFileName(d) + Path.GetFileName(f)));

    private string MarkOf(string sha256) => Path.Combine(Incoming, $"{Owner.This.FileStem}-{sha256}");
}
