using System.Buffers;

namespace Sandarac.Server.Tiles;

/// <summary>The bytes of a tile; dispose it when they are sent.</summary>
internal readonly struct TileContent(byte[] buffer, int length, bool isRented) : IDisposable
{
    public ReadOnlyMemory<byte> Bytes => buffer.AsMemory(0, length);

    public void Dispose()
    {
        if (isRented) ArrayPool<byte>.Shared.Return(buffer);
    }
}
