using Sandarac.Imaging;

namespace Sandarac.Studio;

/// <summary>Draws, changes, deletes and restores zones, keeping what each was before.</summary>
public sealed class Zones(OpenStudio studio)
{
    /// <summary>A painting's zones, oldest first, without deleted ones.</summary>
    public IReadOnlyList<ZoneFacts> Of(Guid paintingId) => throw new NotImplementedException(studio.Folder + paintingId);

    /// <summary>One zone, deleted or not.</summary>
    /// <exception cref="InputProblem">"unknown-zone".</exception>
    public ZoneFacts Find(Guid zoneId) => throw new NotImplementedException($"{zoneId}");

    /// <summary>Adds a zone.</summary>
    /// <exception cref="InputProblem">"unknown-painting"; "zone-geometry": not GeoJSON, empty, crossing itself.</exception>
    public ZoneFacts Create(Guid paintingId, ZoneContent content) => throw new NotImplementedException($"{paintingId}{content}");

    /// <summary>Changes a zone.</summary>
    /// <param name="zoneId">The zone.</param>
    /// <param name="revision">The revision the change was made on.</param>
    /// <param name="content">What it is now.</param>
    /// <exception cref="InputProblem">"unknown-zone"; "zone-geometry"; "zone-changed": someone changed it meanwhile.</exception>
    public ZoneFacts Change(Guid zoneId, int revision, ZoneContent content) => throw new NotImplementedException($"{zoneId}{revision}{content}");

    /// <summary>Deletes a zone; it can be restored.</summary>
    /// <exception cref="InputProblem">"unknown-zone"; "zone-changed".</exception>
    public ZoneFacts Delete(Guid zoneId, int revision) => throw new NotImplementedException($"{zoneId}{revision}");

    /// <summary>Brings a deleted zone back, or a zone back to what it was at an earlier revision.</summary>
    /// <param name="zoneId">The zone.</param>
    /// <param name="toRevision">The revision to go back to; null for what it was when it was deleted.</param>
    /// <exception cref="InputProblem">"unknown-zone"; "unknown-revision".</exception>
    public ZoneFacts Restore(Guid zoneId, int? toRevision = null) => throw new NotImplementedException($"{zoneId}{toRevision}");
}
