using System.Diagnostics;
using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>What to align, on bare files.</summary>
/// <param name="Reference">The file that stays.</param>
/// <param name="Moving">The file that is brought onto it.</param>
/// <param name="Out">Where to write the moving image on the reference's grid; null for nowhere.</param>
/// <param name="PointsIn">A CSV with a header and x, y in moving pixels; null for none.</param>
/// <param name="PointsOut">Where to write those points in reference pixels.</param>
/// <param name="Model">The model; null to choose.</param>
/// <param name="Lens">Frames of a flat chessboard, as large as the moving file and through the same lens; none to fit a lens or leave it out.</param>
public sealed record BareAlignmentRequest(string Reference, string Moving, string? Out = null, string? PointsIn = null, string? PointsOut = null, MapModel? Model = null, IReadOnlyList<string>? Lens = null);

/// <summary>Held-out patches in reference pixels, and in mm where the reference has a scale.</summary>
public sealed record BareHeldOut(int Count, int Agreeing, double GatePx, double MedianPx, double MeanPx, double P95Px, double MaxPx, double? MedianMm, double? P95Mm, double? MaxMm);

/// <summary>How long a stage took.</summary>
public sealed record BareStage(string Name, double Seconds);

/// <summary>The result, as it is printed.</summary>
public sealed record BareAlignmentResult(
    PairVerdict Verdict, string Reason, MapModel? Model, int Matches, BareHeldOut? HeldOut, double Log10FalseAlarms, double StandardErrorPx, PlaneMap? Map, MeasuredLens? Lens, IReadOnlyList<Warning> Warnings, IReadOnlyList<BareStage> Stages);

/// <summary>Aligns two image files without a studio. Pyramids for reading by windows are made in the temporary folder and removed again.</summary>
public static class BareAlignment
{
    /// <summary>Aligns and writes what is asked for, all of it or nothing; nothing when the two do not align.</summary>
    /// <exception cref="InputProblem">A file is missing, damaged or too small; the points are no such table; an output is one of the inputs or cannot be written; the disk is full; a lens's frame is not as large as the moving file ("lens-size").</exception>
    /// <exception cref="OperationCanceledException">Cancelled; nothing is left behind.</exception>
    public static BareAlignmentResult Run(BareAlignmentRequest request, IProgress<double>? progress, CancellationToken cancellation)
    {
        RequireOutputsApart(request);
        var points = request.PointsIn is null ? null : PointTable.Read(request.PointsIn);
        var clock = Stopwatch.StartNew();
        using var reference = OpenedImage.Open(request.Reference, cancellation);
        using var moving = OpenedImage.Open(request.Moving, cancellation);
        List<BareStage> stages = [new("open", clock.Elapsed.TotalSeconds)];
        var (lens, warnings) = LensOf(request, moving.Pair, cancellation);
        progress?.Report(0.1);
        var aligned = PairAligner.Align(AlignmentTarget.OfPixels(reference.Pair), moving.Pair with { Lens = lens?.Lens }, new PairOptions(request.Model, LikelyScales(reference, moving)), new ParallelOptions { CancellationToken = cancellation },
            _ => progress?.Report(Math.Min(0.7, 0.1 + 0.1 * stages.Count)));
        stages.AddRange(aligned.Stages.Select(s => new BareStage(s.Name, s.Seconds)));
        if (aligned.Map is { } map)
        {
            clock.Restart();
            Write(request, reference, moving, map, points, cancellation);
            stages.Add(new BareStage("write", clock.Elapsed.TotalSeconds));
        }
        progress?.Report(1);
        return new BareAlignmentResult(aligned.Verdict, aligned.Reason, aligned.Model, aligned.Patches.Count, HeldOut(aligned.HeldOut, reference.Scale?.MmPerPixel), aligned.Log10FalseAlarms, aligned.StandardError, aligned.Map, lens, warnings, stages);
    }

