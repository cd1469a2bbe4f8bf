using System.Globalization;
using System.Text.Json;
using Sandarac.Imaging;
using Sandarac.Imaging.Colour;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Plans;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Plans;

public sealed class AppearanceTests
{
    /// <summary>Machado, Oliveira, Fernandes, A physiologically-based model for simulation of color vision deficiency, IEEE TVCG 15 (2009) 1291-1298, severity 1, on linear sRGB; none for a grey print.</summary>
    private static readonly (string Name, double[][] Matrix)[] Eyes =
    [
        ("grey print", [[1, 0, 0], [0, 1, 0], [0, 0, 1]]),
        ("protanopia", [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]),
        ("deuteranopia", [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]),
        ("tritanopia", [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]]),
    ];

    [Fact]
    public void Every_term_has_letters_of_its_own_and_every_layer_an_outline_and_a_hatch()
    {
        Assert.Equal(Term.All.Select(t => t.Key).Order(StringComparer.Ordinal), Appearance.All.Select(a => a.Key).Where(k => k.Contains('/', StringComparison.Ordinal)).Order(StringComparer.Ordinal));
        Assert.Equal(Appearance.All.Count, Appearance.All.DistinctBy(a => a.Code.ToUpperInvariant()).Count());
        Assert.Equal(["note", "later-addition", "veiled-addition", "varnish-gap", "earlier-cleaning", "crack", "change"], Appearance.All.Select(a => a.Key).Where(k => !k.Contains('/', StringComparison.Ordinal)));
        var layers = Term.All.Where(t => t.Category == "condition").Select(t => t.Group).Distinct().Select(g => Appearance.All.First(a => a.Key.StartsWith($"{g}/", StringComparison.Ordinal))).ToList();
        Assert.Equal(9, layers.DistinctBy(a => (string.Join(' ', a.Outline.Dashes), a.Outline.WidthMm)).Count());
        // The matrices keep white white: each row sums to one.
        Assert.All(Eyes, e => Assert.All(e.Matrix, row => Assert.Equal(1, row.Sum(), 5)));
    }

    /// <summary>Every ink stands out from paper for every eye, by the 3 to 1 that WCAG 2.2, 1.4.11 asks of graphics.</summary>
    [Fact]
    public void Every_ink_is_seen_on_paper_by_every_eye()
    {
        foreach (var ink in Appearance.All.Select(a => a.Ink).Distinct())
            Assert.All(Eyes, e => Assert.True(1.05 / (Light(ink, e.Matrix) + 0.05) >= 3, $"{ink}, {e.Name}: {1.05 / (Light(ink, e.Matrix) + 0.05):0.00}"));
    }

    /// <summary>
    /// Every two hatches are told apart, in a grey print and by eyes with a colour deficiency: they lie at least twice as far from each other as either lies from itself printed at another place of the lattice, turned by up to
    /// two degrees, with noise of a twentieth of white; and each such print is nearest to its own hatch.
    /// </summary>
    [Fact, Trait("Speed", "slow")]
    public void Every_two_hatches_are_told_apart_by_every_eye()
    {
        var hatches = Distinct();
        var (random, seeds) = (new Random(5), hatches.Select((_, i) => i).ToArray());
        var plain = hatches.AsParallel().AsOrdered().Select(h => Patch.Of(h.Hatch)).ToArray();
        var moved = hatches.Select(h => (h, random.NextDouble() * 9, random.NextDouble() * 9, random.NextDouble() * 4 - 2)).AsParallel().AsOrdered().Select(m => Patch.Of(m.h.Hatch with { AngleDeg = m.h.Hatch.AngleDeg + m.Item4 }, m.Item2, m.Item3)).ToArray();
        foreach (var (eye, matrix) in Eyes)
        {
            double[] Print(float[] ink, Appearance a, int seed, double noise) => Printed(ink, Light(a.Ink, matrix), new Random(seed), noise);
            var sharp = seeds.AsParallel().AsOrdered().Select(i => Texture.Of(Print(plain[i], hatches[i], i, 0))).ToArray();
            var noisy = seeds.AsParallel().AsOrdered().Select(i => Texture.Of(Print(moved[i], hatches[i], i, 0.05))).ToArray();
            var spread = Texture.Spread(sharp);
            var own = seeds.Select(i => Texture.Distance(sharp[i], noisy[i], spread)).ToArray();
            var worst = seeds.SelectMany(i => seeds.Take(i).Select(j => (Ratio: Texture.Distance(sharp[i], sharp[j], spread) / Math.Max(own[i], own[j]), i, j))).Min();
            TestContext.Current.TestOutputHelper!.WriteLine($"{eye}: {hatches.Count} hatches; the nearest two, {hatches[worst.i].Name} and {hatches[worst.j].Name}, {worst.Ratio:0.0} times as far apart as either is from itself");
            Assert.True(worst.Ratio >= 2, $"{eye}: {hatches[worst.i].Name} and {hatches[worst.j].Name} are {worst.Ratio:0.00} times as far apart as either is from itself");
            Assert.All(seeds, i => Assert.Equal(i, seeds.MinBy(j => Texture.Distance(sharp[j], noisy[i], spread))));
        }
    }

    /// <summary>The measure against scikit-image's Gabor kernels and NumPy: tests/Sandarac.Studio.Tests/References/Textures/SOURCE.md.</summary>
    [Fact]
    public void Known_energies_of_the_filters()
    {
        var known = JsonSerializer.Deserialize<double[]>(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "References", "Textures", "energies.json")))!;
        var light = Enumerable.Range(0, Patch.Side * Patch.Side).Select(i => 0.5 + 0.3 * Math.Sin(0.4 * (i % Patch.Side) + 0.9 * (i / Patch.Side)) + 0.2 * Math.Cos(0.25 * (i % Patch.Side) * Math.Sin(i / Patch.Side / 20.0))).ToArray();
        Assert.All(known.Zip(Texture.Of(light)), k => Assert.Equal(k.First, k.Second, 1e-4));
    }

    [Fact]
    public void A_studio_changes_appearances_by_its_file_and_its_own_terms_have_letters()
    {
        using var home = new TemporaryStudio();
        new StudioTerms(home.Studio).Add("condition", "varnish", "sugar bloom", "grains of white", "marta");
        File.WriteAllText(Path.Combine(home.Folder, StudioAppearances.FileName), """{"varnish/bloom": {"code": "Bx1", "ink": "#000000", "cell": "2x3", "fine": "M0 1H2", "angle": 30, "outline": [2, 1]}}""");
        var all = StudioAppearances.Of(home.Studio);
        var bloom = all.Find("varnish/bloom");
        Assert.Equal(("Bx1", "#000000", 30, 2, 3), (bloom.Code, bloom.Ink, bloom.Hatch.AngleDeg, bloom.Hatch.WidthMm, bloom.Hatch.HeightMm));
        Assert.Equal([2, 1], bloom.Outline.Dashes);
        var own = all.Find("varnish/sugar bloom");
        Assert.Equal(Appearance.All.First(a => a.Key == "varnish/yellowing").Hatch, own.Hatch);
        Assert.Equal(all.All.Count, all.All.DistinctBy(a => a.Code.ToUpperInvariant()).Count());
        Assert.Equal(("later addition/retouching", "N"), (all.Find("retouching").Key, all.Find("never heard of").Code));
    }

    [Theory]
    [InlineData("""{"varnish/blom": {}}""")]
    [InlineData("""{"varnish/bloom": {"colour": "#000000"}}""")]
    [InlineData("""{"varnish/bloom": {"code": "Lo"}}""")]
    [InlineData("""{"varnish/bloom": {"code": "too long"}}""")]
    [InlineData("""{"varnish/bloom": {"ink": "#f0e442"}}""")]
    [InlineData("""{"varnish/bloom": {"ink": "red"}}""")]
    [InlineData("""{"varnish/bloom": {"fine": "M0 1H2"}}""")]
    [InlineData("""{"varnish/bloom": {"cell": "2x3", "fine": "M0 1Q2 2 3 3"}}""")]
    [InlineData("""{"varnish/bloom": {"cell": "2x3", "fine": "M0 1"}}""")]
    [InlineData("""{"varnish/bloom": {"cell": "2x3", "fine": "M0 1H900"}}""")]
    [InlineData("""{"varnish/bloom": {"cell": "0.1x3", "fine": "M0 1H2"}}""")]
    [InlineData("""{"varnish/bloom": {"outline": [0]}}""")]
    [InlineData("""{"varnish/bloom": null}""")]
    [InlineData("""["varnish/bloom"]""")]
    [InlineData("""{"varnish/bloom": """)]
    public void Invalid_files_are_refused_with_what_is_wrong(string json)
    {
        using var home = new TemporaryStudio();
        File.WriteAllText(Path.Combine(home.Folder, StudioAppearances.FileName), json);
        Assert.Equal("appearances", Assert.Throws<InputProblem>(() => StudioAppearances.Of(home.Studio)).Code);
    }

    /// <summary>Each hatch once: those of terms that have one of their own, and of each family.</summary>
    private static List<Appearance> Distinct() => [.. Appearance.All.Where(a => a.Hatch.Strokes.Count > 0).OrderBy(a => a.HasOwnHatch).DistinctBy(a => a.Hatch)];

    /// <summary>What of light the ink throws back, 0 to 1, as an eye sees it.</summary>
    private static double Light(string ink, double[][] eye)
    {
        double[] linear = [.. new[] { 1, 3, 5 }.Select(i => Srgb.ToLight(int.Parse(ink.AsSpan(i, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0))];
        return eye.Zip([0.2126, 0.7152, 0.0722], (row, share) => share * Math.Clamp(row.Zip(linear, (m, l) => m * l).Sum(), 0, 1)).Sum();
    }

    private static double[] Printed(float[] ink, double light, Random random, double noise) =>
        [.. ink.Select(share => Math.Clamp(1 - share * (1 - light) + noise * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()), 0, 1))];
}
