using System.Globalization;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Plans;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Plans;

/// <summary>A painting with zones, findings and states, written as people write them.</summary>
internal sealed class PlanRecords : IDisposable
{
    public const string User = "marta";

    public PlanRecords(Database database = Database.Sqlite, PostgresServer? server = null)
    {
        Home = new TemporaryStudio(database, server);
        Painting = Home.AddPainting();
    }

    public TemporaryStudio Home { get; }

    public Painting Painting { get; }

    public OpenStudio Studio => Home.Studio;

    public ConditionPlans Plans => new(Studio);

    public ConditionPlan Now => Plans.Of(Painting.Id);

    /// <summary>A zone with a GeoJSON geometry.</summary>
    public ZoneFacts Zone(string geometry, string name = "zone") => new Zones(Studio).Create(Painting.Id, new ZoneContent(name, "", "", geometry));

    public Finding Finding(string term, params ZoneFacts[] zones) =>
        new Studio.Findings(Studio).Create(Painting.Id, new FindingContent { Observation = "seen", Author = "Marta Oud", Term = term, Zones = [.. zones.Select(z => z.Id)] }, User);

    public ConditionState State(string name, params (Finding Finding, Standing Standing)[] entries) =>
        new ConditionStates(Studio).Create(Painting.Id, new ConditionStateContent { Name = name, On = new DateOnly(2026, 5, 4), Entries = [.. entries.Select(e => new StateEntry(e.Finding.Id, e.Standing, ""))] }, User);

    public void Reshape(ZoneFacts zone, string geometry)
    {
        var zones = new Zones(Studio);
        zones.Change(zone.Id, zones.Find(zone.Id).Revision, new ZoneContent(zone.Name, "", "", geometry));
    }

    /// <summary>An alignment of a photograph of the whole face that leaves some residual.</summary>
    public static Alignment Aligned(double p95Mm) => new()
    {
        PhotographId = Guid.Empty, Version = 1, Method = "corners-found", Verdict = Verdict.Aligned, Reason = "", Residuals = new Residuals(p95Mm / 2, p95Mm, ""), PlaneExtent = new Box(0, 0, 412, 518), CreatedAt = DateTime.UtcNow,
    };

    /// <summary>A rectangle from its upper left to its lower right corner, mm.</summary>
    public static string Box(double left, double top, double right, double bottom) =>
        string.Create(CultureInfo.InvariantCulture, $$"""{"type":"Polygon","coordinates":[[[{{left}},{{top}}],[{{right}},{{top}}],[{{right}},{{bottom}}],[{{left}},{{bottom}}],[{{left}},{{top}}]]]}""");

    public void Dispose() => Home.Dispose();
}
