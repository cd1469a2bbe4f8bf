using System.Buffers;
using Sandarac.Imaging;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Tiles;

/// <summary>A tile's place in its layer.</summary>
/// <param name="Level">0 is full size; each further one halves.</param>
/// <param name="Column">Column of tiles.</param>
/// <param name="Row">Row of tiles.</param>
internal readonly record struct TilePlace(int Level, int Column, int Row);

/// <summary>
/// Makes tiles and thumbnails. Pictures cost an encoding, so they are kept. Numbers are read from the uncompressed pyramid straight into the
/// answer's own buffer: the system's file cache keeps them warm, and a second copy here would only take its room.
/// </summary>
internal sealed class TileStore(OpenStudio studio, ServerOptions options) : IDisposable
{
    public const string Numbers = "application/octet-stream";
    public const string Picture = "image/jpeg";
    public const string Thumbnail = "image/webp";
    private const int Quality = 92;
    private const int ThumbnailSide = 256;
    private static readonly TilePlace Whole = new(-1, 0, 0);

    private readonly ByteCache<(string Sha256, TilePlace Place)> _pictures = new(options.TileCacheBytes);
    private readonly SemaphoreSlim _workers = new(options.TileWorkers > 0 ? options.TileWorkers : Environment.ProcessorCount);

    /// <summary>Whether a layer's tiles are pictures; the others' are numbers.</summary>
    public static bool ShowsPictures(Layer layer) => layer.Pyramid.Format == SampleFormat.UInt8;

    /// <summary>A tile of a layer that shows pictures.</summary>
    /// <exception cref="InputProblem">"unknown-tile": outside the layer.</exception>
    public ValueTask<byte[]> PictureAsync(Layer layer, TilePlace place, CancellationToken cancellation)
    {
        Check(layer.Pyramid, place);
        return KeptAsync(layer, place, pyramid => Encode(pyramid, place), cancellation);
    }

    /// <summary>The whole layer, small, in its suggested contrast window.</summary>
    public ValueTask<byte[]> ThumbnailAsync(Layer layer, CancellationToken cancellation)
    {
        var facts = layer.Pyramid;
        ContrastWindow? window = ShowsPictures(layer) || facts.High <= facts.Low ? null : new ContrastWindow(facts.Low, facts.High);
        return KeptAsync(layer, Whole, pyramid => DisplayEncoder.Thumbnail(pyramid, ThumbnailSide, window), cancellation);
    }

    /// <summary>A part of a layer on the plane; made anew each time, the browser keeps it.</summary>
    /// <exception cref="InputProblem">The layer or the place cannot be.</exception>
    public Task<byte[]> DetailAsync(Layer layer, Box place, int longest, CancellationToken cancellation) => MadeAsync(() => PlaneDetail.Draw(studio, layer, place, longest), cancellation);

    /// <summary>Sends a tile of a layer of numbers as the rest of an answer whose headers are set.</summary>
    /// <exception cref="InputProblem">"unknown-tile": outside the layer; nothing has been sent then.</exception>
    public async Task SendNumbersAsync(Layer layer, TilePlace place, HttpResponse response, CancellationToken cancellation)
    {
        Check(layer.Pyramid, place);
        var length = studio.Pyramids.Read(layer.Pyramid.Sha256, pyramid => pyramid.TileBytes);
        response.ContentLength = length;
        // Only a started answer hands out its own buffer; before, it would be a copy.
        await response.StartAsync(cancellation);
        await _workers.WaitAsync(cancellation);
        try
        {
            var buffer = response.BodyWriter.GetMemory(length)[..length];
            studio.Pyramids.Read(layer.Pyramid.Sha256, pyramid => Read(pyramid, place, buffer));
            response.BodyWriter.Advance(length);
        }
        finally
        {
            _workers.Release();
        }
        await response.BodyWriter.FlushAsync(cancellation);
    }

    public void Dispose() => _workers.Dispose();

    private async ValueTask<byte[]> KeptAsync(Layer layer, TilePlace place, Func<PyramidFile, byte[]> make, CancellationToken cancellation)
    {
        var key = (layer.Pyramid.Sha256, place);
        if (_pictures.TryGet(key, out var kept)) return kept;
        var made = await MadeAsync(() => studio.Pyramids.Read(layer.Pyramid.Sha256, make), cancellation);
        _pictures.Add(key, made);
        return made;
    }

    /// <summary>Makes a picture when a worker is free.</summary>
    private async Task<byte[]> MadeAsync(Func<byte[]> make, CancellationToken cancellation)
    {
        await _workers.WaitAsync(cancellation);
        try
        {
            return make();
        }
        finally
        {
            _workers.Release();
        }
    }

    private static byte[] Encode(PyramidFile pyramid, TilePlace place)
    {
        var pixels = ArrayPool<byte>.Shared.Rent(pyramid.TileBytes);
        try
        {
            Read(pyramid, place, pixels);
            return DisplayEncoder.Encode(pixels, PyramidFile.TileSize, PyramidFile.TileSize, pyramid.Bands, pyramid.IccProfile, DisplayFormat.Jpeg, Quality);
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(pixels);
        }
    }

    private static int Read(PyramidFile pyramid, TilePlace place, Memory<byte> buffer)
    {
        pyramid.ReadTile(place.Level, place.Column, place.Row, buffer.Span);
        return pyramid.TileBytes;
    }

    private static void Check(PyramidFacts pyramid, TilePlace place)
    {
        if (place.Level >= 0 && place.Level < pyramid.Levels && Covers(pyramid.Width, place.Level, place.Column) && Covers(pyramid.Height, place.Level, place.Row)) return;
        throw new InputProblem("unknown-tile", $"{place.Level}/{place.Column}/{place.Row}", "There is no such tile in the layer.",
            "Levels begin at 0, full size; each further one halves.");
    }

    /// <summary>Sizes halve rounding up, which is the same as dividing by 2^level rounding up.</summary>
    private static bool Covers(int size, int level, int index) => index >= 0 && index <= ((size - 1) >> level) / PyramidFile.TileSize;
}
