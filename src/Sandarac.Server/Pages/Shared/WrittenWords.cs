using System.Globalization;
using Sandarac.Server.Pages.Language;
using Sandarac.Studio;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.Record;
using static Sandarac.Server.Pages.Language.PageText;
using static Sandarac.Server.Pages.Language.RecordText;

namespace Sandarac.Server.Pages.Shared;

/// <summary>What people wrote into the record, entry by entry, as its history shows it. What other rows are called is looked up among those taken out too.</summary>
internal sealed class WrittenWords(OpenStudio studio, Painting painting)
{
    private readonly Lazy<Dictionary<Guid, string>> _names = new(() => Names(studio, painting.Id));
    private readonly Lazy<FindingEvidence> _evidence = new(() => new FindingEvidence(studio, painting.Id));

    /// <summary>A sample's.</summary>
    public IReadOnlyList<(string Label, string Value)> Of(SampleContent c) =>
    [
        (Say("number"), c.Number), (Say("place"), c is { X: { } x, Y: { } y } ? Told(Place.Text(x, y, painting.HeightMm)) : ""), (Say("why"), c.Why), (Say("authorised by"), c.AuthorisedBy), (Say("taken by"), c.TakenBy),
        (Say("taken on"), c.TakenOn?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? ""), (Say("taken from"), c.Site switch { SampleSite.ExistingDamage => Say("an existing damage"), SampleSite.Edge => Say("an edge"), SampleSite.SoundPaint => Say("sound paint"), _ => "" }),
        (Say("tool"), c.Tool), (Say("size|sample"), c.Size), (Say("form|sample"), c.Form), (Say("divided into"), c.SubSamples), (Say("resin"), c.Resin), (Say("coated before with"), c.Precoat), (Say("kept at"), c.Storage), (Say("what remains"), c.Remains),
        (Say("micrographs"), Named(c.Micrographs)), (Say("observation"), c.Observation), (Say("interpretation"), c.Interpretation),
    ];

    /// <summary>A layer's.</summary>
    public IReadOnlyList<(string Label, string Value)> Of(LayerContent c) =>
    [
        (Say("number"), c.Number), (Say("name"), c.Name), (Say("materials"), c.Materials), (Say("thinnest"), Um(c.LowUm)), (Say("mean"), Um(c.MeanUm)), (Say("thickest"), Um(c.HighUm)), (Say("how it was measured"), c.ThicknessOrigin),
        (Say("observation"), c.Observation), (Say("interpretation"), c.Interpretation), (Say("stage"), Named(c.StageId)),
    ];

    /// <summary>A stage's.</summary>
    public IReadOnlyList<(string Label, string Value)> Of(StageContent c) => [(Say("name"), c.Name), (Say("kind"), Told(c.Kind.Word())), (Say("note"), c.Note), (Say("zones"), Named(c.Zones))];

    /// <summary>A relation's.</summary>
    public IReadOnlyList<(string Label, string Value)> Of(RelationContent c) => [(Say("relation"), Name(c)), (Say("sample"), Named(c.SampleId)), (Say("zone"), Named(c.ZoneId)), (Say("photograph"), Named(c.PhotographId)), (Say("what is seen"), c.Note)];

    /// <summary>A finding's.</summary>
    public IReadOnlyList<(string Label, string Value)> Of(FindingContent c) =>
    [
        (Say("observation"), c.Observation), (Say("interpretation"), c.Interpretation), (Say("confidence"), Findings.FindingWords.Of(c.Confidence)), (Say("term"), TermText.Name(c.Term)), (Say("severity"), c.Severity), (Say("which means"), c.SeverityDefinition),
        (Say("zones"), Named(c.Zones)), (Say("rests on"), string.Join("; ", c.Evidence.Select(e => Told(_evidence.Value.Words(e))))), (Say("author"), c.Author), (Say("seen on"), c.SeenOn?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? ""),
    ];

    /// <summary>"sky lies over sea".</summary>
    public string Name(RelationContent c) => $"{Named(c.StageId)} {c.Kind switch { RelationKind.Over => Say("lies over"), RelationKind.Under => Say("lies under"), _ => Say("is the same as") }} {Named(c.OtherId)}";

    /// <summary>Entries that differ from those before, in words.</summary>
    public static IEnumerable<string> Changed(IReadOnlyList<(string Label, string Value)> before, IReadOnlyList<(string Label, string Value)> now) =>
        now.Where((entry, i) => entry.Value != (before.Count == 0 ? "" : before[i].Value)).Select(entry => $"{entry.Label}: {(entry.Value.Length > 0 ? entry.Value : Say("nothing any more"))}");

    private string Named(Guid? id) => id is { } key ? _names.Value.GetValueOrDefault(key, Say("one that is not there any more")) : "";

    private string Named(IReadOnlyList<Guid> ids) => string.Join(", ", ids.Select(id => Named(id)));

    private static string Um(double? um) => um is { } value ? Decimal(value.ToString("0.0# um", CultureInfo.InvariantCulture)) : "";

    private static Dictionary<Guid, string> Names(OpenStudio studio, Guid painting)
    {
        var (samples, stages) = (new Samples(studio), new Stages(studio));
        using var db = studio.CreateDb();
        return samples.Of(painting).Concat(samples.Removed(painting)).Select(s => (s.Id, Name: Say("sample {0}", s.Content.Number)))
            .Concat(stages.Of(painting).Concat(stages.Removed(painting)).Select(s => (s.Id, Name: s.Content.Name)))
            .Concat(new Zones(studio).Of(painting).Select(z => (z.Id, Name: z.Name)))
            .Concat(db.Photographs.Where(p => p.PaintingId == painting).Select(p => new { p.Id, p.FileName }).AsEnumerable().Select(p => (p.Id, Name: p.FileName)))
            .ToDictionary(n => n.Id, n => n.Name);
    }
}
