using System.Globalization;
using Sandarac.Studio;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Pages.Shared;

/// <summary>What people wrote into the record, entry by entry, as its history shows it. What other rows are called is looked up among those taken out too.</summary>
internal sealed class WrittenWords(OpenStudio studio, Painting painting)
{
    private readonly Lazy<Dictionary<Guid, string>> _names = new(() => Names(studio, painting.Id));
    private readonly Lazy<FindingEvidence> _evidence = new(() => new FindingEvidence(studio, painting.Id));

    /// <summary>A sample's.</summary>
    public IReadOnlyList<(string Label, string Value)> Of(SampleContent c) =>
    [
        ("number", c.Number), ("place", c is { X: { } x, Y: { } y } ? Place.Text(x, y, painting.HeightMm) : ""), ("why", c.Why), ("authorised by", c.AuthorisedBy), ("taken by", c.TakenBy),
        ("taken on", c.TakenOn?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? ""), ("taken from", c.Site switch { SampleSite.ExistingDamage => "an existing damage", SampleSite.Edge => "an edge", SampleSite.SoundPaint => "sound paint", _ => "" }),
        ("tool", c.Tool), ("size", c.Size), ("form", c.Form), ("divided into", c.SubSamples), ("resin", c.Resin), ("coated before with", c.Precoat), ("kept at", c.Storage), ("what remains", c.Remains),
        ("micrographs", Named(c.Micrographs)), ("observation", c.Observation), ("interpretation", c.Interpretation),
    ];

    /// <summary>A layer's.</summary>
    public IReadOnlyList<(string Label, string Value)> Of(LayerContent c) =>
    [
        ("number", c.Number), ("name", c.Name), ("materials", c.Materials), ("thinnest", Um(c.LowUm)), ("mean", Um(c.MeanUm)), ("thickest", Um(c.HighUm)), ("how it was measured", c.ThicknessOrigin),
        ("observation", c.Observation), ("interpretation", c.Interpretation), ("stage", Named(c.StageId)),
    ];

    /// <summary>A stage's.</summary>
    public IReadOnlyList<(string Label, string Value)> Of(StageContent c) => [("name", c.Name), ("kind", c.Kind.Word()), ("note", c.Note), ("zones", Named(c.Zones))];

    /// <summary>A relation's.</summary>
    public IReadOnlyList<(string Label, string Value)> Of(RelationContent c) => [("relation", Name(c)), ("sample", Named(c.SampleId)), ("zone", Named(c.ZoneId)), ("photograph", Named(c.PhotographId)), ("what is seen", c.Note)];

    /// <summary>A finding's.</summary>
    public IReadOnlyList<(string Label, string Value)> Of(FindingContent c) =>
    [
        ("observation", c.Observation), ("interpretation", c.Interpretation), ("confidence", $"{c.Confidence}".ToLowerInvariant()), ("term", StudioTerms.NameOf(c.Term)), ("severity", c.Severity), ("which means", c.SeverityDefinition),
        ("zones", Named(c.Zones)), ("rests on", string.Join("; ", c.Evidence.Select(_evidence.Value.Words))), ("author", c.Author), ("seen on", c.SeenOn?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? ""),
    ];

    /// <summary>"sky lies over sea".</summary>
    public string Name(RelationContent c) => $"{Named(c.StageId)} {c.Kind switch { RelationKind.Over => "lies over", RelationKind.Under => "lies under", _ => "is the same as" }} {Named(c.OtherId)}";

    /// <summary>Entries that differ from those before, in words.</summary>
    public static IEnumerable<string> Changed(IReadOnlyList<(string Label, string Value)> before, IReadOnlyList<(string Label, string Value)> now) =>
        now.Where((entry, i) => entry.Value != (before.Count == 0 ? "" : before[i].Value)).Select(entry => $"{entry.Label}: {(entry.Value.Length > 0 ? entry.Value : "nothing any more")}");

    private string Named(Guid? id) => id is { } key ? _names.Value.GetValueOrDefault(key, "one that is not there any more") : "";

    private string Named(IReadOnlyList<Guid> ids) => string.Join(", ", ids.Select(id => Named(id)));

    private static string Um(double? um) => um is { } value ? value.ToString("0.0# um", CultureInfo.InvariantCulture) : "";

    private static Dictionary<Guid, string> Names(OpenStudio studio, Guid painting)
    {
        var (samples, stages) = (new Samples(studio), new Stages(studio));
        using var db = studio.CreateDb();
        return samples.Of(painting).Concat(samples.Removed(painting)).Select(s => (s.Id, Name: $"sample {s.Content.Number}"))
            .Concat(stages.Of(painting).Concat(stages.Removed(painting)).Select(s => (s.Id, Name: s.Content.Name)))
            .Concat(new Zones(studio).Of(painting).Select(z => (z.Id, Name: z.Name)))
            .Concat(db.Photographs.Where(p => p.PaintingId == painting).Select(p => new { p.Id, p.FileName }).AsEnumerable().Select(p => (p.Id, Name: p.FileName)))
            .ToDictionary(n => n.Id, n => n.Name);
    }
}
