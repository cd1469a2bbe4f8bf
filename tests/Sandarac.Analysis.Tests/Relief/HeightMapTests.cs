using Sandarac.Analysis.Relief;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Relief;

/// <summary>Against paraboloids (analytic) and SciPy's cosine transform (References/Relief/SOURCE.md).</summary>
public class HeightMapTests
{
    [Theory]
    [InlineData(160, 121)]
    [InlineData(97, 64)]
    [InlineData(1, 40)]
    public void Known_paraboloid_on_a_rectangle(int width, int height)
    {
        var truth = Paraboloid(width, height, (_, _) => true);
        var found = HeightMap.Integrate(Synthetic.Of(width, height, (x, _) => 0.004 * (x - 20)), Synthetic.Of(width, height, (_, y) => -0.006 * (y - 30)), 1)!;
        Assert.InRange(RmsOverRange(found, truth), 0, 1e-4);
    }

    [Fact]
    public void Known_paraboloid_on_a_disc()
    {
        static bool Inside(double x, double y) => (x - 70) * (x - 70) + (y - 60) * (y - 60) < 50 * 50;
        var found = HeightMap.Integrate(Synthetic.Of(150, 121, (x, y) => Inside(x, y) ? 0.004 * (x - 20) : double.NaN), Synthetic.Of(150, 121, (x, y) => Inside(x, y) ? -0.006 * (y - 30) : double.NaN), 1)!;
        var rms = RmsOverRange(found, Paraboloid(150, 121, Inside));
        TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant($"disc: {rms:0.0e+0} of range"));
        Assert.InRange(rms, 0, 1e-3);
    }

    [Fact]
    public void Known_solution_of_SciPy()
    {
        var found = HeightMap.Integrate(ReliefWitness.Map("slopes-right"), ReliefWitness.Map("slopes-down"), 1)!;
        var theirs = ReliefWitness.Map("poisson");
        for (var i = 0; i < theirs.Data.Length; i++) Assert.Equal(theirs.Data[i], found.Data[i], 2e-6);
    }

    [Fact]
    public void Number_of_threads_changes_nothing()
    {
        var (right, down) = (ReliefWitness.Map("slopes-right"), ReliefWitness.Map("slopes-down"));
        right[20, 20] = float.NaN;
        var (one, two) = (HeightMap.Integrate(right, down, 1, null, new ParallelOptions { MaxDegreeOfParallelism = 1 })!, HeightMap.Integrate(right, down, 1, null, new ParallelOptions { MaxDegreeOfParallelism = 3 })!);
        Assert.Equal(one.Data, two.Data);
        Assert.True(float.IsNaN(one[20, 20]));
    }

    [Fact]
    public void Extreme_maps()
    {
        Assert.Null(HeightMap.Integrate(Synthetic.Of(9, 7, (_, _) => double.NaN), new Plane(9, 7), 1));
        Assert.Equal(new float[1], HeightMap.Integrate(new Plane(1, 1), new Plane(1, 1), 1)!.Data);
        var alone = HeightMap.Integrate(Synthetic.Of(9, 7, (x, _) => x < 1 ? 0.2 : double.NaN), new Plane(9, 7), 1)!;
        Assert.Equal(7, alone.Data.Count(float.IsFinite));
    }

    [Fact]
    public void Form_takes_a_polynomial_away_and_leaves_the_rest()
    {
        var map = Synthetic.Of(60, 40, (x, y) => 3 + 0.1 * x - 0.02 * y + 0.01 * x * y + 0.03 * x * x - 0.05 * y * y);
        map[5, 5] = float.NaN;
        var range = map.Data.Where(float.IsFinite).Max() - map.Data.Where(float.IsFinite).Min();
        Assert.Equal(range, Form.Remove(map, 2), 1e-3);
        Assert.All(map.Data.Where(float.IsFinite), v => Assert.Equal(0, v, 1e-4));
        Assert.True(float.IsNaN(map[5, 5]));
    }

    private static Plane Paraboloid(int width, int height, Func<double, double, bool> inside) =>
        Synthetic.Of(width, height, (x, y) => inside(x, y) ? 0.002 * (x - 20) * (x - 20) - 0.003 * (y - 30) * (y - 30) : double.NaN);

    private static double RmsOverRange(Plane found, Plane truth)
    {
        (double Found, double Truth)[] known = [.. found.Data.Zip(truth.Data, (f, t) => ((double)f, (double)t)).Where(p => double.IsFinite(p.Item2))];
        var shift = known.Average(p => p.Found - p.Truth);
        return Math.Sqrt(known.Average(p => Math.Pow(p.Found - p.Truth - shift, 2))) / (known.Max(p => p.Truth) - known.Min(p => p.Truth));
    }
}
