using NetTopologySuite.Geometries;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Where on a painting its stages can be looked at.</summary>
internal static class StagePlaces
{
    /// <summary>In the samples whose layers show them, in zones that are said to show them or hold such a sample, and where two such zones overlap.</summary>
    public static IReadOnlyList<Occurrence> Of(IReadOnlyList<Stage> stages, IEnumerable<RelationContent> relations, IReadOnlyList<(Sample Sample, List<SectionLayer> Layers)> sections, IReadOnlyList<ZoneFacts> zones)
    {
        var inZone = stages.SelectMany(s => s.Content.Zones.Select(z => (Zone: z, Stage: s.Id)))
            .Concat(relations.Where(r => r.ZoneId is not null).SelectMany(r => new[] { (Zone: r.ZoneId!.Value, Stage: r.StageId), (Zone: r.ZoneId!.Value, Stage: r.OtherId) })).ToLookup(z => z.Zone, z => z.Stage);
        var shown = zones.Where(z => inZone.Contains(z.Id)).Select(z => (z.Name, Shape: ZoneGeometry.Read(z.Geometry), Stages: inZone[z.Id].ToHashSet())).ToList();
        foreach (var (sample, layers) in sections)
            if (sample.Content is { X: { } x, Y: { } y })
                foreach (var zone in shown.Where(z => z.Shape.Covers(new Point(x, y)))) zone.Stages.UnionWith(layers.Select(l => l.Content.StageId!.Value));
        return [.. sections.SelectMany(s => s.Layers.Select(l => new Occurrence(l.Content.StageId!.Value, $"sample {s.Sample.Content.Number}"))),
            .. shown.SelectMany(z => z.Stages.Select(s => new Occurrence(s, $"the zone {z.Name}"))),
            .. shown.SelectMany((a, i) => shown.Skip(i + 1).Where(b => a.Shape.Intersects(b.Shape))
                .SelectMany(b => a.Stages.Union(b.Stages).Select(s => new Occurrence(s, $"where the zones {a.Name} and {b.Name} meet"))))];
    }
}
