using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>A mosaic's inputs as pyramids in the temporary folder, gone again when it is done.</summary>
internal sealed class OpenedImages : IDisposable
{
    private readonly List<PairImage> _opened = [];

    public OpenedImages(RunContext context)
    {
        try
        {
            var reference = context.Inputs("reference") is [var first, ..] ? first : null;
            var parts = context.Inputs("parts");
            Reference = reference is null ? null : AlignmentTarget.OfPixels(Open(reference, context));
            Parts = [.. parts.Select(p => Open(p, context))];
            Scale = reference?.Scale ?? (reference is null ? parts[0].Scale : null);
            LikelyScales = reference?.Scale is { } r && parts[0].Scale is { } s ? [s.MmPerPixel / r.MmPerPixel] : [];
        }
        catch
        {
            Dispose();
            throw;
        }
    }

    /// <summary>The guide in its own pixels.</summary>
    public AlignmentTarget? Reference { get; }

    public IReadOnlyList<PairImage> Parts { get; }

    /// <summary>Scale of a target unit, when known.</summary>
    public PixelScale? Scale { get; }

    public IReadOnlyList<double> LikelyScales { get; }

    public void Dispose()
    {
        foreach (var image in _opened)
        {
            image.File.Dispose();
            File.Delete(image.File.Path);
        }
    }

    private PairImage Open(InputImage input, RunContext context)
    {
        var path = Path.GetTempFileName();
        try
        {
            PyramidFile.Write(input.Image, path, null, context.Cancellation);
            _opened.Add(new PairImage(input.Name, PyramidFile.Open(path), Bands.Count(input.Image.Facts)));
            return _opened[^1];
        }
        catch
        {
            File.Delete(path);
            throw;
        }
    }
}
