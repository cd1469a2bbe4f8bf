using Sandarac.Studio.Record;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Tests.Treatment;

public sealed class EstimateTests
{
    private const string Operation = "clean/varnish removal";

    [Fact]
    public void Too_little_in_the_log_is_no_answer_that_says_what_is_missing()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0].Id;
        home.Write(TreatmentHome.Entry(step, 0, 1, home.Zone("first", 0, 0, 50, 20)) with { IsTimedTest = true });
        home.Write(TreatmentHome.Entry(step, 1, 3));
        home.Write(TreatmentHome.Entry(step, 2, null, home.Zone("not timed", 50, 0, 50, 20)));
        var estimate = new WorkEstimates(home.Studio).OfStep(step)!;
        Assert.Equal((null, null, null), (estimate.Hours, estimate.Days, estimate.Basis));
        Assert.Equal("Sessions of this operation with hours and new places: 1 on this painting; steps with such sessions in the studio: 1. An interval needs 3 of either.", estimate.NoAnswer);
        var own = Assert.Single(estimate.Own);
        Assert.Equal((10, 10, true), (own.AreaCm2, own.Pace, own.IsTimedTest));
        Assert.Equal((380, 3), (Math.Round(estimate.LeftCm2, 9), estimate.HoursBeside));
    }

    /// <summary>Three sessions of 20 cm2 in 1, 2 and 4 hours: 340 cm2 are left. The interval itself is checked against SciPy in <see cref="PaceTests"/>.</summary>
    [Fact]
    public void Three_sessions_on_this_painting_are_enough_whatever_others_took()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0].Id;
        for (var i = 0; i < 3; i++) home.Write(TreatmentHome.Entry(step, i, 1 << i, home.Zone($"part {i}", 100 * i, 0, 100, 20)));
        Elsewhere(home, "Sluice in snow", 0.1);
        var estimate = new WorkEstimates(home.Studio).OfStep(step)!;
        Assert.Equal(PaceInterval.Of([(20, 1), (20, 2), (20, 4)], 340, isOneStretch: false), estimate.Hours);
        Assert.Equal(PaceInterval.Of([(20, 1), (20, 1), (20, 1)], 340, isOneStretch: false), estimate.Days);
        Assert.Equal((true, 3, TreatmentHome.Day, TreatmentHome.Day.AddDays(2), "Ferry at low water"), (estimate.Basis!.IsThisPainting, estimate.Basis.Count, estimate.Basis.First, estimate.Basis.Last, Assert.Single(estimate.Basis.Paintings)));
    }

    /// <summary>A timed test of 1 cm2 tells a pace, but nobody stops after it: it would make one day of some hundred of it.</summary>
    [Fact]
    public void A_timed_test_is_a_session_and_no_days_work()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0].Id;
        home.Write(TreatmentHome.Entry(step, 0, 0.1, home.Zone("patch", 0, 20, 10, 10)) with { IsTimedTest = true });
        for (var i = 0; i < 3; i++) home.Write(TreatmentHome.Entry(step, i, 2, home.Zone($"part {i}", 100 * i, 0, 100, 20)));
        var estimate = new WorkEstimates(home.Studio).OfStep(step)!;
        Assert.Equal((4, PaceInterval.Of([(20, 1), (20, 1), (20, 1)], 339, isOneStretch: false)), (estimate.Basis!.Count, estimate.Days));
    }

    [Fact]
    public void Whole_steps_on_other_paintings_serve_where_this_one_has_no_log()
    {
        using var home = new TreatmentHome();
        double[] hours = [1, 2, 4];
        foreach (var h in hours) Elsewhere(home, $"Sluice {h}", h);
        Elsewhere(home, "Other work", 1, "clean/aqueous clean");
        var estimate = new WorkEstimates(home.Studio).OfZones(home.Painting.Id, " Clean/Varnish Removal", [home.Band])!;
        Assert.Equal(PaceInterval.Of([.. hours.Select(h => (40.0, 2 * h))], 400, isOneStretch: true), estimate.Hours);
        Assert.Equal((false, 3, "Sluice 1, Sluice 2, Sluice 4"), (estimate.Basis!.IsThisPainting, estimate.Basis.Count, string.Join(", ", estimate.Basis.Paintings)));
        Assert.Empty(estimate.Own);
        Assert.NotNull(new WorkEstimates(home.Studio).OfZones(home.Painting.Id, "unheard of", [])!.NoAnswer);
    }

    /// <summary>Two sessions of 20 cm2 on another painting, each so many hours.</summary>
    private static void Elsewhere(TreatmentHome home, string title, double hours, string operation = Operation)
    {
        var painting = home.Home.AddPainting(title).Id;
        var step = home.Steps.Create(painting, new TreatmentStepContent { Name = "Varnish", Operation = operation, UrgentReason = "invented" }, TreatmentHome.User);
        for (var i = 0; i < 2; i++) home.Write(TreatmentHome.Entry(step.Id, i, hours, home.Zone($"part {i}", 100 * i, 0, 100, 20, painting)) with { Who = title }, painting);
    }
}
