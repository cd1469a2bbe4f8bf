namespace Sandarac.Studio.Archive;

/// <summary>Copies files of any size a piece at a time.</summary>
internal static class Copying
{
    private const int Piece = 1 << 18;

    /// <param name="source">Where from.</param>
    /// <param name="target">Where to.</param>
    /// <param name="copied">Is told each piece that was copied.</param>
    /// <param name="cancellation">Stops between two pieces.</param>
    public static void Copy(Stream source, Stream target, Action<ReadOnlySpan<byte>> copied, CancellationToken cancellation)
    {
        var buffer = new byte[Piece];
        for (int read; (read = source.Read(buffer)) > 0; copied(buffer.AsSpan(0, read)))
        {
            cancellation.ThrowIfCancellationRequested();
            target.Write(buffer, 0, read);
        }
    }
}
