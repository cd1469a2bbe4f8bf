namespace Sandarac.Imaging.Formats;

/// <summary>What a file may ask of this machine; checked on the header, before any pixel is decoded.</summary>
/// <param name="MaxPixels">Largest width x height.</param>
/// <param name="MaxDecodedBytes">Largest width x height x bands x bytes per sample.</param>
/// <param name="MaxFileBytes">Largest file.</param>
public sealed record ImageLimits(long MaxPixels, long MaxDecodedBytes, long MaxFileBytes)
{
    /// <summary>8 gigapixels, 64 GB decoded, 64 GB on disk.</summary>
    public static ImageLimits Default { get; } = new(8_000_000_000, 64L << 30, 64L << 30);
}
