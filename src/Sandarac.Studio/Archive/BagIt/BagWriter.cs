using System.Text;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>A file of the payload as it was written.</summary>
/// <param name="Path">Its path in the bag.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="Sha256">SHA-256, lower-case hexadecimal.</param>
/// <param name="Sha512">SHA-512, lower-case hexadecimal.</param>
internal sealed record WrittenFile(string Path, long Bytes, string Sha256, string Sha512);

/// <summary>Writes a bag by RFC 8493 with SHA-512 manifests.</summary>
internal sealed class BagWriter(IBagSink sink)
{
    private readonly List<WrittenFile> _payload = [];
    private readonly List<WrittenFile> _tags = [];

    /// <summary>The payload so far.</summary>
    public IReadOnlyList<WrittenFile> Payload => _payload;

    /// <summary>Writes a file of the payload.</summary>
    /// <param name="path">Below data/.</param>
    /// <param name="write">Writes its bytes.</param>
    public WrittenFile Add(string path, Action<Stream> write)
    {
        var file = Write($"data/{path}", write);
        _payload.Add(file);
        return file;
    }

    /// <summary>Writes the tag files and gives the bag its name.</summary>
    /// <param name="info">Labels and values of bag-info.txt; the size of the payload is added.</param>
    public void Finish(IEnumerable<(string Label, string Value)> info)
    {
        AddTag("bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
        AddTag("bag-info.txt", string.Concat(info.Append(("Payload-Oxum", BagInfo.Oxum(_payload.Sum(f => f.Bytes), _payload.Count))).Select(p => BagInfo.Line(p.Item1, p.Item2))));
        AddTag("manifest-sha512.txt", Lines(_payload));
        AddTag("tagmanifest-sha512.txt", Lines(_tags));
        sink.Finish();
    }

    private void AddTag(string path, string text) => _tags.Add(Write(path, stream => stream.Write(Encoding.UTF8.GetBytes(text))));

    private WrittenFile Write(string path, Action<Stream> write)
    {
        using Digest sha256 = Digest.Begin("sha256"), sha512 = Digest.Begin("sha512");
        long bytes = 0;
        sink.Write(path, stream =>
        {
            using var hashed = new HashedStream(stream, sha256, sha512);
            write(hashed);
            bytes = hashed.Position;
        });
        return new WrittenFile(path, bytes, sha256.End(), sha512.End());
    }

    private static string Lines(IEnumerable<WrittenFile> files) => string.Concat(files.OrderBy(f => f.Path, StringComparer.Ordinal).Select(f => $"{f.Sha512}  {BagPath.Encode(f.Path)}\n"));

    private sealed class HashedStream(Stream inner, Digest first, Digest second) : Stream
    {
        private long _written;

        public override bool CanRead => false;

        public override bool CanSeek => false;

        public override bool CanWrite => true;

        public override long Length => _written;

        public override long Position { get => _written; set => throw new NotSupportedException(); }

        public override void Write(ReadOnlySpan<byte> buffer)
        {
            first.Append(buffer);
            second.Append(buffer);
            inner.Write(buffer);
            _written += buffer.Length;
        }

        public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

        public override void Flush() => inner.Flush();

        public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();
    }
}
