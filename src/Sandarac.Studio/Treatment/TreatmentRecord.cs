using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Overlay;
using NetTopologySuite.Operation.OverlayNG;
using Sandarac.Studio.Places;
using Sandarac.Studio.Plans;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>A painting's treatment as the record holds it, read in one go.</summary>
internal sealed record TreatmentRecord(Painting Painting, Mandate Mandate, IReadOnlyList<TreatmentStep> Steps, IReadOnlyList<LogEntry> Entries, PastZones Zones, Alignment[] Alignments, DateTime Now)
{
    public static TreatmentRecord Read(OpenStudio studio, Guid paintingId)
    {
        using var db = studio.CreateDb();
        return new TreatmentRecord(db.RequirePainting(paintingId), Mandate.Read(db, paintingId), new TreatmentSteps(studio).Of(paintingId), new TreatmentLog(studio).ByDay(paintingId), PastZones.Read(db, paintingId), FindingPlaces.Alignments(db, paintingId), studio.Now);
    }

    /// <summary>The painted face, mm; empty while the painting's size is not known.</summary>
    public Geometry Face => Painting is { WidthMm: > 0, HeightMm: > 0 } ? GeometryFactory.Default.ToGeometry(new Envelope(0, Painting.WidthMm, 0, Painting.HeightMm)) : GeometryFactory.Default.CreatePolygon();

    /// <summary>When the zones of a step were approved; null for a step that is not approved as it stands.</summary>
    public DateTime? ApprovedAt(TreatmentStepContent step) => Mandate.Of(step) == StepStanding.Approved ? Mandate.TextInForce(step.ProposalId!.Value)!.At : null;

    /// <summary>Where a step is to be done: its zones as they stood when they were approved, else as they stand; the face when it names none.</summary>
    public Geometry Target(TreatmentStepContent step) => step.Zones.Count == 0 ? Face : Covered(step.Zones, ApprovedAt(step) ?? Now);

    /// <summary>Where an entry says that work was done: its zones as they stood when it was written, so that a zone that is drawn larger from day to day tells each day's part.</summary>
    public Geometry Area(LogEntry entry) => Covered(entry.Content.Zones, entry.UpdatedAt);

    /// <summary>What two areas share, or what is left of one without the other, as areas.</summary>
    public static Geometry Overlay(Geometry one, Geometry other, SpatialFunction how) => PlanAreas.Areal(OverlayNGRobust.Overlay(one, other, how));

    private Geometry Covered(IEnumerable<Guid> zones, DateTime moment) => Overlay(CoveredArea.Of(zones.Select(z => Zones.At(z, moment)).OfType<PlanZone>().Select(z => z.Geometry)), Face, SpatialFunction.Intersection);
}
