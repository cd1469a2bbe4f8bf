using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Formats;

/// <summary>Gives windows of pixels as they are stored: plain TIFF in place, everything else through the image library.</summary>
internal interface IPixelSource : IDisposable
{
    /// <summary>Columns, after the orientation tag.</summary>
    int Width { get; }

    /// <summary>Rows, after the orientation tag.</summary>
    int Height { get; }

    /// <summary>Bands.</summary>
    int Bands { get; }

    /// <summary>How it gives samples.</summary>
    TileFormat Format { get; }

    /// <summary>Reads a window inside the image, pixel-interleaved.</summary>
    void Read(int left, int top, int width, int height, Span<byte> destination);
}
