using Sandarac.Analysis.Declaring;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>Compares a run's stored results with those of its repetition, to the last bit.</summary>
internal static class Comparison
{
    public static Repetition Of(Run run, RunResults again, CancellationToken cancellation)
    {
        List<string> figures = [.. Figures(run.Figures, again.Outcome.Figures)];
        if (run.NoAnswer != again.Outcome.NoAnswer) figures.Add($"no answer: \"{run.NoAnswer}\" then, \"{again.Outcome.NoAnswer}\" now");
        var made = again.Hashes(cancellation);
        var rasters = run.Rasters.Select(r => r.Name).Union(made.Keys).Order(StringComparer.Ordinal)
            .Where(name => run.Rasters.FirstOrDefault(r => r.Name == name)?.Pyramid.Sha256 != made.GetValueOrDefault(name)).Select(name => $"raster {name} differs").ToList();
        return new Repetition(run.Id, figures.Count == 0, rasters.Count == 0, [.. figures, .. rasters]);
    }

    private static IEnumerable<string> Figures(IReadOnlyList<Figure> then, IReadOnlyList<Figure> now)
    {
        if (then.Count != now.Count) yield return $"{then.Count} figures then, {now.Count} now";
        foreach (var (a, b) in then.Zip(now))
            if (a != b) yield return $"{a.Name}{(a.Subject is null ? "" : $" ({a.Subject})")}: {a.Value:R} \u00B1 {a.Uncertainty:R} then, {b.Value:R} \u00B1 {b.Uncertainty:R} now";
    }
}
