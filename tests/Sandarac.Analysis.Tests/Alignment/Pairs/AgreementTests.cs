using System.Globalization;
using Sandarac.Analysis.Alignment.Pairs;

namespace Sandarac.Analysis.Tests.Alignment.Pairs;

public class AgreementTests
{
    private static readonly double[][] Rows = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Agreement", "binomial.csv")).Skip(1)
        .Select(l => l.Split(',')[..4].Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray())];

    /// <summary>References/Agreement: SciPy's binomial tail, and exact integers where it underflows. Logarithms of factorials of 1000, near 5900, carry some 1e-12.</summary>
    [Fact]
    public void Known_logarithm_of_the_binomial_tail()
    {
        Assert.Equal(17, Rows.Length);
        foreach (var row in Rows)
            Assert.InRange(Agreement.Log10FalseAlarms(1, (int)row[0], (int)row[1], row[2]) - row[3], -1e-9, 1e-9);
    }

    [Fact]
    public void Known_every_place_tried_is_another_chance() =>
        Assert.Equal(5, Agreement.Log10FalseAlarms(1e5, 37, 5, 0.0314) - Agreement.Log10FalseAlarms(1, 37, 5, 0.0314), 1e-12);

    [Fact]
    public void Extreme_without_patches_every_place_is_an_accident() => Assert.Equal(5, Agreement.Log10FalseAlarms(1e5, 0, 0, 0.1));

    /// <summary>By counting: a circle of radius 2 in a square of 15 pixels is pi 4 / 225 of it; no chance is larger than a half.</summary>
    [Fact]
    public void Known_chance_is_the_share_of_the_search()
    {
        Assert.Equal(Math.PI * 4 / 225, Agreement.Chance(2, 8), 1e-12);
        Assert.Equal(0.5, Agreement.Chance(50, 8));
    }
}
