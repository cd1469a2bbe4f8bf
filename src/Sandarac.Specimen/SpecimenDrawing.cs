using Sandarac.Imaging;
using Sandarac.Specimen.Cameras;
using Sandarac.Specimen.Later;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Truth;

namespace Sandarac.Specimen;

/// <summary>
/// Draws the specimen: an invented painting built layer by layer from its support upward and photographed in every light, with everything
/// that is
/// true about it written beside the photographs.
/// </summary>
public static class SpecimenDrawing
{
    /// <summary>Names of all photographs, in the order in which they are taken.</summary>
    public static IReadOnlyList<string> PhotographNames => Catalogue.FileNames;

    /// <summary>Draws into a folder: <c>photographs/</c> holds what a studio would deliver, <c>truth/</c> what only the specimen's maker
    /// can know.</summary>
    /// <param name="settings">Resolution and seed.</param>
    /// <param name="outFolder">Made when missing; files of the same names are replaced, each only when its successor is whole.</param>
    /// <param name="progress">Told what is being done; may be null.</param>
    /// <param name="cancellation">Stops the drawing; files already whole stay, no half file is left.</param>
    /// <exception cref="InputProblem">Resolution out of range, unknown file name, or more memory needed than the machine has.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static void Draw(SpecimenSettings settings, string outFolder, IProgress<DrawingProgress>? progress = null,
        CancellationToken cancellation = default)
    {
        Check(settings);
        var photographs = Directory.CreateDirectory(Path.Combine(outFolder, "photographs")).FullName;
        var truth = Directory.CreateDirectory(Path.Combine(outFolder, "truth")).FullName;
        var options = new ParallelOptions { CancellationToken = cancellation, MaxDegreeOfParallelism = settings.Threads > 0
            ? settings.Threads : Environment.ProcessorCount };
        var canvas = new Canvas(new PlaneGrid(settings.PixelsPerInch));
        var painted = new Building(canvas, settings.Seed, truth, options, (done, doing) => Report(0.45 * done, doing)).Build();
        if (settings.Later is { } state)
        {
            TakeLater(state);
            return;
        }
        TruthFolder.WritePlane(painted, truth, options);
        var session = new Session(settings, canvas, photographs, options, (done, doing) => Report(0.45 + 0.53 * done, doing));
        session.TakeAll();
        var sections = new Sections.SectionSession(settings, painted, photographs, truth, options);
        sections.TakeAll((done, doing) => Report(0.96 + 0.04 * done, doing));
        TruthFolder.WriteSession(settings, painted, session.Taken, truth);
        if (settings.WithCsv) PhotographList.Write(Path.Combine(photographs, "photographs.csv"), settings,
            [.. session.Taken, .. sections.Taken]);
        Report(1, "done");

        void TakeLater(LaterState state)
        {
            var mishaps = new Mishaps(canvas, settings.Seed);
            DamageDone[] done = [.. (state == LaterState.Changed ? DamagePlan.Of(settings.Seed) : []).Select(mishaps.Apply)];
            TruthFolder.WritePlane(painted, truth, options);
            LaterTruth.Write(done, mishaps.Numbers, canvas.Grid, truth);
            var session = new LaterSession(settings, canvas, photographs, options);
            session.TakeAll();
            TruthFolder.WriteSession(settings, painted, session.Taken, truth);
            if (settings.WithCsv) PhotographList.Write(Path.Combine(photographs, "photographs.csv"), settings, session.Taken);
            Report(1, "done");
        }

        void Report(double fraction, string doing) => progress?.Report(new DrawingProgress(fraction, doing));
    }

    private static void Check(SpecimenSettings settings)
    {
        if (settings.PixelsPerInch is not (>= 40 and <= 1200))
            throw new InputProblem("resolution-out-of-range", "ppi", $"{settings.PixelsPerInch} ppi is outside 40 to 1200.",
                "Choose a resolution from 40 to 1200 ppi.");
        var names = settings.Later is null ? PhotographNames : LaterSession.FileNames;
        if (settings.OnlyPhotographs?.FirstOrDefault(n => !names.Contains(n, StringComparer.OrdinalIgnoreCase)) is { } unknown)
            throw new InputProblem("unknown-photograph", unknown, $"The specimen has no photograph {unknown}.",
                $"Choose among {string.Join(", ", names)}.");
        var available = GC.GetGCMemoryInfo().TotalAvailableMemoryBytes;
        if (settings.MemoryNeeded > available)
            throw new InputProblem("too-little-memory", "ppi",
                $"Drawing at {settings.PixelsPerInch} ppi needs {settings.MemoryNeeded / 1e9:0.0} GB of memory; this machine offers {available / 1e9:0.0} GB.",
                "Choose a lower resolution or a machine with more memory.");
    }
}
