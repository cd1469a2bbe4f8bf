using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Tests.Numbers;

public class RobustTests
{
    /// <summary>Selecting gives the very numbers that sorting gives (the slow obvious way), with equal values, infinities and no data among them too.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(10)]
    [InlineData(121)]
    [InlineData(1000)]
    public void Selected_quantiles_are_those_of_sorted_values(int count)
    {
        var dice = new Random(count);
        foreach (var draw in (Func<double>[])[dice.NextDouble, () => dice.Next(4), () => 7, () => dice.Next(9) switch { 0 => double.NaN, 1 => double.PositiveInfinity, 2 => double.NegativeInfinity, _ => dice.NextDouble() }])
        {
            double[] values = [.. Enumerable.Range(0, count).Select(_ => draw())];
            double[] sorted = [.. values.Order()];
            foreach (var share in (double[])[0, 0.1, 0.25, 0.5, 0.613, 0.95, 1]) Assert.Equal(Robust.QuantileOfSorted<double>(sorted, share), Robust.Quantile(values, share));
            for (var rank = 0; rank < count; rank += 1 + count / 20) Assert.Equal(sorted[rank], Selection.Select<double>((double[])values.Clone(), rank));
        }
    }

    /// <summary>Sorted, reversed, and rising to the middle: orders in which a careless pivot takes time as the square of the number.</summary>
    [Fact]
    public void Extreme_orders_are_selected_from_too()
    {
        double[][] orders = [[.. Enumerable.Range(0, 100_000).Select(i => (double)i)], [.. Enumerable.Range(0, 100_000).Select(i => -(double)i)], [.. Enumerable.Range(0, 100_000).Select(i => (double)Math.Min(i, 100_000 - i))]];
        foreach (var values in orders) Assert.Equal(Robust.QuantileOfSorted<double>([.. values.Order()], 0.5), Robust.Median(values));
    }

    [Fact]
    public void Median_of_a_window_is_the_mean_of_the_two_in_the_middle()
    {
        Assert.Equal(2.5f, Selection.Median<float>([4, 1, 3, 2]));
        Assert.Equal(3, Selection.Median<float>([4, 1, 3]));
        Assert.True(float.IsNaN(Selection.Median<float>([])));
    }

    /// <summary>NumPy 1.24, <c>numpy.quantile([1, 2, 4, 8], 0.4)</c>: 2.4; SciPy 1.10, <c>scipy.stats.median_abs_deviation([1, 2, 4, 8], scale="normal")</c>: 2.223903327758403.</summary>
    [Fact]
    public void Known_quantile_and_deviation()
    {
        Assert.Equal(2.4, Robust.Quantile([1, 2, 4, 8], 0.4), 1e-12);
        Assert.Equal(2.223903327758403, Robust.Sigma([1, 2, 4, 8]), 1e-12);
    }
}
