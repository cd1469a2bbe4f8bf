using Sandarac.Analysis.Alignment;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Analysis.Sections.Aligning;

/// <summary>A quick look whether two large micrographs of one size lie on one grid: most do, and then nothing has to be aligned at full size.</summary>
internal static class SameGrid
{
    /// <summary>Both are brought down to this side: a place is found to a few hundredths of such a pixel, far below half of one of the files'.</summary>
    private const int LongestSide = 1200;

    /// <summary>How the other lies on the visible one, in pixels of the files, when its corners lie near enough to the visible one's; null when they do not, cannot be told, or are no larger than what is looked at anyway.</summary>
    /// <param name="visible">The visible micrograph.</param>
    /// <param name="other">One of its size.</param>
    /// <param name="model">The model of the map.</param>
    /// <param name="near">How near, pixels of the files.</param>
    /// <param name="context">Threads and cancellation.</param>
    public static PairAlignment? Check(InputImage visible, InputImage other, MapModel model, double near, RunContext context)
    {
        var factor = (Math.Max(visible.Image.Facts.Width, visible.Image.Facts.Height) + LongestSide - 1) / LongestSide;
        if (factor == 1) return null;
        using var reference = Reduced(visible, context);
        using var moving = Reduced(other, context);
        try
        {
            var found = PairAligner.Align(AlignmentTarget.OfPixels(Of(visible, reference)), Of(other, moving),
                new PairOptions(model, Start: new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1]), Depth: SearchDepth.Quick), context.Workers);
            Point2[] corners = [new(0, 0), new(reference.Width, 0), new(reference.Width, reference.Height), new(0, reference.Height)];
            return found.Map is { } map && corners.All(c => factor * map.ToPlane(c).DistanceTo(c) <= near) ? InPixelsOfFiles(found, factor) : null;
        }
        finally
        {
            File.Delete(reference.Path);
            File.Delete(moving.Path);
        }
    }

    private static PairAlignment InPixelsOfFiles(PairAlignment found, int factor) => found.HeldOut is not { } held ? found : found with
    {
        HeldOut = held with { Gate = factor * held.Gate, Median = factor * held.Median, Mean = factor * held.Mean, P95 = factor * held.P95, Max = factor * held.Max },
    };

    private static PairImage Of(InputImage image, PyramidFile file) => new(image.Name, file, Bands.Count(image.Image.Facts));

    private static PyramidFile Reduced(InputImage image, RunContext context)
    {
        var (path, planes) = (Path.GetTempFileName(), ReducedImage.Of(image, LongestSide, context).Planes);
        try
        {
            using (var writer = new FloatRasterWriter(path, planes[0].Width, planes[0].Height, planes.Length))
            {
                writer.WriteWindow(0, 0, planes);
                writer.Complete(context.Cancellation);
            }
            return PyramidFile.Open(path);
        }
        catch
        {
            File.Delete(path);
            throw;
        }
    }
}
