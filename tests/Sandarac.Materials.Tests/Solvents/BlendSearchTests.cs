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
        string[] shelf = ["acetone", "ethanol", "isooctane", "toluene", "ethyl acetate", "propan-2-ol", "butan-2-ol", "cyclohexane", "diacetone alcohol"];
        foreach (BlendTarget target in (BlendTarget[])[Middle, new HansenTarget(new(19, 12, 18)), new TeasTarget(new(60, 20, 20)), new TeasTarget(new(25, 25, 50))])
        {
            var best = BlendSearch.Find(target, new(LeastPercent: 0, Shelf: shelf)).Value!.Blends[0];
            var grid = Grid(target, [.. shelf.Select(SolventTable.Get)]);
            Assert.InRange(best.Distance, 0, grid + target.Alike);
            Assert.InRange(grid, best.Distance - target.Alike, best.Distance + 0.6);
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

    /// <summary>Raoult's law by another route: what is left of each blend grows no stronger at any point of its drift. Without the limit some do.</summary>
    [Fact]
    public void What_is_left_grows_no_stronger_where_the_strong_part_leaves_first()
    {
        foreach (BlendTarget target in new BlendTarget[] { Middle, new TeasTarget(new(70, 12, 18)) })
        {
            Assert.All(Mixed(target, new(StrongFirst: true)), b => Assert.False(GrowsStronger(target, b.Mixture), b.Mixture.Text));
            Assert.Contains(Mixed(target, new()), b => GrowsStronger(target, b.Mixture));
        }
        IReadOnlyList<Blend> Mixed(BlendTarget target, BlendLimits limits) => [.. BlendSearch.Find(target, limits, 300).Value!.Blends.Where(b => b.Mixture.Parts.Count > 1 && EvaporationDrift.Of(b.Mixture).Value is not null)];
        bool GrowsStronger(BlendTarget target, Mixture mixture) => EvaporationDrift.Of(mixture).Value!.Points.Select(p => p.Left.Parts.Sum(x => x.Fraction * target.StrengthOf(x.Solvent))).ToList() is var strength
            && strength.Zip(strength.Skip(1)).Any(s => s.Second > s.First + 1e-9);
    }

    [Fact]
    public void Nearer_comes_first_and_among_alike_the_fewest_parts()
    {
        var blends = BlendSearch.Find(new TeasTarget(new(47, 32, 21)), new()).Value!.Blends;
        Assert.Equal("acetone", Assert.Single(blends[0].Mixture.Parts).Solvent.Name);
        Assert.Equal(blends.Select(b => Math.Round(2 * b.Distance)).Order(), blends.Select(b => Math.Round(2 * b.Distance)));
    }

    /// <summary>Counted the slow way: every single, pair and triple whose members mix.</summary>
    [Fact]
    public void A_whole_table_is_compared()
    {
        Solvent[] all = [.. SolventTable.All.Where(s => s.Hansen is not null && s.Name != "ammonia (aq)")];
        var pairs = all.SelectMany((a, i) => all.Skip(i + 1).Where(b => !Miscibility.PartInto(a, b)).Select(b => (a, b))).ToList();
        var triples = pairs.Sum(p => all.SkipWhile(s => s != p.b).Skip(1).Count(c => !Miscibility.PartInto(p.a, c) && !Miscibility.PartInto(p.b, c)));
        Assert.Equal(all.Length + pairs.Count + triples, BlendSearch.Find(Middle, new()).Value!.Compared);
    }

    /// <summary>Usual charts of miscibility, from memory: water and isooctane, dimethyl sulfoxide and heptane part; ethanol mixes with all of them, acetone with water.</summary>
    [Fact]
    public void Known_pairs_that_part_are_never_proposed_and_are_noted_in_a_mixture()
    {
        Assert.True(Miscibility.PartInto(SolventTable.Get("water"), SolventTable.Get("isooctane")));
        Assert.True(Miscibility.PartInto(SolventTable.Get("heptane"), SolventTable.Get("DMSO")));
        Assert.False(Miscibility.PartInto(SolventTable.Get("ethanol"), SolventTable.Get("isooctane")));
        Assert.False(Miscibility.PartInto(SolventTable.Get("acetone"), SolventTable.Get("water")));
        Assert.All(BlendSearch.Find(new TeasTarget(new(60, 20, 20)), new(), 200).Value!.Blends, b => Assert.Null(Miscibility.Note(b.Mixture)));
        Assert.Contains("water and isooctane", Miscibility.Note(Mixture.Parse("water 10 + isooctane 10 + propan-2-ol 80")), StringComparison.Ordinal);
    }

    /// <summary>Without a least share every part is wanted; with one, a part that is held at it must still bring the blend nearer than without it.</summary>
    [Fact]
    public void A_part_that_does_not_bring_a_blend_nearer_is_left_out()
    {
        foreach (var blend in BlendSearch.Find(Middle, new(LeastPercent: 10), 300).Value!.Blends.Where(b => b.Mixture.Parts.Count > 1))
            foreach (var part in blend.Mixture.Parts)
            {
                string[] others = [.. blend.Mixture.Parts.Where(p => p != part).Select(p => p.Solvent.Name)];
                Assert.True(BlendSearch.Find(Middle, new(LeastPercent: 10, Shelf: others), 20).Value!.Blends.Where(b => b.Mixture.Parts.Count == others.Length).All(b => b.Distance >= blend.Distance - 1e-9), blend.Mixture.Text);
            }
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
