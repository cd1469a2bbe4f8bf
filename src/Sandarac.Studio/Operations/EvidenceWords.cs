using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>What a stated relation rests on, in words.</summary>
internal sealed class EvidenceWords
{
    private readonly Dictionary<Guid, string> _names;

    public EvidenceWords(OpenStudio studio, Guid paintingId, IEnumerable<Sample> samples, IEnumerable<ZoneFacts> zones)
    {
        using var db = studio.CreateDb();
        _names = samples.Select(s => (s.Id, Name: $"sample {s.Content.Number}")).Concat(zones.Select(z => (z.Id, Name: $"the zone {z.Name}")))
            .Concat(db.Photographs.Where(p => p.PaintingId == paintingId).Select(p => new { p.Id, p.FileName }).AsEnumerable().Select(p => (p.Id, Name: p.FileName))).ToDictionary(n => n.Id, n => n.Name);
    }

    public string Of(RelationContent relation) => string.Join(", ", new[] { relation.SampleId, relation.ZoneId, relation.PhotographId }.OfType<Guid>()
        .Select(id => _names.GetValueOrDefault(id, "something that was taken out")).Append(relation.Note).Where(w => w.Length > 0));
}
