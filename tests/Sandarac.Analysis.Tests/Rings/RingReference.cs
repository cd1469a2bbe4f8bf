using Sandarac.Analysis.Rings;
using Sandarac.Analysis.Rings.Files;

namespace Sandarac.Analysis.Tests.Rings;

/// <summary>The public ring-width files (SOURCE.md beside them).</summary>
internal static class RingReference
{
    public static string Path(string name) => System.IO.Path.Combine(AppContext.BaseDirectory, "References", "Rings", name);

    public static IReadOnlyList<RingWidths> Series(string name) => RingFile.Read(Path(name));

    /// <summary>Stretches of so many rings, without dates, with the true year of their last ring.</summary>
    public static IEnumerable<(RingWidths Sample, int End, RingWidths Whole)> Stretches(IReadOnlyList<RingWidths> series, int rings) => series.SelectMany(s => Enumerable.Range(0, s.Widths.Count / rings)
        .Select(i => (new RingWidths($"{s.Id}-{i}", 1, [.. s.Widths.Skip(i * rings).Take(rings)], false), s.FirstYear + (i + 1) * rings - 1, s)));
}