    /// <summary>What is written never takes the place of what was read.</summary>
    private static void RequireOutputsApart(BareAlignmentRequest request)
    {
        var read = new[] { request.Reference, request.Moving, request.PointsIn }.OfType<string>().Select(Path.GetFullPath).ToHashSet();
        foreach (var output in new[] { request.Out, request.PointsOut }.OfType<string>())
            if (!read.Add(Path.GetFullPath(output)))
                throw new InputProblem("output-in-use", output, $"{Path.GetFileName(output)} is read here, or written twice.", "Give the result a name of its own.");
    }

    /// <summary>The moving file's lens, when its frames tell; what is to be known of them.</summary>
    private static (MeasuredLens? Lens, IReadOnlyList<Warning> Warnings) LensOf(BareAlignmentRequest request, PairImage moving, CancellationToken cancellation)
    {
        var (width, height) = (moving.File.Width, moving.File.Height);
        foreach (var frame in request.Lens ?? [])
            if (LensFrames.SizeOf(frame) is var size && size != (width, height))
                throw new InputProblem("lens-size", frame, $"{Path.GetFileName(frame)} has {size.Width} x {size.Height} pixels, but {moving.Name} has {width} x {height}.", "Give a frame of the chessboard by the same camera, neither of the two cropped or resized.");
        var measured = LensFrames.Measure(request.Lens ?? [], cancellation);
        return (measured.For(width, height), measured.Warnings);
    }

    /// <summary>Everything is written under another name first, and takes its own when all of it is there.</summary>
    private static void Write(BareAlignmentRequest request, OpenedImage reference, OpenedImage moving, PlaneMap map, IReadOnlyList<Point2>? points, CancellationToken cancellation)
    {
        var written = new List<(string New, string Final)>();
        string Beside(string path)
        {
            written.Add(($"{path}.{Guid.NewGuid():N}.new", path));
            return written[^1].New;
        }

        try
        {
            if (points is not null && request.PointsOut is { } table) PointTable.Write(Beside(table), [.. points.Select(map.ToPlane)]);
            var grid = new PlaneGrid(new Box(0, 0, reference.Pair.File.Width, reference.Pair.File.Height), 1);
            if (request.Out is { } image) PlaneResampler.Write(moving.Pair.File, map, grid, Beside(image), reference.Scale, null, cancellation);
            foreach (var (unfinished, final) in written) File.Move(unfinished, final, overwrite: true);
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException)
        {
            var name = written[^1].Final;
            throw new InputProblem("cannot-write", name, $"{name} cannot be written.", "Choose a folder that exists and may be written to.", e);
        }
        finally
        {
            foreach (var (unfinished, _) in written) Remove(unfinished);
        }
    }

    private static void Remove(string path)
    {
        // Deleting what is not there is no error, but its folder must be.
        if (File.Exists(path)) File.Delete(path);
    }

    private static double[] LikelyScales(OpenedImage reference, OpenedImage moving) =>
        reference.Scale is { } r && moving.Scale is { } m ? [m.MmPerPixel / r.MmPerPixel] : [];

    private static BareHeldOut? HeldOut(HeldOutResidual? r, double? mm) => r is null ? null
        : new BareHeldOut(r.Patches, r.Agreeing, r.Gate, r.Median, r.Mean, r.P95, r.Max, r.Median * mm, r.P95 * mm, r.Max * mm);

    /// <summary>An image file and its temporary pyramid.</summary>
    private sealed class OpenedImage(PairImage pair, PixelScale? scale) : IDisposable
    {
        public PairImage Pair { get; } = pair;

        public PixelScale? Scale { get; } = scale;

        public static OpenedImage Open(string path, CancellationToken cancellation)
        {
            using var file = ImageFile.Open(path);
            var pyramid = Path.GetTempFileName();
            try
            {
                PyramidFile.Write(file, pyramid, null, cancellation);
                return new OpenedImage(new PairImage(Path.GetFileName(path), PyramidFile.Open(pyramid), Bands.Count(file.Facts)), file.Facts.Scale);
            }
            catch
            {
                File.Delete(pyramid);
                throw;
            }
        }

        public void Dispose()
        {
            var path = Pair.File.Path;
            Pair.File.Dispose();
            File.Delete(path);
        }
    }
}
