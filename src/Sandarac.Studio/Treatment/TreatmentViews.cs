using Sandarac.Analysis.Lights;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>A photograph of the place of some work.</summary>
/// <param name="Photograph">The photograph.</param>
/// <param name="Layer">It, on the plane.</param>
/// <param name="Day">The first day of the log that names it; null for the one from before the treatment.</param>
public sealed record TreatmentView(Photograph Photograph, Layer Layer, DateOnly? Day);

/// <summary>Photographs of one place in one light, from before the treatment to the last day. Light and exposure are as they were taken: a place may look different without having changed.</summary>
/// <param name="Light">Code of the light.</param>
/// <param name="Side">Side of the lamp; null where it has none.</param>
/// <param name="Views">Two or more, in order.</param>
public sealed record TreatmentViewRow(string Light, string? Side, IReadOnlyList<TreatmentView> Views);

/// <summary>What the photographs of a treatment show, in one place and at one scale.</summary>
/// <param name="Place">The place, mm; of no size where no entry names a photograph.</param>
/// <param name="Rows">A row for each light that has at least two aligned photographs.</param>
public sealed record TreatmentViews(Box Place, IReadOnlyList<TreatmentViewRow> Rows)
{
    /// <summary>Seen around the place where work was done, as a share of its longer side.</summary>
    private const double Around = 0.1;

    /// <summary>Photographs that entries of the log name, each light's latest one from before them in front.</summary>
    /// <param name="studio">The studio.</param>
    /// <param name="paintingId">The painting.</param>
    /// <param name="entries">Entries in the order of their days.</param>
    /// <exception cref="Imaging.InputProblem">"unknown-painting".</exception>
    public static TreatmentViews Of(OpenStudio studio, Guid paintingId, IReadOnlyList<LogEntry> entries)
    {
        var wanted = DaysOf(entries);
        if (wanted.Count == 0) return new(default, []);
        using var db = studio.CreateDb();
        var record = TreatmentRecord.Read(studio, paintingId);
        var layers = new Layers(studio).Of(paintingId).Where(l => l.OnPlane && !l.IsReading).ToDictionary(l => l.PhotographId!.Value);
        var named = DaysOf(record.Entries);
        var photographs = db.PhotographsOf(paintingId).Where(p => p.Light is not null && p.Subject == PhotographSubject.Painting && layers.ContainsKey(p.Id))
            .OrderBy(p => named.TryGetValue(p.Id, out var day) ? day : p.TakenAt is { } at ? DateOnly.FromDateTime(at) : (DateOnly?)null).ThenBy(p => p.TakenAt).ThenBy(p => p.FileName, StringComparer.Ordinal);
        return new(PlaceOf(record, entries), [.. photographs.GroupBy(p => (p.Light, p.LightSide)).Where(g => g.Any(p => wanted.ContainsKey(p.Id)))
            .Select(g => new TreatmentViewRow(g.Key.Light!, g.Key.LightSide, [.. Chosen([.. g], wanted).Select(p => new TreatmentView(p, layers[p.Id], wanted.TryGetValue(p.Id, out var day) ? day : null))])).Where(r => r.Views.Count > 1)]);
    }

    private static Dictionary<Guid, DateOnly> DaysOf(IEnumerable<LogEntry> entries) => entries.SelectMany(e => e.Content.Photographs.Select(id => (Id: id, Day: e.Content.On!.Value))).GroupBy(p => p.Id).ToDictionary(g => g.Key, g => g.Min(p => p.Day));

    /// <summary>The last one before the first that is wanted, and those.</summary>
    private static IEnumerable<Photograph> Chosen(List<Photograph> inOrder, Dictionary<Guid, DateOnly> wanted) =>
        inOrder.TakeWhile(p => !wanted.ContainsKey(p.Id)).TakeLast(1).Concat(inOrder.Where(p => wanted.ContainsKey(p.Id)));

    /// <summary>Where the entries say that work was done, with what lies around it; the whole face where they do not say.</summary>
    private static Box PlaceOf(TreatmentRecord record, IReadOnlyList<LogEntry> entries)
    {
        var face = new Box(0, 0, record.Painting.WidthMm, record.Painting.HeightMm);
        var worked = Places.CoveredArea.Of(entries.Select(record.Area)).EnvelopeInternal;
        if (worked.IsNull) return face;
        var margin = Around * Math.Max(worked.Width, worked.Height);
        return new Box(worked.MinX - margin, worked.MinY - margin, worked.Width + 2 * margin, worked.Height + 2 * margin).Shared(face);
    }
}
