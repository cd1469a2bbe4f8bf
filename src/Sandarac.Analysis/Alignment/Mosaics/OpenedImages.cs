using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>A mosaic's inputs as pyramids in the temporary folder, gone again when it is done.</summary>
internal sealed class OpenedImages : IDisposable
{
    private readonly List<PairImage> _opened = [];
    private readonly List<PyramidFile> _kept = [];

    public OpenedImages(RunContext context)
    {
        try
        {
            var reference = context.Inputs("reference") is [var first, ..] ? first : null;
            var parts = context.Inputs("parts");
            (Reference, Frame) = reference is null ? (null, null) : Guide(reference, context);
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

    /// <summary>The guide, in pixels of the reference as given.</summary>
    public AlignmentTarget? Reference { get; }

    /// <summary>What the reference as given covers.</summary>
    public Box? Frame { get; }

    public IReadOnlyList<PairImage> Parts { get; }

    /// <summary>Scale of a target unit, when known.</summary>
    public PixelScale? Scale { get; }

    public IReadOnlyList<double> LikelyScales { get; }

    public void Dispose()
    {
        foreach (var file in _kept) file.Dispose();
        foreach (var image in _opened)
        {
            image.File.Dispose();
            File.Delete(image.File.Path);
        }
    }

    /// <summary>Where the photograph behind an image on the plane is known, it guides: the panel's edges and what lies beyond show in plates too.</summary>
    private (AlignmentTarget, Box?) Guide(InputImage reference, RunContext context)
    {
        Box frame = new(0, 0, reference.Image.Facts.Width, reference.Image.Facts.Height);
        if (reference.Original is not { } original) return (AlignmentTarget.OfPixels(Open(reference, context)), frame);
        var file = PyramidFile.Open(original.PyramidPath);
        _kept.Add(file);
        return (new AlignmentTarget(new PairImage(reference.Name, file, original.Colours), original.ToImage, original.ToImage.Bounds(file.Width, file.Height)), frame);
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
