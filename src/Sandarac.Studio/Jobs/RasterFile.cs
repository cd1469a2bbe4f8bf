using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio.Storage;

namespace Sandarac.Studio.Jobs;

/// <summary>A raster on its way into the store: written window by window by a reading, or as a whole by someone else.</summary>
internal sealed class RasterFile : IRasterWriter, IDisposable
{
    private readonly FloatRasterWriter? _writer;

    /// <summary>A file that someone else writes, all of it, before <see cref="Finish"/>.</summary>
    public RasterFile(string path, Box? extent) => (Path, Name, Extent) = (path, "", extent);

    /// <summary>A reading's declared raster.</summary>
    public RasterFile(string path, RasterOutput output, int width, int height, PixelScale? scale, Box? extent)
    {
        (Path, Name, Output, Extent) = (path, output.Name, output, extent);
        _writer = new FloatRasterWriter(path, width, height, output.Bands.Count, scale);
    }

    public string Path { get; }

    /// <summary>The raster's declared name; empty for a plane image.</summary>
    public string Name { get; }

    private RasterOutput? Output { get; }

    private Box? Extent { get; }

    public void WriteWindow(int left, int top, IReadOnlyList<Plane> bands) => _writer!.WriteWindow(left, top, bands);

    /// <summary>Completes the file and moves it into the store.</summary>
    public MadeRaster Finish(ObjectStore objects, CancellationToken cancellation)
    {
        CompleteFile(cancellation);
        var (stored, facts) = NewPyramid.Adopt(objects, Path, Output?.Bands, Output?.Unit);
        return new MadeRaster(Name, stored, facts, Extent);
    }

    /// <summary>Completes the file where it is; its hash.</summary>
    public string Complete(CancellationToken cancellation)
    {
        CompleteFile(cancellation);
        return ObjectStore.Hash(Path);
    }

    private void CompleteFile(CancellationToken cancellation)
    {
        _writer?.Complete(cancellation);
        _writer?.Dispose();
    }

    public void Dispose()
    {
        _writer?.Dispose();
        File.Delete(Path);
    }
}
