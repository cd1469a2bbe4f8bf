using Microsoft.EntityFrameworkCore;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Keeps what a search looks at in step with the record: each row is made anew, in the same transaction, whenever what it speaks of changes.</summary>
internal static class SearchIndex
{
    /// <summary>Rows made at once when many have none.</summary>
    private const int Batch = 500;

    /// <summary>Puts a finding's row in step; takes it away when the finding was taken out.</summary>
    public static void Put(StudioDb db, Finding finding)
    {
        var content = finding.Content;
        var zones = content.Zones.Select(id => db.Zones.Find(id)).OfType<Zone>().Where(z => z.DeletedAt is null).ToList();
        var layers = Layers(db, finding.PaintingId, content.Evidence.Where(e => e.Kind == EvidenceKind.Sample).Select(e => e.Id!.Value));
        Put(db, finding, SearchSubject.Finding, entry =>
        {
            entry.Title = Short(content.Observation);
            entry.Words = Folded([StudioTerms.NameOf(content.Term), content.Observation, content.Interpretation, content.Severity, content.SeverityDefinition, content.Author, .. content.Evidence.Select(e => e.Note), .. zones.Select(z => z.Name)]);
            entry.Term = content.Term;
            entry.Lights = Lights(db, content.Evidence);
            entry.Materials = Folded(layers.Select(l => l.Content.Materials));
            entry.On = content.SeenOn;
            entry.AreaMm2 = Area(zones);
        });
    }

    /// <summary>Puts a sample's row in step, and those of the findings that rest on it.</summary>
    public static void Put(StudioDb db, Sample sample)
    {
        var content = sample.Content;
        var layers = Layers(db, sample.PaintingId, [sample.Id]);
        Put(db, sample, SearchSubject.Sample, entry =>
        {
            entry.Title = Short($"Sample {content.Number}{(content.Why.Length > 0 ? $": {content.Why}" : "")}");
            entry.Words = Folded([content.Number, content.Why, content.Observation, content.Interpretation, content.TakenBy, .. layers.SelectMany(l => new[] { l.Content.Name, l.Content.Materials, l.Content.Observation, l.Content.Interpretation })]);
            entry.Term = "";
            entry.Lights = " XSEC ";
            entry.Materials = Folded(layers.Select(l => l.Content.Materials));
            entry.On = content.TakenOn;
            entry.AreaMm2 = null;
        });
        Put(db, sample.PaintingId, f => f.Evidence.Any(e => e.Kind == EvidenceKind.Sample && e.Id == sample.Id));
    }

    /// <summary>Puts the rows of the findings that name a zone in step.</summary>
    public static void Put(StudioDb db, Zone zone) => Put(db, zone.PaintingId, f => f.Zones.Contains(zone.Id));

    /// <summary>Adds rows for what has none: a record from before there was a search, or one that came from another studio.</summary>
    public static void Complete(StudioDb db)
    {
        // New rows are all that is saved: looking for other changes before every query would take most of the time.
        db.ChangeTracker.AutoDetectChangesEnabled = false;
        foreach (var batch in db.Findings.Where(f => f.DeletedAt == null && !db.SearchEntries.Any(e => e.SubjectId == f.Id)).Select(f => f.Id).ToList().Chunk(Batch)) AddFindings(db, batch);
        foreach (var sample in db.Samples.Where(s => s.DeletedAt == null && !db.SearchEntries.Any(e => e.SubjectId == s.Id)).ToList()) Put(db, sample);
        db.SaveChanges();
        db.ChangeTracker.AutoDetectChangesEnabled = true;
    }

    private static void AddFindings(StudioDb db, Guid[] batch)
    {
        var findings = db.Findings.Where(f => batch.Contains(f.Id)).ToList();
        Guid[] zones = [.. findings.SelectMany(f => f.Content.Zones)];
        db.Zones.Where(z => zones.Contains(z.Id)).Load();
        foreach (var finding in findings) Put(db, finding);
        db.SaveChanges();
        db.ChangeTracker.Clear();
    }

    private static void Put(StudioDb db, Guid paintingId, Func<FindingContent, bool> which)
    {
        foreach (var finding in db.Findings.Where(f => f.PaintingId == paintingId && f.DeletedAt == null).ToList().Where(f => which(f.Content))) Put(db, finding);
    }

    private static void Put<TContent>(StudioDb db, Written<TContent> row, SearchSubject subject, Action<SearchEntry> fill) where TContent : class, new()
    {
        var entry = db.SearchEntries.Local.FirstOrDefault(e => e.SubjectId == row.Id) ?? db.SearchEntries.FirstOrDefault(e => e.SubjectId == row.Id);
        if (row.DeletedAt is not null)
        {
            if (entry is not null) db.SearchEntries.Remove(entry);
            return;
        }
        if (entry is null) db.SearchEntries.Add(entry = new SearchEntry { SubjectId = row.Id, Subject = subject, PaintingId = row.PaintingId, Title = "", Words = "", Term = "", Lights = "", Materials = "" });
        fill(entry);
    }

    /// <summary>Layers as they will stand once the unit of work is saved.</summary>
    private static List<SectionLayer> Layers(StudioDb db, Guid paintingId, IEnumerable<Guid> samples)
    {
        var of = samples.ToHashSet();
        if (of.Count == 0) return [];
        db.SectionLayers.Where(l => l.PaintingId == paintingId).Load();
        return [.. db.SectionLayers.Local.Where(l => of.Contains(l.Content.SampleId) && l.DeletedAt is null)];
    }

    private static string Lights(StudioDb db, IReadOnlyList<Evidence> evidence)
    {
        Guid[] photographs = [.. evidence.Where(e => e.Kind == EvidenceKind.Photograph).Select(e => e.Id!.Value)], runs = [.. evidence.Where(e => e.Kind == EvidenceKind.Reading).Select(e => e.Id!.Value)];
        var codes = (photographs.Length == 0 ? [] : db.Photographs.Where(p => photographs.Contains(p.Id)).Select(p => p.Light).ToList())
            .Concat(runs.Length == 0 ? [] : db.Runs.AsNoTracking().Where(r => runs.Contains(r.Id)).AsEnumerable().SelectMany(r => r.Inputs.Select(i => i.Light)))
            .Concat(evidence.Any(e => e.Kind == EvidenceKind.Sample) ? ["XSEC"] : []);
        return $" {string.Join(' ', codes.OfType<string>().Distinct().Order(StringComparer.Ordinal))} ";
    }

    /// <summary>What the zones cover together, once where they overlap; null when none of them covers anything.</summary>
    private static double? Area(List<Zone> zones) => CoveredArea.Of(zones.Select(z => ZoneGeometry.Read(z.Geometry))) is { IsEmpty: false } area ? area.Area : null;

    private static string Folded(IEnumerable<string> texts) => SearchWords.Folded(string.Join(' ', texts));

    private static string Short(string text) => text.Length <= 200 ? text : $"{text[..199].TrimEnd()}\u2026";
}
