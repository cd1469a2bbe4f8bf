using Microsoft.EntityFrameworkCore;
using Sandarac.Studio.Cleaning;
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
        var zones = Zones(db, content.Zones);
        var layers = Layers(db, finding.PaintingId, content.Evidence.Where(e => e.Kind == EvidenceKind.Sample).Select(e => e.Id!.Value));
        Put(db, finding, SearchSubject.Finding, entry =>
        {
            entry.Title = Short(content.Observation);
            entry.Words = Folded([StudioTerms.NameOf(content.Term), content.Observation, content.Interpretation, content.Severity, content.SeverityDefinition, content.Author, .. content.Evidence.Select(e => e.Note), .. zones.Select(z => z.Name)]);
            entry.Term = content.Term;
            entry.Lights = Lights(db, Ids(content.Evidence, EvidenceKind.Photograph), Ids(content.Evidence, EvidenceKind.Reading), content.Evidence.Any(e => e.Kind == EvidenceKind.Sample));
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
            entry.Title = Short(content.Why.Length > 0 ? $"{content.Number}: {content.Why}" : content.Number);
            entry.Words = Folded([content.Number, content.Why, content.Observation, content.Interpretation, content.TakenBy, .. layers.SelectMany(l => new[] { l.Content.Name, l.Content.Materials, l.Content.Observation, l.Content.Interpretation })]);
            entry.Lights = " XSEC ";
            entry.Materials = Folded(layers.Select(l => l.Content.Materials));
            entry.On = content.TakenOn;
        });
        Put(db, sample.PaintingId, f => f.Evidence.Any(e => e.Kind == EvidenceKind.Sample && e.Id == sample.Id));
    }

    /// <summary>Puts a cleaning test's row in step.</summary>
    public static void Put(StudioDb db, CleaningTest test)
    {
        var content = test.Content;
        Put(db, test, SearchSubject.CleaningTest, entry =>
        {
            entry.Title = Short($"{content.Number}: {AgentText.Of(content.Agent)}");
            entry.Words = Folded([entry.Title, content.AgentNote, content.Carrier, content.DoneBy, content.SwabColour, content.UltravioletAfter, content.Note]);
            entry.Lights = Lights(db, content.Photographs);
            entry.Materials = Folded(content.Agent.Select(a => a.Name));
            entry.On = content.DoneOn ?? DateOnly.FromDateTime(test.CreatedAt);
            entry.AreaMm2 = content.AreaMm2;
        });
    }

    /// <summary>Puts a stated material's row in step.</summary>
    public static void Put(StudioDb db, MaterialFound material)
    {
        var content = material.Content;
        Put(db, material, SearchSubject.Material, entry =>
        {
            entry.Title = Short(content.Basis.Length > 0 ? $"{content.Material}: {content.Basis}" : content.Material);
            entry.Words = Folded([content.Material, content.Basis, content.Note]);
            entry.Materials = Folded([content.Material]);
            entry.On = DateOnly.FromDateTime(material.CreatedAt);
        });
    }

    /// <summary>Puts a step's row in step.</summary>
    public static void Put(StudioDb db, TreatmentStep step)
    {
        var content = step.Content;
        Put(db, step, SearchSubject.TreatmentStep, entry =>
        {
            entry.Title = Short(content.Name);
            entry.Words = Folded([content.Name, content.Operation, content.UrgentReason, content.Note]);
            entry.On = content.EndedOn ?? DateOnly.FromDateTime(step.CreatedAt);
            entry.AreaMm2 = Area(Zones(db, content.Zones));
        });
    }

    /// <summary>Puts a log entry's row in step: with what was done and from which batch.</summary>
    public static void Put(StudioDb db, LogEntry row)
    {
        var content = row.Content;
        Put(db, row, SearchSubject.LogEntry, entry =>
        {
            entry.Title = Short(content.What);
            entry.Words = Folded([content.What, content.Who, content.NewlySeen, content.Departure, .. content.Materials.SelectMany(m => new[] { m.Name, m.Batch })]);
            entry.Lights = Lights(db, content.Photographs);
            entry.Materials = Folded(content.Materials.Select(m => m.Name));
            entry.On = content.On;
            entry.AreaMm2 = Area(Zones(db, content.Zones));
        });
    }

    /// <summary>Puts the rows of what names a zone in step.</summary>
    public static void Put(StudioDb db, Zone zone)
    {
        Put(db, zone.PaintingId, f => f.Zones.Contains(zone.Id));
        foreach (var step in Standing(db.TreatmentSteps).Where(s => s.PaintingId == zone.PaintingId).ToList().Where(s => s.Content.Zones.Contains(zone.Id))) Put(db, step);
        foreach (var entry in Standing(db.LogEntries).Where(e => e.PaintingId == zone.PaintingId).ToList().Where(e => e.Content.Zones.Contains(zone.Id))) Put(db, entry);
    }

    /// <summary>Adds rows for what has none: a record from before there was a search, or one that came from another studio.</summary>
    public static void Complete(StudioDb db)
    {
        // New rows are all that is saved: looking for other changes before every query would take most of the time.
        db.ChangeTracker.AutoDetectChangesEnabled = false;
        foreach (var batch in Lacking(db, db.Findings).Select(f => f.Id).ToList().Chunk(Batch)) AddFindings(db, batch);
        foreach (var sample in Lacking(db, db.Samples).ToList()) Put(db, sample);
        foreach (var test in Lacking(db, db.CleaningTests).ToList()) Put(db, test);
        foreach (var material in Lacking(db, db.MaterialsFound).ToList()) Put(db, material);
        foreach (var step in Lacking(db, db.TreatmentSteps).ToList()) Put(db, step);
        foreach (var entry in Lacking(db, db.LogEntries).ToList()) Put(db, entry);
        db.SaveChanges();
        db.ChangeTracker.AutoDetectChangesEnabled = true;
    }

    private static IQueryable<TRow> Standing<TRow>(IQueryable<TRow> rows) where TRow : Written => rows.Where(r => r.DeletedAt == null);

    private static IQueryable<TRow> Lacking<TRow>(StudioDb db, IQueryable<TRow> rows) where TRow : Written => Standing(rows).Where(r => !db.SearchEntries.Any(e => e.SubjectId == r.Id));

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
        foreach (var finding in Standing(db.Findings).Where(f => f.PaintingId == paintingId).ToList().Where(f => which(f.Content))) Put(db, finding);
    }

    private static void Put(StudioDb db, Written row, SearchSubject subject, Action<SearchEntry> fill)
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

    private static Guid[] Ids(IReadOnlyList<Evidence> evidence, EvidenceKind kind) => [.. evidence.Where(e => e.Kind == kind).Select(e => e.Id!.Value)];

    private static string Lights(StudioDb db, IReadOnlyList<Guid> photographs, IReadOnlyList<Guid>? runs = null, bool hasSample = false)
    {
        var codes = (photographs.Count == 0 ? [] : db.Photographs.Where(p => photographs.Contains(p.Id)).Select(p => p.Light).ToList())
            .Concat(runs is null or [] ? [] : db.Runs.AsNoTracking().Where(r => runs.Contains(r.Id)).AsEnumerable().SelectMany(r => r.Inputs.Select(i => i.Light)))
            .Concat(hasSample ? ["XSEC"] : []);
        return $" {string.Join(' ', codes.OfType<string>().Distinct().Order(StringComparer.Ordinal))} ";
    }

    private static List<Zone> Zones(StudioDb db, IReadOnlyList<Guid> ids) => [.. ids.Select(id => db.Zones.Find(id)).OfType<Zone>().Where(z => z.DeletedAt is null)];

    /// <summary>What the zones cover together, once where they overlap; null when none of them covers anything.</summary>
    private static double? Area(List<Zone> zones) => CoveredArea.Of(zones.Select(z => ZoneGeometry.Read(z.Geometry))) is { IsEmpty: false } area ? area.Area : null;

    private static string Folded(IEnumerable<string> texts) => SearchWords.Folded(string.Join(' ', texts));

    private static string Short(string text) => text.Length <= 200 ? text : $"{text[..199].TrimEnd()}\u2026";
}
