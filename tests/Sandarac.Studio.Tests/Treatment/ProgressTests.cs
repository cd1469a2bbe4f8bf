using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Tests.Treatment;

/// <summary>Progress against areas that are known by construction: rectangles in mm.</summary>
public sealed class ProgressTests
{
    [Fact]
    public void Places_count_once_and_each_day_adds_what_is_new()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0].Id;
        home.Write(TreatmentHome.Entry(step, 0, 2, home.Zone("left", 0, 0, 100, 100)));
        home.Write(TreatmentHome.Entry(step, 2, 3, home.Zone("overlapping", 50, 0, 100, 100)));
        home.Write(TreatmentHome.Entry(step, 3, 1));
        home.Write(TreatmentHome.Entry(step, 4, 1, home.Zone("again", 0, 0, 40, 40)));
        var progress = new TreatmentProgress(home.Studio).Of(home.Painting.Id)[0];
        Assert.Equal(40_000, progress.Target!.AreaMm2, 6);
        Assert.Equal([10_000, 15_000, 15_000, 15_000], progress.Days.Select(d => Math.Round(d.Done.AreaMm2, 6)));
        Assert.Equal([0.25, 0.375, 0.375, 0.375], progress.Days.Select(d => Math.Round(d.Share, 9)));
        Assert.Equal([2, 5, 6, 7], progress.Days.Select(d => d.Hours));
        Assert.Equal(25_000, progress.LeftMm2!.Value, 6);
        Assert.Empty(progress.Warnings);
        Assert.Empty(new TreatmentProgress(home.Studio).Of(home.Painting.Id)[1].Days);
    }

    /// <summary>A face of 100 x 50 mm, done as far as 40 mm: the border between done and to do is 50 mm long, and may be off by the alignment's residual and half a pixel of the plane.</summary>
    [Fact]
    public void The_share_is_as_uncertain_as_the_border_between_done_and_to_do()
    {
        using var plane = new PlaneStudio(400, 200);
        plane.AddWhole("VIS", 1, (_, _, _) => 1);
        using (var db = plane.Studio.CreateDb())
        {
            var first = db.Alignments.Single();
            db.Add(new Alignment { PhotographId = first.PhotographId, Version = 2, Method = first.Method, Verdict = Verdict.Aligned, Reason = "by construction", PlaneImage = first.PlaneImage, PlaneExtent = first.PlaneExtent, Residuals = new Residuals(0.05, 0.1, ""), CreatedAt = DateTime.UtcNow });
            db.SaveChanges();
        }
        var step = new TreatmentSteps(plane.Studio).Create(plane.Painting.Id, new TreatmentStepContent { Name = "Dust", Operation = "dust", UrgentReason = "It was flying." }, TreatmentHome.User);
        var log = new TreatmentLog(plane.Studio);
        void Write(int day, double width) => log.Create(plane.Painting.Id, new LogEntryContent
        {
            StepId = step.Id, On = TreatmentHome.Day.AddDays(day), Who = "Marta Oud", What = "Brush.", Zones = [new Zones(plane.Studio).Create(plane.Painting.Id, new ZoneContent($"to {width}", "", "", TreatmentHome.Square(0, 0, width, 50))).Id],
        }, TreatmentHome.User);
        Write(0, 40);
        Write(1, 100);
        var days = new TreatmentProgress(plane.Studio).Of(plane.Painting.Id)[0].Days;
        Assert.Equal((0.4, 50 * Math.Sqrt(0.1 * 0.1 + 0.125 * 0.125) / 5000), (days[0].Share, days[0].ShareUncertainty!.Value));
        Assert.Equal((1, 0), (days[1].Share, Math.Round(days[1].ShareUncertainty!.Value, 12)));
    }

    [Fact]
    public void A_zone_that_is_drawn_larger_from_day_to_day_tells_each_days_part()
    {
        using var home = new TreatmentHome();
        var (step, zones) = (home.Begun()[0].Id, new Zones(home.Studio));
        var done = home.Zone("done so far", 0, 0, 100, 100);
        home.Write(TreatmentHome.Entry(step, 0, 2, done));
        zones.Change(done, 1, new ZoneContent("done so far", "", "", TreatmentHome.Square(0, 0, 250, 100)));
        home.Write(TreatmentHome.Entry(step, 1, 2, done));
        zones.Delete(done, 2);
        var progress = new TreatmentProgress(home.Studio).Of(home.Painting.Id)[0];
        Assert.Equal([10_000, 25_000], progress.Days.Select(d => Math.Round(d.Done.AreaMm2, 6)));
        Assert.Equal(["zone-changed", "zone-changed"], progress.Warnings.Select(w => w.Code));
    }

    [Fact]
    public void What_lies_outside_the_step_is_warned_of_and_not_counted()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0].Id;
        home.Write(TreatmentHome.Entry(step, 0, 2, home.Zone("over the edge", 0, 50, 100, 100)));
        var progress = new TreatmentProgress(home.Studio).Of(home.Painting.Id)[0];
        Assert.Equal(5_000, progress.Days[0].Done.AreaMm2, 6);
        Assert.Equal(("outside-step", true), (progress.Warnings[0].Code, progress.Warnings[0].Message.Contains("50 cm2", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_step_is_measured_against_the_place_that_was_approved()
    {
        using var home = new TreatmentHome();
        home.Begun();
        new Zones(home.Studio).Change(home.Band, 1, new ZoneContent("band", "", "", TreatmentHome.Square(0, 0, 400, 500)));
        var progress = new TreatmentProgress(home.Studio).Of(home.Painting.Id)[0];
        Assert.Equal(40_000, progress.Target!.AreaMm2, 6);
        Assert.Equal("zone-changed-since-approval", Assert.Single(progress.Warnings).Code);
    }

    [Fact]
    public void A_step_without_zones_is_the_whole_face_and_one_of_points_has_no_area()
    {
        using var home = new TreatmentHome();
        var spot = new Zones(home.Studio).Create(home.Painting.Id, new ZoneContent("spot", "", "", """{"type":"Point","coordinates":[5,5]}""")).Id;
        home.Steps.Create(home.Painting.Id, new TreatmentStepContent { Name = "Dust", Operation = "dust" }, TreatmentHome.User);
        home.Steps.Create(home.Painting.Id, new TreatmentStepContent { Name = "Spot", Operation = "spot test", Zones = [spot] }, TreatmentHome.User);
        var progress = new TreatmentProgress(home.Studio).Of(home.Painting.Id);
        Assert.Equal(412 * 518, progress[0].Target!.AreaMm2, 6);
        Assert.Equal((null, "The step's zones cover no area."), (progress[1].Target, progress[1].NoAnswer));
    }

    [Fact]
    public void Done_and_to_do_are_the_places_of_a_day()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0].Id;
        home.Write(TreatmentHome.Entry(step, 0, 2, home.Zone("left", 0, 0, 100, 100)));
        var progress = new TreatmentProgress(home.Studio);
        Assert.Equal((null, 40_000), Areas(progress.Places(step, TreatmentHome.Day.AddDays(-1))));
        Assert.Equal((10_000, 30_000), Areas(progress.Places(step, TreatmentHome.Day)));
        home.Write(TreatmentHome.Entry(step, 1, 2, home.Band));
        Assert.Equal((40_000, null), Areas(progress.Places(step)));
        Assert.Equal(1, progress.Places(step).At!.Share, 12);

        static (double?, double?) Areas(PlacesOfDay places) => (Area(places.Done), Area(places.ToDo));
        static double? Area(string? geometry) => geometry is null ? null : Math.Round(ZoneGeometry.Read(geometry).Area, 6);
    }
}
