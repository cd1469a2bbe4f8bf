using System.Diagnostics;
using System.Globalization;
using System.Xml.Linq;
using NetTopologySuite.Geometries;
using NetTopologySuite.IO;
using Sandarac.Imaging;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Plans;
using Sandarac.Studio.Plans.Drawing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Tests.Plans;

public sealed class PlanDrawingTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    private static Geometry Lines(string path) => GeometryFactory.Default.BuildGeometry([.. path.Split('M', StringSplitOptions.RemoveEmptyEntries).Select(l => GeometryFactory.Default.CreateLineString([.. l.Split('L').Select(p => p.Split(' ')).Select(p => new Coordinate(double.Parse(p[0], CultureInfo.InvariantCulture), double.Parse(p[1], CultureInfo.InvariantCulture)))]))]);

    private static string[] Texts(XElement sheet) => [.. sheet.Descendants(Svg + "text").Select(t => t.Value)];

    private static ConditionPlan Plan(PlanRecords records, params PlanFinding[] findings) => records.Now with { Findings = findings };

    private static PlanFinding Finding(int number, string term, params Geometry[] zones) =>
        new(Guid.NewGuid(), new FindingContent { Number = number, Term = term, Observation = "seen" }, Standing.AsBefore, Appearance.All.First(a => a.Key == term), [.. zones.Select(z => new PlanZone(Guid.NewGuid(), "zone", 1, z))]);

    /// <summary>Lines a pitch apart are as long together as the area divided by the pitch: in an area with a hole, and with another lattice.</summary>
    [Theory]
    [InlineData("paint/darkening", 1.8)]
    [InlineData("paint/loss", 0.9)]
    [InlineData("support-panel/warp", 1.8)]
    [InlineData("ground/ground loss", 2.6)]
    public void Hatches_fill_an_area_to_its_border_and_no_further(string term, double pitch)
    {
        var area = new WKTReader().Read("POLYGON((0 0, 130 10, 90 100, 20 80, 0 0), (40 30, 60 30, 60 60, 40 60, 40 30))");
        var (fine, bold) = HatchLines.Over(Appearance.All.First(a => a.Key == term).Hatch, area);
        var lines = Lines(fine + bold);
        Assert.Equal(area.Area / pitch, lines.Length, 0.01 * area.Area / pitch);
        Assert.True(area.Buffer(0.02).Covers(lines));
    }

    [Fact]
    public void A_plan_has_identity_legend_and_numbers_and_says_what_it_cannot_show()
    {
        using var records = new PlanRecords();
        records.Finding("paint/loss", records.Zone(PlanRecords.Box(100, 100, 200, 180)), records.Zone(PlanRecords.Box(-30, 0, -10, 20)));
        records.Finding("varnish/bloom", records.Zone("""{"type":"Point","coordinates":[300,300]}"""), records.Zone(PlanRecords.Box(50, 400, 50.5, 400.4)));
        records.Finding("surface/stain");
        var sheet = XElement.Parse(ConditionPlanDrawing.Svg(records.Studio, records.Now));
        var texts = Texts(sheet);
        Assert.Contains("Ferry at low water", texts);
        Assert.Contains(texts, t => t.StartsWith("Condition, findings as they stand", StringComparison.Ordinal) && t.EndsWith("3 findings", StringComparison.Ordinal));
        Assert.Contains("Lo loss", texts);
        Assert.Equal(["1 Lo", "2 Bm"], texts.Where(t => t is "1 Lo" or "2 Bm" or "3 St"));
        Assert.Contains(texts, t => t.Contains("1 zone lies outside the painted face", StringComparison.Ordinal));
        Assert.Contains(texts, t => t.Contains("Without a zone, so not on the plan: 3", StringComparison.Ordinal));
        Assert.Contains(texts, t => t == "a point");
        Assert.Contains(texts, t => t == "a small zone");
        Assert.DoesNotContain(sheet.Descendants(), e => e.Name.LocalName is "pattern" or "style" or "image" or "script" || e.Attribute("style") is not null);
    }

    [Fact]
    public void Without_findings_the_sheet_says_so()
    {
        using var records = new PlanRecords();
        Assert.Contains("No finding is on record for this state.", string.Join(' ', Texts(XElement.Parse(ConditionPlanDrawing.Svg(records.Studio, records.Now)))), StringComparison.Ordinal);
        Assert.Equal("plan-size", Assert.Throws<InputProblem>(() => ConditionPlanDrawing.Svg(records.Studio, records.Now, null, new PlanSize(double.NaN))).Code);
        Assert.Equal("unknown-layer", Assert.Throws<InputProblem>(() => ConditionPlanDrawing.Svg(records.Studio, records.Now, "XYZ")).Code);
    }

    /// <summary>A crowded corner finds room for all, hardly a leader crosses another; a hopeless one for some.</summary>
    [Theory]
    [InlineData(40, 50, 40)]
    [InlineData(150, 40, 70)]
    public void Labels_never_cover_each_other_and_no_leader_crosses_one(int count, double crowd, int least)
    {
        var random = new Random(3);
        var asks = Enumerable.Range(1, count).Select(i => new LabelAsk($"{i} Lo", new Coordinate(60 + crowd * random.NextDouble(), 60 + crowd * random.NextDouble()), i < 10 ? 8 : 0, true)).ToList();
        var placed = PlanLabels.Place(asks, new Envelope(0, 170, 0, 170));
        Assert.InRange(placed.Count, least, count);
        var leaders = placed.Select(p => p.LeaderEnd is null ? null : GeometryFactory.Default.CreateLineString([p.Ask.Anchor, p.LeaderEnd])).ToList();
        var boxes = placed.Select(p => GeometryFactory.Default.ToGeometry(p.Box)).ToList();
        if (count < 100) Assert.InRange(leaders.OfType<LineString>().SelectMany((a, i) => leaders.OfType<LineString>().Skip(i + 1).Where(a.Crosses)).Count(), 0, 3);
        for (var i = 0; i < placed.Count; i++)
            for (var j = 0; j < placed.Count; j++)
                if (i != j)
                {
                    Assert.False(i < j && boxes[i].Intersects(boxes[j]));
                    Assert.False(leaders[i]?.Intersects(boxes[j]) ?? false);
                }
    }

    /// <summary>Thousands of zones of thousands of points, overlapping, inside and outside, tiny and with holes: a sheet that a page can hold, in a moment.</summary>
    [Fact, Trait("Speed", "slow")]
    public void Extreme_numbers_of_zones_make_a_sheet_that_can_be_shown()
    {
        using var records = new PlanRecords();
        var random = new Random(1);
        Geometry Blob(double size)
        {
            var (x, y) = (450 * random.NextDouble() - 20, 560 * random.NextDouble() - 20);
            var ring = Enumerable.Range(0, 60).Select(k => new Coordinate(x + size * (1 + 0.3 * random.NextDouble()) * Math.Cos(k * Math.PI / 30), y + size * (1 + 0.3 * random.NextDouble()) * Math.Sin(k * Math.PI / 30))).ToList();
            return GeometryFactory.Default.CreatePolygon([.. ring, ring[0]]);
        }
        string[] terms = ["paint/loss", "paint/flaking", "surface/surface dirt", "varnish/bloom", "later addition/retouching"];
        var plan = Plan(records, [.. Enumerable.Range(1, 700).Select(i => Finding(i, terms[i % terms.Length], Blob(0.1 + 30 * Math.Pow(random.NextDouble(), 6)), Blob(0.3), Blob(3)))]);
        var clock = Stopwatch.StartNew();
        var svg = ConditionPlanDrawing.Draw(plan, null, new PlanSize());
        TestContext.Current.TestOutputHelper!.WriteLine($"{svg.Length / 1e6:0.0} MB in {clock.Elapsed.TotalSeconds:0.0} s");
        Assert.InRange(svg.Length, 100_000, 12_000_000);
        Assert.Contains(Texts(XElement.Parse(svg)), t => t.Contains("No room for", StringComparison.Ordinal));
    }

    /// <summary>What is written into the record is XML in the drawing, never markup.</summary>
    [Fact]
    public void Words_of_people_stay_words()
    {
        using var records = new PlanRecords();
        using (var db = records.Studio.CreateDb())
        {
            db.Paintings.Find(records.Painting.Id)!.Title = "</text><script>alert(1)</script>\u0001 & more";
            db.SaveChanges();
        }
        var state = records.State("<svg onload=x>");
        var sheet = XElement.Parse(ConditionPlanDrawing.Svg(records.Studio, records.Plans.Of(records.Painting.Id, state.Id)));
        Assert.Empty(sheet.Descendants(Svg + "script"));
        Assert.Contains(Texts(sheet), t => t.Contains("<svg onload=x>", StringComparison.Ordinal));
    }

    [Fact]
    public void A_difference_draws_what_was_gained_and_lost_each_with_its_own_outline()
    {
        using var records = new PlanRecords();
        var zone = records.Zone(PlanRecords.Box(100, 100, 200, 180));
        var finding = records.Finding("paint/loss", zone);
        var before = records.State("before", (finding, Standing.AsBefore));
        records.Reshape(zone, PlanRecords.Box(150, 100, 250, 180));
        var sheet = XElement.Parse(DifferenceDrawing.Svg(records.Studio, records.Plans.Difference(records.Painting.Id, before.Id, null)));
        var outlines = sheet.Descendants(Svg + "path").Where(p => (string?)p.Attribute("stroke-width") == "0.7").Select(p => (string?)p.Attribute("stroke-dasharray") ?? "").ToList();
        Assert.Equal(2, outlines.Count(d => d.Length > 0));
        Assert.Equal(2, outlines.Count(d => d.Length == 0));
        Assert.Contains("1 Lo *", Texts(sheet));
        Assert.Contains(Texts(sheet), t => t.Contains("40 cm2", StringComparison.Ordinal));
    }
}
