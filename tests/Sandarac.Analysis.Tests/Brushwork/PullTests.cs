using NetTopologySuite.Geometries;
using Sandarac.Analysis.Brushwork;
using Sandarac.Analysis.Tests.Support;

namespace Sandarac.Analysis.Tests.Brushwork;

public class PullTests
{
    private const double Step = 0.1;

    [Fact]
    public void A_plane_is_read_along_a_line()
    {
        var plane = Synthetic.Of(200, 100, (x, y) => 2 * x + 3 * y);
        var pull = Pull.Along(plane, new LineString([new(2, 2), new(12, 4)]), 0.1, 0.5);
        // At 5 mm along a line of length sqrt(104), in pixels of 0.1 mm.
        var t = 5 / Math.Sqrt(104);
        Assert.Equal(2 * 10 * (2 + 10 * t) + 3 * 10 * (2 + 2 * t), pull.Values[50], 3);
        Assert.False(Pull.Along(plane, new LineString([new(30, 30), new(90, 30)]), 0.1, 0).SaysAnything);
    }

    /// <summary>scipy.stats.linregress, see References/Brushwork/SOURCE.md.</summary>
    [Fact]
    public void The_trend_is_the_least_squares_line()
    {
        double[] values = [.. Enumerable.Range(0, 30).Select(k => 20 - 0.15 * k + (k % 3 == 0 ? 1.3 : -0.6) + 0.02 * (k * k % 7))];
        var trend = PullTrend.Of(new Pull(0.25, values))!;
        Assert.Equal(-0.6342958843159064, trend.PerMm, 9);
        Assert.Equal(20.1956559139785, trend.Start, 9);
    }

    [Fact]
    public void The_interval_of_a_trend_holds_what_is_true_about_as_often_as_it_says()
    {
        // Texture alike over 1 mm on a known slope: an interval that took every place for independent would hold it in half of the cases.
        var held = Enumerable.Range(0, 400).Count(seed =>
        {
            var trend = PullTrend.Of(new Pull(Step, Texture(new Random(seed), 1000, 1, 2, (s, _) => -0.05 * s)))!;
            return Math.Abs(trend.PerMm + 0.05) <= trend.Uncertainty;
        });
        Assert.InRange(held / 400.0, 0.90, 1);
    }

    [Fact]
    public void The_period_of_twenty_pulls_with_even_stops_is_found_within_5_percent()
    {
        foreach (var seed in Enumerable.Range(100, 20))
        {
            var dice = new Random(seed);
            var (length, period) = (60 + 100 * dice.NextDouble(), 4 + 4 * dice.NextDouble());
            var stops = new List<double>();
            // The hand keeps time within 5 %, each stop counted from the last.
            for (var s = (0.3 + 0.7 * dice.NextDouble()) * period; s < length - 2; s += period * (1 + 0.05 * Bell(dice))) stops.Add(s);
            var rhythm = PullRhythm.Of(Stops.Of(new Pull(Step, Brushed(dice, length, stops))));
            Assert.True(rhythm is { IsRhythm: true }, $"seed {seed}: {rhythm}");
            Assert.InRange(rhythm.PeriodMm / ((stops[^1] - stops[0]) / (stops.Count - 1)), 0.95, 1.05);
        }
    }

    [Fact]
    public void No_period_is_reported_of_twenty_pulls_without_one()
    {
        foreach (var seed in Enumerable.Range(200, 20))
        {
            var dice = new Random(seed);
            var length = 60 + 100 * dice.NextDouble();
            // Half without stops, half with as many strewn at random.
            double[] stops = seed % 2 == 0 ? [] : [.. Enumerable.Range(0, (int)(length / 6)).Select(_ => length * dice.NextDouble())];
            var rhythm = PullRhythm.Of(Stops.Of(new Pull(Step, Brushed(dice, length, stops))));
            Assert.False(rhythm is { IsRhythm: true }, $"seed {seed}: {rhythm}");
        }
    }

    [Fact]
    public void A_stop_that_was_missed_counts()
    {
        var rhythm = PullRhythm.Of([3, 9.1, 15, 27, 33.1, 39])!;
        Assert.Equal(6, rhythm.PeriodMm, 1);
        Assert.True(rhythm.IsRhythm);
        Assert.Null(PullRhythm.Of([1, 2, 3, 4]));
    }

    [Fact]
    public void Gaps_do_not_make_stops_and_little_data_says_nothing()
    {
        var dice = new Random(5);
        var values = Brushed(dice, 80, []);
        for (var k = 300; k < 340; k++) values[k] = double.NaN;
        Assert.DoesNotContain(Stops.Of(new Pull(Step, values)), s => s is > 29 and < 35);
        Assert.Null(PullTrend.Of(new Pull(Step, [1, 2, 3])));
        Assert.Empty(Stops.Of(new Pull(Step, [.. Enumerable.Repeat(double.NaN, 100)])));
    }

    /// <summary>Height along a pull that gives its paint and stops here and there: the brush of the invented painting (a stop adds nine tenths of the film, 0.7 mm wide), with bristles' texture.</summary>
    private static double[] Brushed(Random dice, double length, IReadOnlyCollection<double> stops)
    {
        var (load, left) = (20 + 40 * dice.NextDouble(), length * (1.1 + dice.NextDouble()));
        return Texture(dice, (int)(length / Step), 0.3 + 1.2 * dice.NextDouble(), 0.08 * load,
            (s, _) => load * Math.Sqrt(1 - s / left) * (1 + 0.9 * stops.Sum(p => Math.Exp(-Math.Pow((s - p) / 0.7, 2)))));
    }

    /// <summary>A first-order autoregressive texture on a course.</summary>
    private static double[] Texture(Random dice, int count, double alikeMm, double sigma, Func<double, int, double> course)
    {
        var (r, last) = (Math.Exp(-Step / alikeMm), sigma * Bell(dice));
        return [.. Enumerable.Range(0, count).Select(k => (last = r * last + sigma * Math.Sqrt(1 - r * r) * Bell(dice)) + course(k * Step, k))];
    }

    private static double Bell(Random dice) => Math.Sqrt(-2 * Math.Log(1 - dice.NextDouble())) * Math.Cos(2 * Math.PI * dice.NextDouble());
}
