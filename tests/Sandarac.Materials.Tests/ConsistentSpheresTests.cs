using Sandarac.Materials.Cleaning;

namespace Sandarac.Materials.Tests;

public sealed class ConsistentSpheresTests
{
    private static readonly (double Low, double High)[] Box = [(13, 22), (0, 26), (0, 42)];
    private static readonly double[] Weights = [2, 1, 1];

    private static double Distance(double[] a, double[] b) => Math.Sqrt(a.Zip(b, (x, y) => x - y).Zip(Weights, (d, w) => w * w * d * d).Sum());

    /// <summary>A drawn sphere, tests labelled by it, points asked of it: what is said for sure must be true. The sphere is the outside witness; it is not handed over.</summary>
    [Fact]
    public void What_is_said_for_sure_is_true_of_the_sphere_that_made_the_tests()
    {
        var (random, sure, all) = (new Random(20), 0, 0);
        double[] Point() => [.. Box.Select(b => b.Low + random.NextDouble() * (b.High - b.Low))];
        for (var round = 0; round < 60; round++)
        {
            var (centre, radius) = (Point(), 2 + 10 * random.NextDouble());
            bool IsIn(double[] x) => Distance(x, centre) <= radius;
            double[][] tests = [.. Enumerable.Range(0, random.Next(4, 15)).Select(_ => Point())];
            var regions = ConsistentSpheres.Of([.. tests.Where(IsIn)], [.. tests.Where(t => !IsIn(t))], Box, Weights, 1);
            Assert.True(regions.Any);
            foreach (var x in Enumerable.Range(0, 20).Select(_ => Point()))
            {
                var said = regions.Of(x);
                all++;
                if (said == Belongs.Open) continue;
                sure++;
                Assert.Equal(IsIn(x), said == Belongs.Inside);
            }
        }
        Assert.True(sure > 0, $"nothing was said for sure of {all} points");
    }

    /// <summary>Every test that was made is answered by itself as it came out, or left open; never the other way round.</summary>
    [Fact]
    public void More_tests_settle_more_points_and_never_unsettle_one()
    {
        double[][] acted = [[16, 8, 8], [17, 9, 12], [16, 5, 9], [18, 10, 8]], didNot = [[15, 0, 0], [16, 18, 5], [16, 3, 25], [18, 1, 2], [15, 20, 20], [20, 9, 30]];
        double[][] asked = [.. from d in Enumerable.Range(13, 9) from p in Enumerable.Range(0, 13) from h in Enumerable.Range(0, 21) select new double[] { d, 2 * p, 2 * h }];
        var few = ConsistentSpheres.Of([.. acted.Take(2)], [.. didNot.Take(3)], Box, Weights, 1);
        var many = ConsistentSpheres.Of(acted, didNot, Box, Weights, 1);
        var (before, after) = (asked.Select(few.Of).ToList(), asked.Select(many.Of).ToList());
        Assert.All(before.Zip(after), p => Assert.True(p.First == Belongs.Open || p.First == p.Second));
        Assert.True(after.Count(b => b != Belongs.Open) > before.Count(b => b != Belongs.Open));
        Assert.DoesNotContain(Belongs.Outside, acted.Select(many.Of));
        Assert.DoesNotContain(Belongs.Inside, didNot.Select(many.Of));
    }

    /// <summary>In the plane, discs around grid points by plain search: what one of them contradicts is not said.</summary>
    [Fact]
    public void In_the_triangle_no_disc_of_a_plain_search_contradicts_what_is_said()
    {
        double[][] acted = [[70, 10], [40, 20], [55, 35]], didNot = [[95, 3], [40, 55], [20, 10]];
        var regions = ConsistentSpheres.Of(acted, didNot, [(0, 100), (0, 100)], [1, 1], 1);
        double Plain(double[] a, double x, double y) => Math.Sqrt((a[0] - x) * (a[0] - x) + (a[1] - y) * (a[1] - y));
        var discs = (from x in Enumerable.Range(0, 68) from y in Enumerable.Range(0, 68) select (X: x * 1.5, Y: y * 1.5))
            .Select(c => (c.X, c.Y, Least: acted.Max(p => Plain(p, c.X, c.Y)), Most: didNot.Min(p => Plain(p, c.X, c.Y)))).Where(c => c.Least < c.Most).ToList();
        Assert.NotEmpty(discs);
        var answers = (from x in Enumerable.Range(0, 34) from y in Enumerable.Range(0, 34) select new double[] { 3 * x, 3 * y }).Select(p => (Point: p, Said: regions.Of(p))).ToList();
        Assert.Contains(answers, a => a.Said == Belongs.Inside);
        Assert.Contains(answers, a => a.Said == Belongs.Outside);
        Assert.All(answers.Where(a => a.Said == Belongs.Inside), a => Assert.DoesNotContain(discs, d => Plain(a.Point, d.X, d.Y) > d.Least));
        Assert.All(answers.Where(a => a.Said == Belongs.Outside), a => Assert.DoesNotContain(discs, d => Plain(a.Point, d.X, d.Y) < d.Most));
    }

    [Fact]
    public void Tests_that_no_round_region_agrees_with_leave_everything_open_and_say_so()
    {
        var regions = ConsistentSpheres.Of([[16, 0, 5], [16, 26, 5]], [[16, 13, 5]], Box, Weights, 0.5);
        Assert.False(regions.Any);
        Assert.Equal(Belongs.Open, regions.Of([16, 13, 5]));
        Assert.Null(regions.CentreRange(0.5));
    }

    [Fact]
    public void Without_tests_everything_is_open_and_wrong_axes_are_refused()
    {
        Assert.Equal(Belongs.Open, ConsistentSpheres.Of([], [], Box, Weights, 2).Of([16, 5, 5]));
        Assert.Throws<ArgumentException>(() => ConsistentSpheres.Of([[1, 2]], [], Box, Weights, 1));
        Assert.Throws<ArgumentException>(() => ConsistentSpheres.Of([], [], Box, Weights, 0));
    }
}
