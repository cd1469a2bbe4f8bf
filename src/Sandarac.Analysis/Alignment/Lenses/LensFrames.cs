using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Lenses;

/// <summary>A calibration frame.</summary>
/// <param name="Name">File name.</param>
/// <param name="Sha256">Hash of its bytes.</param>
public sealed record LensFrame(string Name, string Sha256);

/// <summary>A lens and the frames that it was measured in.</summary>
/// <param name="Lens">The lens.</param>
/// <param name="Width">Columns of the frames: it holds for photographs of that size.</param>
/// <param name="Height">Rows.</param>
/// <param name="Frames">The frames.</param>
public sealed record MeasuredLens(CameraLens Lens, int Width, int Height, IReadOnlyList<LensFrame> Frames)
{
    /// <summary>The frames' names, for a sentence.</summary>
    public string Names => string.Join(", ", Frames.Select(f => f.Name));
}

/// <summary>Lenses from calibration frames on bare files, by the reading <c>lens-calibration</c>: frames of one size are of one lens.</summary>
/// <param name="Lenses">One for each size in which a board was found.</param>
/// <param name="Warnings">What the reading warns of, and frames without an answer, which are not used.</param>
public sealed record LensFrames(IReadOnlyList<MeasuredLens> Lenses, IReadOnlyList<Warning> Warnings)
{
    internal const string UnusedCode = "lens-not-used";

    /// <summary>Measures.</summary>
    /// <exception cref="InputProblem">A file is missing or cannot be read; more of one size than the reading takes.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static LensFrames Measure(IReadOnlyList<string> paths, CancellationToken cancellation)
    {
        List<MeasuredLens> lenses = [];
        List<Warning> warnings = [];
        foreach (var frames in paths.Distinct().GroupBy(SizeOf))
        {
            var result = Read([.. frames], cancellation);
            warnings.AddRange(result.Warnings);
            if (result.NoAnswer is { } reason) warnings.Add(new Warning(UnusedCode, $"{string.Join(", ", frames.Select(Path.GetFileName))} gives no lens and is not used. {reason}"));
            else lenses.Add(new MeasuredLens(LensOf(result, frames.Key), frames.Key.Width, frames.Key.Height, [.. UsedIn(result)]));
        }
        return new LensFrames(lenses, warnings);
    }

    /// <summary>The lens of photographs of a size; null when no frame tells.</summary>
    public MeasuredLens? For(int width, int height) => Lenses.FirstOrDefault(l => (l.Width, l.Height) == (width, height));

    /// <summary>A warning for every lens that no photograph of a set is as large as.</summary>
    public IEnumerable<Warning> Unused(IReadOnlyCollection<(int Width, int Height)> photographs) => Lenses.Where(l => !photographs.Contains((l.Width, l.Height)))
        .Select(l => new Warning(UnusedCode, $"{l.Names} has {l.Width} x {l.Height} pixels, as no photograph of the painted face has: its lens is not used."));

    /// <summary>Size of an image file, pixels.</summary>
    internal static (int Width, int Height) SizeOf(string path)
    {
        using var file = ImageFile.Open(path);
        return (file.Facts.Width, file.Facts.Height);
    }

    private static BareResult Read(IReadOnlyList<string> paths, CancellationToken cancellation)
    {
        var folder = Path.Combine(Path.GetTempPath(), Guid.NewGuid().ToString("N"));
        try
        {
            return BareRun.Execute(new BareRequest(new LensCalibrationReading(), paths, new Dictionary<string, string>(), null, folder), null, cancellation);
        }
        finally
        {
            if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
        }
    }

    private static CameraLens LensOf(BareResult result, (int Width, int Height) frame)
    {
        double Get(string name) => result.Figures.Single(f => f.Name == name).Value!.Value;
        return new CameraLens(new Point2(Get("centre-x"), Get("centre-y")), CameraLens.HalfDiagonal(frame.Width, frame.Height), Get("k1"), Get("k2"));
    }

    /// <summary>Frames in which the reading found a board.</summary>
    private static IEnumerable<LensFrame> UsedIn(BareResult result) => result.Figures.Where(f => f.Name == "corners")
        .Zip(result.Record.Inputs).Where(f => f.First.Value > 0).Select(f => new LensFrame(f.Second.Name, f.Second.Sha256));
}
