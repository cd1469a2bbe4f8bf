using System.Globalization;
using Sandarac.Imaging;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>Opening bags, and what folder and zip refuse alike.</summary>
internal static class BagSources
{
    /// <summary>Opens a folder or a zip.</summary>
    /// <exception cref="InputProblem">There is nothing, or something that is refused unread.</exception>
    public static IBagSource Open(string path, BagLimits limits)
    {
        if (Directory.Exists(path)) return new FolderSource(path, limits);
        if (File.Exists(path)) return new ZipSource(path, limits);
        throw new InputProblem("bag-missing", path, $"There is neither a folder nor a file {path}.", "Check the path.");
    }

    public static InputProblem Link(string path) => new("symbolic-link", path, $"\"{path}\" is a link to another place; a bag holds files only.", "Ask the sender for a bag with the file itself in its place.");

    public static InputProblem Escape(string path, string reason) => new("path-escape", path, $"The path \"{path}\" {reason}.", "The bag is not used. Ask the sender for a sound one.");

    public static InputProblem TooMany(string bag, BagLimits limits) => new("bag-size", bag, $"The bag holds more than {limits.Files} files.", "Check that it is the right one.");

    public static InputProblem TooDeep(string path, BagLimits limits) => new("bag-size", path, $"The bag has folders more than {limits.Depth} deep.", "Check that it is the right one.");

    public static void RequireRoom(string bag, decimal bytes, BagLimits limits)
    {
        if (bytes > limits.Bytes)
            throw new InputProblem("bag-size", bag, string.Create(CultureInfo.InvariantCulture, $"The bag states {bytes / 1_000_000:0.#} MB, and the studio's disk has {limits.Bytes / 1e6:0.#} MB left."), "Make room, or choose a studio on another disk.");
    }
}

/// <summary>A stream that must have exactly as many bytes as were stated.</summary>
internal sealed class BoundedStream(Stream inner, long bytes) : Stream
{
    private long _read;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => bytes;

    public override long Position { get => _read; set => throw new NotSupportedException(); }

    public override int Read(Span<byte> buffer)
    {
        var read = inner.Read(buffer);
        _read += read;
        if (_read > bytes) throw new InvalidDataException("is longer than stated");
        if (read == 0 && buffer.Length > 0 && _read < bytes) throw new InvalidDataException("is shorter than stated");
        return read;
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing) inner.Dispose();
        base.Dispose(disposing);
    }
}
