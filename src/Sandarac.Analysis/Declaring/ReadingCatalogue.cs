using Sandarac.Imaging;

namespace Sandarac.Analysis.Declaring;

/// <summary>All readings, found by their id.</summary>
public static class ReadingCatalogue
{
    /// <summary>Every reading, by id.</summary>
    public static IReadOnlyList<Reading> All { get; } = [.. typeof(ReadingCatalogue).Assembly.GetTypes()
        .Where(t => t is { IsAbstract: false } && t.IsAssignableTo(typeof(Reading)))
        .Select(t => (Reading)Activator.CreateInstance(t)!)
        .OrderBy(r => r.Declaration.Id, StringComparer.Ordinal)];

    /// <summary>The reading with this id.</summary>
    /// <exception cref="InputProblem">There is none; the remedy names the nearest.</exception>
    public static Reading Find(string id) => All.FirstOrDefault(r => r.Declaration.Id == id)
        ?? throw new InputProblem("unknown-reading", id, $"There is no reading \"{id}\".",
            Suggestion.Nearest(id, All.Select(r => r.Declaration.Id)) is { } near ? $"Did you mean \"{near}\"?" : "`sandarac readings` lists them.");
}
