using NetTopologySuite.Geometries;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>What is sealed: a state with its findings, zones and photographs as they stand, so that the text alone says all that was signed.</summary>
/// <param name="Format">"sandarac condition state 1".</param>
/// <param name="Painting">The painting.</param>
/// <param name="StateId">The state.</param>
/// <param name="Revision">Its revision.</param>
/// <param name="State">What is written of it.</param>
/// <param name="Findings">Its findings.</param>
/// <param name="Zones">Their zones.</param>
/// <param name="Photographs">Its photographs.</param>
/// <param name="Open">What was still open.</param>
/// <param name="OpenReason">Why it was sealed all the same.</param>
/// <param name="By">Who sealed it.</param>
/// <param name="At">When, UTC.</param>
internal sealed record SealedState(string Format, SealedPainting Painting, Guid StateId, int Revision, ConditionStateContent State, IReadOnlyList<SealedFinding> Findings,
    IReadOnlyList<SealedZone> Zones, IReadOnlyList<SealedPhotograph> Photographs, IReadOnlyList<string> Open, string OpenReason, string By, DateTime At)
{
    public const string FormatName = "sandarac condition state 1";

    /// <summary>A finding's zones as sealed; none when it is not in it.</summary>
    public IEnumerable<Geometry> ZonesOf(Guid findingId)
    {
        var zones = Findings.FirstOrDefault(f => f.Id == findingId)?.Content.Zones.ToHashSet() ?? [];
        return Zones.Where(z => zones.Contains(z.Id)).Select(z => ZoneGeometry.Read(z.Geometry));
    }

    /// <summary>Reads a state as it stands.</summary>
    public static SealedState Read(StudioDb db, ConditionState state, IReadOnlyList<string> open, string openReason, string by, DateTime at)
    {
        var painting = db.RequirePainting(state.PaintingId);
        var wanted = state.Content.Entries.Select(e => e.FindingId).ToHashSet();
        Finding[] findings = [.. db.Findings.Where(f => f.PaintingId == state.PaintingId).AsEnumerable().Where(f => wanted.Contains(f.Id)).OrderBy(f => f.Content.Number)];
        var zones = findings.SelectMany(f => f.Content.Zones).ToHashSet();
        var photographs = state.Content.Photographs.ToHashSet();
        return new SealedState(FormatName, SealedPainting.Of(painting), state.Id, state.Revision, state.Content,
            [.. findings.Select(f => new SealedFinding(f.Id, f.Revision, f.Content))],
            SealedZone.Read(db, state.PaintingId, zones),
            [.. db.Photographs.Where(p => p.PaintingId == state.PaintingId).AsEnumerable().Where(p => photographs.Contains(p.Id)).OrderBy(p => p.Id).Select(p => new SealedPhotograph(p.Id, p.FileName, p.Light, p.Sha256))],
            open, openReason, by, at);
    }
}

/// <summary>The painting as sealed.</summary>
internal sealed record SealedPainting(Guid Id, string Title, string? AccessionNumber, double HeightMm, double WidthMm)
{
    public static SealedPainting Of(Painting painting) => new(painting.Id, painting.Title, painting.AccessionNumber, painting.HeightMm, painting.WidthMm);
}

/// <summary>A finding as sealed.</summary>
internal sealed record SealedFinding(Guid Id, int Revision, FindingContent Content);

/// <summary>A zone as sealed.</summary>
internal sealed record SealedZone(Guid Id, int Revision, string Name, string Kind, string Geometry, double AreaMm2, double OutlineMm)
{
    /// <summary>Some of a painting's zones as they stand.</summary>
    public static IReadOnlyList<SealedZone> Read(StudioDb db, Guid paintingId, HashSet<Guid> wanted) => [.. db.Zones.Where(z => z.PaintingId == paintingId).AsEnumerable().Where(z => wanted.Contains(z.Id)).OrderBy(z => z.Id)
        .Select(ZoneFacts.Of).Select(z => new SealedZone(z.Id, z.Revision, z.Name, z.Kind, z.Geometry, z.AreaMm2, z.LengthMm))];
}

/// <summary>A photograph as sealed: its bytes by their hash.</summary>
internal sealed record SealedPhotograph(Guid Id, string FileName, string? Light, string Sha256);
