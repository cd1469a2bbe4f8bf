using Sandarac.Imaging;
using Sandarac.Materials.Wood;

namespace Sandarac.Materials.Tests;

public class FellingDateTests
{
    private static readonly SapwoodModel Southern = SapwoodModel.Find("southern-baltic")!, Poland = SapwoodModel.Find("northern-poland")!;

    /// <summary>Worked examples in the documentation of a public dendrochronology package with Wazny's (1990) model, whose densities the table's two constants were fitted to; SciPy 1.10.1 gives 0.96117914 with those constants.</summary>
    [Fact]
    public void Known_intervals_of_highest_density()
    {
        var felling = FellingDate.Of(1234, OuterWood.Sapwood, 10, Southern);
        Assert.Equal((1234, 1250), (felling.Likely!.Value.From, felling.Likely.Value.To));
        Assert.Equal(0.9611793, felling.Likely.Value.Holds, 6);
        Assert.Equal([0.04387611, 0.06219097, 0.07801314], FellingDate.Chances(Southern.Distribution!.Value, 10).Take(3), (a, b) => Math.Abs(a - b) < 1e-7);
    }

    [Theory]
    [InlineData(7, 1482, 1483, 1501)]
    [InlineData(1, 1475, 1482, 1500)]
    [InlineData(10, 1490, 1490, 1506)]
    public void Known_intervals_that_hold_954_in_1000(int rings, int last, int from, int to)
    {
        var likely = FellingDate.Of(last, OuterWood.Sapwood, rings, Southern, 0.954).Likely!.Value;
        Assert.Equal((from, to), (likely.From, likely.To));
    }

    [Fact]
    public void The_waney_edge_makes_the_year_certain()
    {
        var felling = FellingDate.Of(1498, OuterWood.WaneyEdge, 12, Southern);
        Assert.Equal((1498, 1498, 1498), (felling.Earliest, felling.Likely!.Value.From, felling.Likely.Value.To));
        Assert.Null(felling.Model);
    }

    /// <summary>Klein, in The Structural Conservation of Panel Paintings (1998), northern Poland: last heartwood ring 1450, earliest felling 1459, median 1465, middle half 1463 to 1469.</summary>
    [Fact]
    public void Known_felling_of_heartwood_alone()
    {
        var felling = FellingDate.Of(1450, OuterWood.HeartwoodOnly, 0, Poland);
        Assert.Equal((1459, 1465, 1463, 1469, 0.5), (felling.Earliest, felling.Median!.Value, felling.Likely!.Value.From, felling.Likely.Value.To, felling.Likely.Value.Holds));
        Assert.True(felling.IsEarliestOnly);
        Assert.Contains("or later", felling.Basis, StringComparison.Ordinal);
    }

    /// <summary>Laanelaid and Nurkse 2006: last ring 1600, Baltic oak without sapwood, probably painted 1617 to 1623.</summary>
    [Fact]
    public void Known_years_of_painting()
    {
        var use = new UseDate(FellingDate.Of(1600, OuterWood.HeartwoodOnly, 0, Poland), Seasoning.Find("oak-16-17")!);
        Assert.Equal((1617, 1623), use.AroundMedian);
        Assert.Equal((1611, (1615, 1627)), (use.Earliest, use.Likely!.Value));
        Assert.Equal("MEMORY", use.Seasoning.Flag);
    }

    [Fact]
    public void Rings_that_are_there_are_never_taken_back()
    {
        foreach (var model in SapwoodModel.All)
            for (var rings = 0; rings <= 60; rings++)
            {
                var felling = FellingDate.Of(1500, OuterWood.Sapwood, rings, model);
                Assert.True(felling.Earliest >= 1500 && (felling.Likely is not { } l || l.From >= 1500 && l.To >= l.From) && (felling.Median is not { } m || m >= 1500), $"{model.Id} {rings}");
            }
        Assert.Null(FellingDate.Of(1500, OuterWood.Sapwood, 20, Poland).Likely);
        Assert.Null(FellingDate.Of(1500, OuterWood.Sapwood, 20, Poland).Median);
        // Sohar, Vitas and Laanelaid 2012: 6.18 to 18.71 rings, outward to whole years.
        Assert.Equal(new Years(1506, 1519, 0.95), FellingDate.Of(1500, OuterWood.Sapwood, 0, SapwoodModel.Find("eastern-baltic")!).Likely);
    }

    [Fact]
    public void Invalid_rings_and_shares_are_refused()
    {
        Assert.Throws<InputProblem>(() => FellingDate.Of(1500, OuterWood.Sapwood, -1, Poland));
        Assert.Throws<InputProblem>(() => FellingDate.Of(1500, OuterWood.Sapwood, 201, Poland));
        Assert.Throws<InputProblem>(() => FellingDate.Of(1500, OuterWood.HeartwoodOnly, 3, Poland));
        Assert.Throws<InputProblem>(() => FellingDate.Of(1500, OuterWood.Sapwood, 3, Southern, 1));
    }

    [Fact]
    public void Every_row_says_where_it_is_known_from()
    {
        Assert.All(SapwoodModel.All, m => Assert.True(m.Flag is "READ" or "CALC" && m.Source.Length > 20 && m.Least > 0));
        Assert.All(Seasoning.All, s => Assert.True(s.Flag is "READ" or "MEMORY" && s.Source.Length > 20 && s.Most >= s.Least));
    }
}
