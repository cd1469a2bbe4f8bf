using System.Security.Cryptography;

namespace Sandarac.Imaging.Storing;

/// <summary>Copies a file and takes its SHA-256 in the same pass.</summary>
public static class HashingCopy
{
    private const int Chunk = 1 << 20;

    /// <summary>Copies and hashes.</summary>
    /// <param name="source">The file to read.</param>
    /// <param name="target">The file to make; removed again when anything goes wrong.</param>
    /// <param name="progress">Bytes copied so far.</param>
    /// <param name="cancellation">Cancels.</param>
    /// <returns>The hash, lower-case hexadecimal, and the number of bytes.</returns>
    /// <exception cref="InputProblem">The disk is full, or the file grew, shrank or was changed while it was read.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; nothing is left behind.</exception>
    public static (string Sha256, long Bytes) Copy(string source, string target, IProgress<long>? progress = null, CancellationToken cancellation = default)
    {
        using var from = File.OpenHandle(source, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, FileOptions.SequentialScan);
        var (length, changed) = (RandomAccess.GetLength(from), File.GetLastWriteTimeUtc(source));
        try
        {
            using var to = Disk.Create(target, length);
            var hash = Run(from, to, target, progress, cancellation, out var bytes);
            if (bytes != length || RandomAccess.GetLength(from) != length || File.GetLastWriteTimeUtc(source) != changed)
                throw new InputProblem("file-changed", Path.GetFileName(source), $"{Path.GetFileName(source)} changed while it was read.", "Wait until the program that writes it has finished, then import it again.");
            return (hash, bytes);
        }
        catch
        {
            File.Delete(target);
            throw;
        }
    }

    private static string Run(Microsoft.Win32.SafeHandles.SafeFileHandle from, Microsoft.Win32.SafeHandles.SafeFileHandle to, string target, IProgress<long>? progress, CancellationToken cancellation, out long bytes)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var buffer = new byte[Chunk];
        for (bytes = 0; RandomAccess.Read(from, buffer, bytes) is > 0 and var read; bytes += read)
        {
            cancellation.ThrowIfCancellationRequested();
            hash.AppendData(buffer, 0, read);
            try
            {
                RandomAccess.Write(to, buffer.AsSpan(0, read), bytes);
            }
            catch (IOException e) when (Disk.IsFull(e))
            {
                throw Disk.FullProblem(target, e);
            }
            progress?.Report(bytes + read);
        }
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
