using System.Buffers;
using System.Security.Cryptography;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Storage;

/// <summary>
/// Files under their SHA-256, written once: <c>objects/ab/cdef...</c>. A file is written under another name on the same file system, flushed
/// to the disk, renamed into place, and the folder flushed; so an object is either whole or not there, whatever happens to the machine.
/// </summary>
public sealed class ObjectStore
{
    private static readonly SearchValues<char> Hexadecimal = SearchValues.Create("0123456789abcdef");
    private readonly string _objects;
    private readonly string _incoming;
    private readonly TimeProvider _clock;

    internal ObjectStore(string folder, TimeProvider clock)
    {
        _clock = clock;
        _objects = Path.Combine(folder, "objects");
        _incoming = Path.Combine(folder, "incoming");
        Directory.CreateDirectory(_objects);
        Directory.CreateDirectory(_incoming);
    }

    /// <summary>A name for a file on its way into the store, on the store's file system; hand it to <see cref="Adopt"/>.</summary>
    public string NewTemporaryPath() => Path.Combine(_incoming, $"{Owner.This.FileStem}-{Guid.CreateVersion7():N}");

    /// <summary>Where an object lies, or would lie.</summary>
    /// <exception cref="ArgumentException">Not a lower-case hexadecimal SHA-256.</exception>
    public string PathOf(string sha256)
    {
        if (sha256.Length != 64 || sha256.AsSpan().ContainsAnyExcept(Hexadecimal))
            throw new ArgumentException("Not a SHA-256 in lower-case hexadecimal.", nameof(sha256));
        return Path.Combine(_objects, sha256[..2], sha256[2..]);
    }

    /// <summary>Whether the object is there.</summary>
    public bool Contains(string sha256) => File.Exists(PathOf(sha256));

    /// <summary>Moves a finished file into the store; when the object is there already the file is deleted. The file is flushed to the disk first.</summary>
    /// <param name="file">A path from <see cref="NewTemporaryPath"/>.</param>
    /// <param name="sha256">Its hash, when it was taken while writing; null to take it now.</param>
    /// <param name="mediaType">"image/tiff".</param>
    /// <param name="isDerived">Whether it was computed.</param>
    /// <returns>The row to add; nothing is in the record until the caller saves it.</returns>
    public StoredObject Adopt(string file, string? sha256, string mediaType, bool isDerived)
    {
        Durable.FlushFile(file);
        sha256 ??= Hash(file);
        var target = PathOf(sha256);
        var bytes = new FileInfo(file).Length;
        Directory.CreateDirectory(Path.GetDirectoryName(target)!);
        if (File.Exists(target)) File.Delete(file);
        else Durable.Move(file, target);
        return new StoredObject { Sha256 = sha256, Bytes = bytes, MediaType = mediaType, CreatedAt = _clock.GetUtcNow().UtcDateTime, IsDerived = isDerived };
    }

    /// <summary>Opens an object for reading.</summary>
    /// <param name="sha256">The object.</param>
    /// <param name="verify">Whether to read it once and compare its hash first.</param>
    /// <exception cref="InputProblem">It is missing, or damaged.</exception>
    public FileStream OpenRead(string sha256, bool verify = false)
    {
        var path = PathOf(sha256);
        if (!File.Exists(path))
            throw new InputProblem("object-missing", sha256, $"The object {sha256[..12]} is not in the store.", "Restore the studio's folder from a copy, or examine the photographs again.");
        if (verify && Hash(path) != sha256)
            throw new InputProblem("object-damaged", sha256, $"The object {sha256[..12]} is damaged: its content no longer has its hash.", "Restore it from a copy; `sandarac check` lists every damaged object.");
        return File.OpenRead(path);
    }

    /// <summary>SHA-256 of a file, lower-case hexadecimal.</summary>
    public static string Hash(string file)
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 20, FileOptions.SequentialScan);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }

    /// <summary>Every object's hash.</summary>
    internal IEnumerable<string> All() => Directory.EnumerateDirectories(_objects).Order(StringComparer.Ordinal)
        .SelectMany(d => Directory.EnumerateFiles(d).Order(StringComparer.Ordinal).Select(f => Path.GetFileName(d) + Path.GetFileName(f)));

    /// <summary>Files of imports that never ended.</summary>
    internal IEnumerable<string> Incoming() => Directory.EnumerateFiles(_incoming);
}
