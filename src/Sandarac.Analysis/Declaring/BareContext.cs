using Sandarac.Imaging;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Analysis.Declaring;

/// <summary>A run that writes its rasters into a folder, as float32 TIFF with a PNG beside each.</summary>
internal sealed class BareContext(Declaration declaration, Arguments arguments, IReadOnlyDictionary<string, IReadOnlyList<InputImage>> inputs, string folder,
    IProgress<double>? progress, CancellationToken cancellation) : RunContext(declaration, arguments, inputs, progress, cancellation), IDisposable
{
    private const int PreviewSide = 2000;

    private readonly List<(RasterOutput Output, FloatRasterWriter Writer)> _rasters = [];

    /// <summary>Finishes the rasters; a run without an answer keeps none.</summary>
    public IReadOnlyList<RasterFile> Complete(bool answered)
    {
        if (!answered) return [];
        foreach (var (output, writer) in _rasters)
        {
            writer.Complete(Cancellation);
            using var pyramid = PyramidFile.Open(Path.Combine(folder, $"{output.Name}.tif"));
            // A picture in relative units is shown as it is; a map of numbers by its own range.
            var window = output.Unit == "relative" ? new ContrastWindow(0, 1) : (ContrastWindow?)null;
            File.WriteAllBytes(Path.Combine(folder, $"{output.Name}.png"), DisplayEncoder.Thumbnail(pyramid, PreviewSide, window, DisplayFormat.Png));
        }
        return [.. _rasters.Select(r => new RasterFile($"{r.Output.Name}.tif", $"{r.Output.Name}.png", r.Output.Unit, r.Output.Bands))];
    }

    public void Dispose()
    {
        foreach (var (_, writer) in _rasters) writer.Dispose();
    }

    protected override IRasterWriter CreateRaster(RasterOutput output, int width, int height, PixelScale? scale)
    {
        var writer = new FloatRasterWriter(Path.Combine(folder, $"{output.Name}.tif"), width, height, output.Bands.Count, scale);
        _rasters.Add((output, writer));
        return new Windows(writer);
    }

    private sealed class Windows(FloatRasterWriter writer) : IRasterWriter
    {
        public void WriteWindow(int left, int top, IReadOnlyList<Plane> bands) => writer.WriteWindow(left, top, bands);
    }
}
