using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio;
using Sandarac.Studio.Cleaning;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>One layer's values at a place: the original file's own; null where the file holds no value.</summary>
internal sealed record ValuesAtPlace(string LayerId, string Light, string Label, IReadOnlyList<double> Pixel, IReadOnlyList<double?> Values,
    IReadOnlyList<string> Bands, string Unit);

/// <summary>What is known at a place, mm on the plane.</summary>
internal sealed record PlaceShape(double X, double Y, double FromLeft, double FromBottom, IReadOnlyList<ValuesAtPlace> Layers, IReadOnlyList<ZoneShape> Zones, IReadOnlyList<SampleNearShape> Samples, IReadOnlyList<TestNearShape> Tests,
    IReadOnlyList<FindingHere> Findings);

/// <summary>A sample taken near a place, and how far away.</summary>
internal sealed record SampleNearShape(Guid Id, string Number, double DistanceMm);

/// <summary>A cleaning test near a place, and how far away its spot is.</summary>
internal sealed record TestNearShape(Guid Id, int Number, string Agent, double DistanceMm);

/// <summary>A finding whose zones hold a place or overlap a zone.</summary>
internal sealed record FindingHere(Guid Id, int Number, string Term, string Observation, string Interpretation, Certainty Confidence);

/// <summary>One layer's values over a zone: mean and standard deviation of the pixels, one a band, and how many pixels.</summary>
internal sealed record ValuesInZone(string LayerId, string Light, string Label, IReadOnlyList<double?> Mean, IReadOnlyList<double?> Sd, long N,
    IReadOnlyList<string> Bands, string Unit);

/// <summary>What is known over a zone.</summary>
internal sealed record OverZoneShape(ZoneShape Zone, ZoneExtent Extent, IReadOnlyList<ValuesInZone> Layers, IReadOnlyList<OverlapShape> Overlaps,
    IReadOnlyList<LightConsistency> ConsistentWith, IReadOnlyList<ZoneShape> Zones, IReadOnlyList<FindingHere> Findings);

/// <summary>Another zone that covers part of it: the area that both have, and its share of the zone asked about.</summary>
internal sealed record OverlapShape(Guid ZoneId, double AreaMm2, double Share);

/// <summary>"What do we know here?"</summary>
internal static class HereApi
{
    public static void MapHere(this RouteGroupBuilder api) => api.MapGet("/paintings/{id:guid}/here", At)
        .WithSummary("What is known at x, y (mm, y down), or over a zone: the original files' own values, zones, samples, cleaning tests")
        .Produces<PlaceShape>().Produces<OverZoneShape>();

    private static IResult At(Guid id, OpenStudio studio, CancellationToken cancellation, double? x = null, double? y = null, Guid? zone = null)
    {
        studio.FindPainting(id);
        if (zone is { } zoneId) return Results.Ok(Over(id, zoneId, studio, cancellation));
        var place = new Point2(Coordinate("x", x), Coordinate("y", y));
        var known = new Here(studio).At(id, place);
        return Results.Ok(new PlaceShape(place.X, place.Y, known.FromLeft, known.FromBottom,
            [.. known.Values.Select(v => new ValuesAtPlace(v.LayerId, v.Light ?? "", v.Label, [v.Pixel.X, v.Pixel.Y], v.Values, v.Bands, v.Unit))],
            [.. known.Zones.Select(ZoneShape.Of)], [.. known.Samples.Select(s => new SampleNearShape(s.Sample.Id, s.Sample.Content.Number, s.DistanceMm))],
            [.. known.Tests.Select(t => new TestNearShape(t.Test.Id, t.Test.Content.Number, AgentText.Of(t.Test.Content.Agent), t.DistanceMm))], Findings(studio, id, known.Zones)));
    }

    private static OverZoneShape Over(Guid paintingId, Guid zoneId, OpenStudio studio, CancellationToken cancellation)
    {
        if (new Zones(studio).Find(zoneId) is not { IsDeleted: false } zone || zone.PaintingId != paintingId)
            throw new InputProblem("unknown-zone", zoneId.ToString(), "There is no such zone on this painting.", $"/api/paintings/{paintingId}/zones lists them.");
        var known = new Here(studio).Over(zoneId, cancellation);
        return new OverZoneShape(ZoneShape.Of(known.Zone), known.Extent, [.. known.Values.Select(v => new ValuesInZone(v.LayerId, v.Light ?? "", v.Label,
            Finite(v.Mean), Finite(v.StandardDeviation), v.Count, v.Bands, v.Unit))],
            [.. known.Overlaps.Select(o => new OverlapShape(o.Zone.Id, o.AreaMm2, o.Share))], known.ConsistentWith, [.. known.Overlaps.Select(o => ZoneShape.Of(o.Zone))],
            Findings(studio, paintingId, known.Overlaps.Select(o => o.Zone).Prepend(known.Zone)));
    }

    private static IReadOnlyList<FindingHere> Findings(OpenStudio studio, Guid paintingId, IEnumerable<ZoneFacts> zones)
    {
        var there = zones.Select(z => z.Id).ToHashSet();
        return [.. new Findings(studio).Of(paintingId).Where(f => f.Content.Zones.Any(there.Contains)).OrderBy(f => f.Content.Number)
            .Select(f => new FindingHere(f.Id, f.Content.Number, StudioTerms.NameOf(f.Content.Term), f.Content.Observation, f.Content.Interpretation, f.Content.Confidence))];
    }

    /// <summary>A kilometre around the painting is enough for any place on it.</summary>
    private static double Coordinate(string name, double? value) => value is { } v && double.IsFinite(v) && Math.Abs(v) <= 1e6
        ? v
        : throw new InputProblem("coordinate", name, $"{name} is missing or not a place.", $"Give {name} in mm from the upper left corner of the painted face.");

    private static IReadOnlyList<double?> Finite(IReadOnlyList<double> values) => [.. values.Select(v => double.IsFinite(v) ? v : (double?)null)];
}
