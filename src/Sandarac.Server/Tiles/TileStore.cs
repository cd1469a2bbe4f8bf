using System.Buffers;
using Sandarac.Imaging;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Tiles;

/// <summary>
/// Makes tiles and thumbnails. Tiles of numbers are read straight from the uncompressed pyramid into a rented buffer: the system's own file cache
/// keeps them warm, and a second copy here would only take its room. Pictures cost an encoding, so they are kept.
/// </summary>
internal sealed class TileStore(OpenStudio studio, ServerOptions options) : IDisposable
{
    public const string Numbers = "application/octet-stream";
    public const string Picture = "image/jpeg";
    public const string Thumbnail = "image/webp";
    private const int Quality = 92;
    private const int ThumbnailSide = 256;

    private readonly ByteCache<(string Sha256, int Level, int Column, int Row)> _pictures = new(options.TileCacheBytes);
    private readonly OpenPyramids _pyramids = new();
    private readonly SemaphoreSlim _workers = new(options.TileWorkers > 0 ? options.TileWorkers : Environment.ProcessorCount);

    public static string MediaTypeOf(Layer layer) => IsPicture(layer) ? Picture : Numbers;

    /// <summary>One tile.</summary>
    /// <exception cref="InputProblem">"unknown-tile": outside the layer.</exception>
    public async ValueTask<TileContent> TileAsync(Layer layer, int level, int column, int row, CancellationToken cancellation)
    {
        Check(layer.Pyramid, level, column, row);
        var key = (layer.Pyramid.Sha256, level, column, row);
        if (_pictures.TryGet(key, out var kept)) return new TileContent(kept, kept.Length, isRented: false);
        await _workers.WaitAsync(cancellation);
        try
        {
            var pyramid = Open(layer);
            var buffer = ArrayPool<byte>.Shared.Rent(pyramid.TileBytes);
            pyramid.ReadTile(level, column, row, buffer);
            return IsPicture(layer) ? Encode(pyramid, buffer, key) : new TileContent(buffer, pyramid.TileBytes, isRented: true);
        }
        finally
        {
            _workers.Release();
        }
    }

    /// <summary>The whole layer, small, in its suggested contrast window.</summary>
    public async ValueTask<TileContent> ThumbnailAsync(Layer layer, CancellationToken cancellation)
    {
        var key = (layer.Pyramid.Sha256, -1, 0, 0);
        if (_pictures.TryGet(key, out var kept)) return new TileContent(kept, kept.Length, isRented: false);
        await _workers.WaitAsync(cancellation);
        try
        {
            var facts = layer.Pyramid;
            var made = DisplayEncoder.Thumbnail(Open(layer), ThumbnailSide, IsPicture(layer) || facts.High <= facts.Low ? null : new ContrastWindow(facts.Low, facts.High));
            _pictures.Add(key, made);
            return new TileContent(made, made.Length, isRented: false);
        }
        finally
        {
            _workers.Release();
        }
    }

    public void Dispose() => _workers.Dispose();

    private static bool IsPicture(Layer layer) => layer.Pyramid.Format == SampleFormat.UInt8;

    private static void Check(PyramidFacts pyramid, int level, int column, int row)
    {
        if (level >= 0 && level < pyramid.Levels && Covers(pyramid.Width, level, column) && Covers(pyramid.Height, level, row)) return;
        throw new InputProblem("unknown-tile", $"{level}/{column}/{row}", "There is no such tile in the layer.", "Levels begin at 0, full size; each further one halves.");
    }

    /// <summary>Sizes halve rounding up, which is the same as dividing by 2^level rounding up.</summary>
    private static bool Covers(int size, int level, int index) => index >= 0 && index <= (((size - 1) >> level) / PyramidFile.TileSize);

    private PyramidFile Open(Layer layer) => _pyramids.Open(studio.Objects.PathOf(layer.Pyramid.Sha256));

    private TileContent Encode(PyramidFile pyramid, byte[] pixels, (string, int, int, int) key)
    {
        try
        {
            var made = DisplayEncoder.Encode(pixels, PyramidFile.TileSize, PyramidFile.TileSize, pyramid.Bands, pyramid.IccProfile, DisplayFormat.Jpeg, Quality);
            _pictures.Add(key, made);
            return new TileContent(made, made.Length, isRented: false);
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(pixels);
        }
    }
}
