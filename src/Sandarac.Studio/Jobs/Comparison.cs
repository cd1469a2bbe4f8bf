using System.Text.Json;
using Sandarac.Analysis.Declaring;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>Compares a run's stored results with those of its repetition, to the last bit.</summary>
internal static class Comparison
{
    public static Repetition Of(Run run, Alignment? aligned, RunResults again, CancellationToken cancellation)
    {
        List<string> figures = [.. Figures(run.Figures, again.Outcome.Figures), .. Alignments(aligned, again.Alignment)];
        if (run.NoAnswer != again.Outcome.NoAnswer) figures.Add($"no answer: \"{run.NoAnswer}\" then, \"{again.Outcome.NoAnswer}\" now");
        var made = again.Hashes(cancellation);
        var stored = run.Rasters.ToDictionary(r => r.Name, r => r.Pyramid.Sha256);
        if (aligned?.PlaneImage is { } plane) stored.Add("", plane.Sha256);
        var rasters = stored.Keys.Union(made.Keys).Order(StringComparer.Ordinal).Where(name => stored.GetValueOrDefault(name) != made.GetValueOrDefault(name))
            .Select(name => name.Length == 0 ? "the plane image differs" : $"raster {name} differs").ToList();
        return new Repetition(run.Id, figures.Count == 0, rasters.Count == 0, [.. figures, .. rasters]);
    }

    private static IEnumerable<string> Figures(IReadOnlyList<Figure> then, IReadOnlyList<Figure> now)
    {
        if (then.Count != now.Count) yield return $"{then.Count} figures then, {now.Count} now";
        foreach (var (a, b) in then.Zip(now))
            if (a != b) yield return $"{a.Name}{(a.Subject is null ? "" : $" ({a.Subject})")}: {a.Value:R} \u00B1 {a.Uncertainty:R} then, {b.Value:R} \u00B1 {b.Uncertainty:R} now";
    }

    private static IEnumerable<string> Alignments(Alignment? then, Alignment? now)
    {
        var (a, b) = (Text(then), Text(now));
        if (a != b) yield return $"alignment: {a} then, {b} now";
    }

    private static string Text(Alignment? a) => a is null ? "none" : JsonSerializer.Serialize(new { a.Map, a.Residuals, a.Verdict, a.Reason }, StudioJson.Options);
}
