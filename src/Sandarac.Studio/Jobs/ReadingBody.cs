using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>Runs a declared reading on a run's stored inputs and parameters.</summary>
internal static class ReadingBody
{
    /// <exception cref="InputProblem">The reading has another version now, an object is missing, or the inputs cannot be used.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static void Work(OpenStudio studio, StudioDb db, Run run, RunResults results, IProgress<double> progress, CancellationToken cancellation)
    {
        var reading = ReadingCatalogue.Find(run.ReadingId);
        if (reading.Declaration.Version != run.ReadingVersion)
            throw new InputProblem("reading-version", run.ReadingId, $"The run was asked for with version {run.ReadingVersion} of {run.ReadingId}; this program has version {reading.Declaration.Version}.",
                "Run the reading anew.");
        using var inputs = InputSet.Open(studio, db, run);
        var context = new StudioRunContext(studio, reading.Declaration, Arguments.Resolve(reading.Declaration, run.Parameters), inputs, results, progress, cancellation);
        results.Outcome = reading.Run(context);
    }
}
