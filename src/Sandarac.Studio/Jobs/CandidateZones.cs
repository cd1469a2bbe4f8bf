using Microsoft.EntityFrameworkCore;
using NetTopologySuite.Geometries;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>Turns what a reading proposes into candidate zones on the plane.</summary>
internal static class CandidateZones
{
    /// <summary>Adds zones to the unit of work. Proposals in a photograph's own pixels go through its alignment; without one they have no place on the
    /// plane, which the run's warnings then say. What is proposed in a micrograph has its place there and nowhere else: it stays with the run.</summary>
    public static void Add(StudioDb db, Run run, IReadOnlyList<Candidate> candidates, DateTime now)
    {
        // The face's own outline becomes the alignment, a ruler's line the size; neither is a zone.
        if (candidates.Count == 0 || run.ReadingId is FaceFinding.ReadingId or RulerFinding.ReadingId) return;
        var read = run.Inputs[0].PhotographId;
        if (db.Photographs.Any(p => p.Id == read && p.Subject == PhotographSubject.Sample))
        {
            db.RunProposals.AddRange(candidates.Select((c, i) => RunProposal.Of(run.Id, i, c)));
            return;
        }
        var onPlane = ReadingCatalogue.Find(run.ReadingId).Declaration.OnPlane;
        var map = onPlane ? null : MapOf(db, read);
        if (!onPlane && map is null)
        {
            run.Warnings = [.. run.Warnings, new Warning("candidates-not-placed", $"{candidates.Count} proposed zones have no place on the plane, because {run.Inputs[0].FileName} is not aligned.")];
            return;
        }
        var numbers = new Dictionary<string, int>();
        foreach (var candidate in candidates)
        {
            numbers[candidate.Kind] = numbers.GetValueOrDefault(candidate.Kind) + 1;
            var geometry = candidate.Geometry.Copy();
            if (map is not null) geometry.Apply(new ToPlane(map));
            var zone = new Zone
            {
                PaintingId = run.PaintingId, Name = $"{Words(candidate.Kind)} {numbers[candidate.Kind]}", Kind = candidate.Kind, Geometry = ZoneGeometry.Write(geometry), RunId = run.Id, IsCandidate = true,
                Confidence = candidate.Confidence, Reason = candidate.Reason, CreatedAt = now, UpdatedAt = now,
            };
            db.Zones.Add(zone);
            db.ZoneChanges.Add(ZoneChange.Of(zone, "created"));
        }
    }

    /// <summary>"later-addition": "Later addition".</summary>
    private static string Words(string kind) => char.ToUpperInvariant(kind[0]) + kind[1..].Replace('-', ' ');

    private static PlaneMap? MapOf(StudioDb db, Guid photographId) => db.Alignments.AsNoTracking().Where(a => a.PhotographId == photographId).AsEnumerable().InForce()?.Map;

    private sealed class ToPlane(PlaneMap map) : ICoordinateSequenceFilter
    {
        public bool Done => false;

        public bool GeometryChanged => true;

        public void Filter(CoordinateSequence seq, int i)
        {
            var place = map.ToPlane(new Point2(seq.GetX(i), seq.GetY(i)));
            seq.SetX(i, place.X);
            seq.SetY(i, place.Y);
        }
    }
}
