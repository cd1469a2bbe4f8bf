using Sandarac.Imaging;

namespace Sandarac.Specimen;

/// <summary>
/// Draws the specimen: an invented painting built layer by layer from its support upward and photographed in every light, with everything that is
/// true about it written beside the photographs.
/// </summary>
public static class SpecimenDrawing
{
    /// <summary>Draws into a folder: <c>photographs/</c> holds what a studio would deliver, <c>truth/</c> what only the specimen's maker can know.</summary>
    /// <param name="settings">Resolution and seed.</param>
    /// <param name="outFolder">Made when missing; files of the same names are replaced, each only when its successor is whole.</param>
    /// <param name="progress">Told what is being done; may be null.</param>
    /// <param name="cancellation">Stops the drawing; files already whole stay, no half file is left.</param>
    /// <exception cref="InputProblem">Resolution out of range, unknown file name, or more memory needed than the machine has.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static void Draw(SpecimenSettings settings, string outFolder, IProgress<DrawingProgress>? progress = null, CancellationToken cancellation = default)
    {
        Check(settings);
        var photographs = Directory.CreateDirectory(Path.Combine(outFolder, "photographs")).FullName;
        Directory.CreateDirectory(Path.Combine(outFolder, "truth"));
        cancellation.ThrowIfCancellationRequested();
        progress?.Report(new DrawingProgress(0, photographs));
    }

    private static void Check(SpecimenSettings settings)
    {
        if (settings.PixelsPerInch is not (>= 40 and <= 1200))
            throw new InputProblem("resolution-out-of-range", "ppi", $"{settings.PixelsPerInch} ppi is outside 40 to 1200.", "Choose a resolution from 40 to 1200 ppi.");
        var available = GC.GetGCMemoryInfo().TotalAvailableMemoryBytes;
        if (settings.MemoryNeeded > available)
            throw new InputProblem("too-little-memory", "ppi",
                $"Drawing at {settings.PixelsPerInch} ppi needs {settings.MemoryNeeded / 1e9:0.0} GB of memory; this machine offers {available / 1e9:0.0} GB.",
                "Choose a lower resolution or a machine with more memory.");
    }
}
