using System.Globalization;
using Sandarac.Imaging;
using Sandarac.Materials.Solvents;

namespace Sandarac.Materials.Tests.Solvents;

public class BlendSearchTests
{
    private static readonly HansenTarget Middle = new(new(16.5, 6, 7), 8);

    /// <summary>Five hundred random cases against SciPy's SLSQP (References/Solvents/SOURCE.md), to 0.5 % or a ten-thousandth.</summary>
    [Fact]
    public void Known_nearest_mixtures_of_two_and_three()
    {
        var lines = File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Solvents", "nearest.csv")).Select(l => l.Split(',')).ToList();
        Assert.Equal(500, lines.Count);
        foreach (var line in lines)
        {
            var (n, least, expected) = (int.Parse(line[0], CultureInfo.InvariantCulture), Number(line[1]), Number(line[^1]));
            Place[] places = [.. Enumerable.Range(0, n).Select(i => new Place(Number(line[2 + 3 * i]), Number(line[3 + 3 * i]), Number(line[4 + 3 * i])))];
            var middle = places.Aggregate(default(Place), (sum, p) => sum + least * p);
            Place[] shrunk = [.. places.Select(p => (1 - n * least) * p + middle)];
            var found = Math.Sqrt(n == 2 ? Nearest.OnSegment(shrunk[0], shrunk[1]).Squared : Nearest.OnTriangle(shrunk[0], shrunk[1], shrunk[2]).Squared);
            Assert.Equal(expected, found, Math.Max(1e-4, 0.005 * expected));
        }
    }

    /// <summary>The slow obvious way: every pair and triple of nine solvents at every whole percent. Its best cannot beat the exact one, and lies within what a percent moves.</summary>
    [Fact]
    public void The_best_blend_is_what_a_grid_of_whole_percents_finds()
    {
        string[] shelf = ["acetone", "ethanol", "isooctane", "toluene", "ethyl acetate", "propan-2-ol", "water", "cyclohexane", "propylene carbonate"];
        foreach (BlendTarget target in (BlendTarget[])[Middle, new HansenTarget(new(19, 12, 18)), new TeasTarget(new(60, 20, 20)), new TeasTarget(new(25, 25, 50))])
        {
            var best = BlendSearch.Find(target, new(LeastPercent: 0, Shelf: shelf)).Value!.Blends[0];
            var grid = Grid(target, [.. shelf.Select(SolventTable.Get)]);
            Assert.InRange(best.Distance, 0, grid + 0.01);
            Assert.InRange(grid, best.Distance - 1e-9, best.Distance + 0.6);
            Assert.Equal(target.DistanceOf(best.Mixture)!.Value, best.Distance, 1e-6);
        }
    }

    [Fact]
    public void Blends_keep_every_limit()
    {
        var limits = new BlendLimits(3, 10, ["H351", "carcinogen", "H36"], 60, 140, 3);
        var answer = BlendSearch.Find(Middle, limits, 50).Value!;
        Assert.Equal(50, answer.Blends.Count);
        Assert.All(answer.Blends, b =>
        {
            Assert.InRange(b.Mixture.Parts.Count, 1, 3);
            Assert.Equal(1, b.Mixture.Parts.Sum(p => p.Fraction), 1e-9);
            Assert.All(b.Mixture.Parts, p =>
            {
                Assert.True(p.Fraction >= 0.1 - 1e-9);
                Assert.DoesNotContain(p.Solvent.HazardCodes, c => c.StartsWith("H35", StringComparison.Ordinal) || c.StartsWith("H36", StringComparison.Ordinal));
                Assert.InRange(p.Solvent.Boiling!.Value.Low, 60, 140);
            });
            var pressures = b.Mixture.Parts.Select(p => p.Solvent.VapourPressureKPa!.Value).ToList();
            Assert.True(pressures.Max() <= 3 * pressures.Min());
        });
        Assert.Contains(answer.LeftOut, o => o.Solvent.Name == "toluene" && o.Reason == "bears H36");
        Assert.Contains(answer.LeftOut, o => o.Solvent.Name == "acetone" && o.Reason.StartsWith("boils below 60", StringComparison.Ordinal));
    }

    [Fact]
    public void Nearer_comes_first_and_among_alike_the_fewest_parts()
    {
        var blends = BlendSearch.Find(new TeasTarget(new(47, 32, 21)), new()).Value!.Blends;
        Assert.Equal("acetone", Assert.Single(blends[0].Mixture.Parts).Solvent.Name);
        Assert.Equal(blends.Select(b => Math.Round(b.Distance, 2)).Order(), blends.Select(b => Math.Round(b.Distance, 2)));
    }

    [Fact]
    public void A_whole_table_is_compared()
    {
        var known = SolventTable.All.Count(s => s.Hansen is not null);
        Assert.Equal(known + known * (known - 1) / 2 + known * (known - 1) * (known - 2) / 6, BlendSearch.Find(Middle, new()).Value!.Compared);
    }

    [Fact]
    public void Invalid_limits_are_refused()
    {
        Assert.Equal("unknown-hazard", Assert.Throws<InputProblem>(() => BlendSearch.Find(Middle, new(Exclude: ["H3"]))).Code);
        Assert.Equal("unknown-hazard", Assert.Throws<InputProblem>(() => BlendSearch.Find(Middle, new(Exclude: ["poison"]))).Code);
        Assert.Equal("unknown-solvent", Assert.Throws<InputProblem>(() => BlendSearch.Find(Middle, new(Shelf: ["nectar"]))).Code);
        Assert.Throws<InputProblem>(() => BlendSearch.Find(Middle, new(MostParts: 4)));
        Assert.Throws<InputProblem>(() => BlendSearch.Find(Middle, new(LeastPercent: double.NaN)));
        Assert.NotNull(BlendSearch.Find(Middle, new(LeastBoilingC: 1000)).NoAnswer);
    }

    private static double Grid(BlendTarget target, Solvent[] shelf)
    {
        var best = double.PositiveInfinity;
        for (var i = 0; i < shelf.Length; i++)
            for (var j = i + 1; j < shelf.Length; j++)
                for (var k = j + 1; k < shelf.Length; k++)
                    for (var a = 0; a <= 100; a += 2)
                        for (var b = 0; a + b <= 100; b += 2)
                            best = Math.Min(best, target.DistanceOf(new([new(shelf[i], a / 100.0), new(shelf[j], b / 100.0), new(shelf[k], (100 - a - b) / 100.0)]))!.Value);
        return best;
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
