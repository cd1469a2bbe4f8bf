using Sandarac.Studio.Plans;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Tests.Plans;

/// <summary>Figures by hand: rectangles on a face of 412 x 518 mm.</summary>
public sealed class PlanAreaTests
{
    [Fact]
    public void Known_areas_count_each_place_once_and_only_what_lies_on_the_face()
    {
        using var records = new PlanRecords();
        records.Finding("paint/loss", records.Zone(PlanRecords.Box(0, 0, 20, 10)), records.Zone(PlanRecords.Box(10, 0, 30, 10)));
        records.Finding("paint/loss", records.Zone(PlanRecords.Box(-10, 100, 10, 110)), records.Zone(PlanRecords.Box(500, 0, 520, 10)));
        records.Finding("varnish/bloom", records.Zone(PlanRecords.Box(0, 0, 10, 10)), records.Zone("""{"type":"MultiPolygon","coordinates":[[[[100,100],[200,100],[200,200],[100,200],[100,100]],[[120,120],[180,120],[180,180],[120,180],[120,120]]],[[[300,300],[310,300],[310,310],[300,310],[300,300]]]]}"""));
        records.Finding("paint/scratch", records.Zone("""{"type":"LineString","coordinates":[[0,0],[30,40],[30,-60]]}"""), records.Zone("""{"type":"MultiPoint","coordinates":[[5,5],[6,6],[900,5]]}"""));
        var plan = records.Now with { Alignments = [PlanRecords.Aligned(0.2)] };
        var all = PlanAreas.Of(plan);
        var terms = all.ToDictionary(t => t.Appearance.Key);
        Assert.Equal([1, 2], terms["paint/loss"].Numbers);
        Assert.Equal(300 + 100, terms["paint/loss"].Extent.Extent.AreaMm2, 9);
        Assert.Equal(100 + (100 * 100 - 60 * 60) + 100, terms["varnish/bloom"].Extent.Extent.AreaMm2, 9);
        // The loss and the bloom share the first square centimetre.
        Assert.Equal(400 + 6600 - 100, PlanAreas.Whole(plan, all).Extent.AreaMm2, 9);
        Assert.Equal(6900 / (412.0 * 518), PlanAreas.Whole(plan, all).Extent.FaceShare, 12);
        // An outline of 120 mm that may be off by 0.2 mm; the painting's size is taken as stated, its grid has no pixels yet.
        Assert.Equal((80 + 40) * 0.2, terms["paint/loss"].Extent.Extent.AreaUncertaintyMm2!.Value, 9);
        var scratch = terms["paint/scratch"].Extent;
        Assert.Equal((90, 1, 2), (scratch.LengthMm, scratch.Lines, scratch.Points));
        Assert.Equal(Math.Sqrt(2) * 0.2, scratch.LengthUncertaintyMm!.Value, 9);
        Assert.Null(PlanAreas.Of(records.Now)[0].Extent.Extent.AreaUncertaintyMm2);
    }

    [Fact]
    public void Known_differences_say_what_is_new_gone_changed_and_whether_it_is_more_than_the_outlines_uncertainty()
    {
        using var records = new PlanRecords();
        var (loss, bloom, edge, same) = (records.Zone(PlanRecords.Box(0, 0, 20, 10)), records.Zone(PlanRecords.Box(50, 50, 60, 60)), records.Zone(PlanRecords.Box(100, 100, 110, 110)), records.Zone(PlanRecords.Box(200, 200, 230, 230)));
        Finding[] findings = [records.Finding("paint/loss", loss), records.Finding("varnish/bloom", bloom), records.Finding("paint/flaking", edge), records.Finding("paint/wear", same)];
        var before = records.State("before", [.. findings.Select(f => (f, Standing.AsBefore))]);
        records.Reshape(loss, PlanRecords.Box(5, 0, 45, 10));
        records.Reshape(edge, PlanRecords.Box(100, 100, 110.1, 110));
        var late = records.Finding("paint/scratch", records.Zone(PlanRecords.Box(300, 300, 301, 310)));
        var after = records.State("after", (findings[0], Standing.Changed), (findings[1], Standing.Gone), (findings[2], Standing.AsBefore), (findings[3], Standing.AsBefore), (late, Standing.New));
        ConditionPlan Of(ConditionState state) => records.Plans.Of(records.Painting.Id, state.Id) with { Alignments = [PlanRecords.Aligned(0.2)] };
        var difference = PlanDifference.Between(Of(before), Of(after));
        Assert.Equal([Became.Changed, Became.Gone, Became.Changed, Became.Same, Became.New], difference.Findings.Select(f => f.Became));
        Assert.Equal([200, -100, 1, 0, 10], difference.Findings.Select(f => Math.Round(f.ChangeMm2, 9)));
        Assert.Equal([250, 0, 1, 0, 10], difference.Findings.Select(f => Math.Round(f.GainedMm2, 9)));
        Assert.Equal([50, 100, 0, 0, 0], difference.Findings.Select(f => Math.Round(f.LostMm2, 9)));
        // 60 mm and 100 mm around, each off by 0.2 mm; then 40 and 40.2 mm, more than the millimetre that was gained.
        Assert.Equal(0.2 * Math.Sqrt(60 * 60 + 100 * 100), difference.Findings[0].UncertaintyMm2!.Value, 6);
        Assert.Equal([true, true, false, false, true], difference.Findings.Select(f => f.IsBeyondUncertainty!.Value));
        Assert.Equal((261, 150), (Math.Round(difference.Gained.Area, 6), Math.Round(difference.Lost.Area, 6)));
        Assert.Null(records.Plans.Difference(records.Painting.Id, before.Id, after.Id).Findings[0].IsBeyondUncertainty);
    }
}
