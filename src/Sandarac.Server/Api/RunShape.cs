using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>A figure with the words of its declaration.</summary>
internal sealed record FigureShape(string Name, string Title, string Unit, double? Value, double? Uncertainty, string? Note, string? Subject);

/// <summary>A raster of a run, and the layer that shows it.</summary>
internal sealed record RunRasterShape(string Name, string Title, string LayerId);

/// <summary>One run with its full provenance.</summary>
internal sealed record RunShape(Guid Id, Guid PaintingId, RunKind Kind, string Reading, string Title, int Version, RunState State, double Progress,
    IReadOnlyDictionary<string, string> Parameters, IReadOnlyList<RunSource> Inputs, string Key, string SoftwareVersion, string UserName,
    DateTime QueuedAt, DateTime? StartedAt, DateTime? EndedAt, IReadOnlyList<FigureShape> Figures, IReadOnlyList<RunRasterShape> Rasters,
    IReadOnlyList<Warning> Warnings, RunProblem? Problem, string? NoAnswer)
{
    public static RunShape Of(Run run)
    {
        var declaration = DeclarationOf(run);
        return new RunShape(run.Id, run.PaintingId, run.Kind, run.ReadingId, declaration?.Title ?? "Alignment", run.ReadingVersion, run.State,
            run.Progress, run.Parameters, run.Inputs, run.Key, run.SoftwareVersion, run.UserName, run.QueuedAt, run.StartedAt, run.EndedAt,
            [.. run.Figures.Select(f => Shape(f, declaration))], [.. run.Rasters.Select(r => Shape(r, declaration))], run.Warnings, run.Problem, run.NoAnswer);
    }

    /// <summary>What the run's reading says of itself; null for an alignment, or a reading that this version no longer has.</summary>
    public static Declaration? DeclarationOf(Run run) =>
        ReadingCatalogue.All.FirstOrDefault(r => r.Declaration.Id == run.ReadingId)?.Declaration;

    private static FigureShape Shape(Figure figure, Declaration? declaration)
    {
        var declared = declaration?.Figures.FirstOrDefault(f => f.Name == figure.Name);
        return new FigureShape(figure.Name, declared?.Title ?? figure.Name, declared?.Unit ?? "", Finite(figure.Value), Finite(figure.Uncertainty),
            figure.Note, figure.Subject);
    }

    private static RunRasterShape Shape(RunRaster raster, Declaration? declaration) => new(raster.Name,
        declaration?.Rasters.FirstOrDefault(r => r.Name == raster.Name)?.Title ?? raster.Name, $"r-{raster.RunId}-{raster.Name}");

    private static double? Finite(double? value) => value is { } v && double.IsFinite(v) ? v : null;
}
