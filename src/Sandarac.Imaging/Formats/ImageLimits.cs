namespace Sandarac.Imaging.Formats;

/// <summary>What a file may ask of this machine; checked on the header, before any pixel is decoded.</summary>
/// <param name="MaxPixels">Largest width x height.</param>
/// <param name="MaxDecodedBytes">Largest width x height x bands x bytes per sample.</param>
/// <param name="MaxFileBytes">Largest file.</param>
/// <param name="MaxExpansion">Largest ratio of decoded bytes to the file's bytes, for images of more than <paramref name="ExpansionFloor"/> bytes decoded.
/// Photographs keep far below; a picture of nothing, made to fill memory, does not.</param>
/// <param name="ExpansionFloor">Decoded bytes below which the ratio does not matter.</param>
public sealed record ImageLimits(long MaxPixels, long MaxDecodedBytes, long MaxFileBytes, long MaxExpansion = 500, long ExpansionFloor = 256L << 20)
{
    /// <summary>8 gigapixels, 64 GB decoded, 64 GB on disk, 500-fold expansion.</summary>
    public static ImageLimits Default { get; } = new(8_000_000_000, 64L << 30, 64L << 30);
}
