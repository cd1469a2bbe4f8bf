using System.Globalization;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Rings;
using Sandarac.Analysis.Rings.Dating;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Rings;

public class CrossDatingTests
{
    private static readonly double[] Worked = [100, 120, 90, 110, 130, 80, 95, 140, 105, 100];

    /// <summary>Worked by hand from the definitions of Baillie and Pilcher (1973) and Hollstein (1980).</summary>
    [Fact]
    public void Known_transforms()
    {
        Equal([double.NaN, double.NaN, 4.404499, 4.642211, 4.857584, 4.277667, 4.458567, 4.902422, double.NaN, double.NaN], RingTransform.BailliePilcher(Worked), 6);
        Equal([double.NaN, 7.9181, -12.4939, 8.7150, 7.2551, -21.0853, 7.4634, 16.8404, -12.4939, -2.1189], RingTransform.Hollstein(Worked), 4);
    }

    [Fact]
    public void A_ring_that_is_absent_or_unmeasured_gives_no_value_instead_of_an_infinite_one()
    {
        Assert.Equal([4, 5, 6, 8], Where(RingTransform.BailliePilcher([1, double.NaN, 1, 1, 2, 3, 4, 0, 1, 1, 1])));
        Assert.All(RingTransform.Hollstein([1, 0, 1, 2]).Take(3), v => Assert.True(double.IsNaN(v)));
    }

    /// <summary>t = r sqrt(f / (1 - r^2)), worked by hand for both conventions.</summary>
    [Theory]
    [InlineData(0.45, 100, 4.9884, 4.8855)]
    [InlineData(0.5, 60, 4.3970, 4.2426)]
    [InlineData(0.6, 150, 9.1241, 9.0000)]
    public void Known_t(double r, int pairs, double t, double strict)
    {
        Assert.Equal(t, TValue.Of(r, pairs, TConvention.Pairs), 4);
        Assert.Equal(strict, TValue.Of(r, pairs, TConvention.LessFourYears), 4);
    }

    [Theory]
    [InlineData(50, 0.4509)]
    [InlineData(80, 0.3684)]
    [InlineData(100, 0.3333)]
    [InlineData(150, 0.2765)]
    public void Known_correlation_for_the_threshold(int pairs, double r) => Assert.Equal(r, TValue.Correlation(3.5, pairs, TConvention.Pairs), 4);

    /// <summary>50 + 50 z / sqrt(n), one-sided, z of the normal distribution (scipy.stats.norm.isf, SciPy 1.10.1); for 50 the exact figure is 66.449.</summary>
    [Theory]
    [InlineData(30, 65.0, 71.2, 78.2)]
    [InlineData(50, 61.6, 66.4, 71.9)]
    [InlineData(80, 59.2, 63.0, 67.3)]
    [InlineData(100, 58.2, 61.6, 65.5)]
    [InlineData(150, 56.7, 59.5, 62.6)]
    [InlineData(200, 55.8, 58.2, 60.9)]
    public void Known_limits_of_parallel_variation(int n, double p95, double p99, double p999) =>
        Assert.Equal([p95, p99, p999], new[] { 0.95, 0.99, 0.999 }.Select(p => Math.Round(100 * ParallelVariation.Limit(n, p), 1)));

    [Fact]
    public void Ties_count_half()
    {
        var found = ParallelVariation.Of([1, -1, 0, 1, double.NaN, 0], [2, 1, 1, 0.5, 1, 0]);
        Assert.Equal((0.6, 5), (found.Share, found.Changes));
    }

    /// <summary>Every series of two public files against the mean of the others: best position, N, r, t, chance and coefficient as NumPy and SciPy have them (References/Rings/SOURCE.md).</summary>
    [Theory]
    [InlineData("co021", "bp", "plain")]
    [InlineData("co021", "bp", "biweight")]
    [InlineData("nc004", "bp", "biweight")]
    [InlineData("nc004", "hollstein", "plain")]
    public void Known_matches_of_an_independent_program(string file, string transform, string mean)
    {
        var series = RingReference.Series(file + ".rwl");
        var settings = new CrossDatingSettings { Transform = transform == "bp" ? RingTransformKind.BailliePilcher : RingTransformKind.Hollstein, Mean = mean == "plain" ? MasterMean.Plain : MasterMean.Biweight };
        var rows = CsvRows.Read(File.ReadAllText(RingReference.Path("crossdates.csv"))).Where(r => r.Fields[0] == file && r.Fields[2] == transform && r.Fields[3] == mean).ToList();
        Assert.Equal(series.Count, rows.Count);
        foreach (var f in rows.Select(r => r.Fields))
        {
            double At(int i) => double.Parse(f[i], CultureInfo.InvariantCulture);
            var reference = DatedReference.Of(file, [.. series.Where(s => s.Id != f[1])], settings.Transform, settings.Mean);
            var matches = CrossDating.Slide(series.First(s => s.Id == f[1]).WithoutDates(), reference, settings);
            var best = matches[0];
            Assert.Equal((At(4), At(5), At(6), At(11)), (matches.Count, best.EndYear, best.Pairs, best.Parallel.Changes));
            Assert.Equal(At(7), best.Correlation, 8);
            Assert.Equal(At(8), best.T, 1e-7 * At(8));
            Assert.Equal(At(9), TValue.Of(best.Correlation, best.Pairs, TConvention.LessFourYears), 1e-7 * At(9));
            Assert.Equal(At(10), best.Parallel.Share, 1e-9);
            // Beyond this both libraries' tails run out of digits.
            if (At(12) > 1e-300) Assert.Equal(Math.Log(At(12)), Math.Log(TValue.Chance(best.T, best.Pairs, TConvention.Pairs)), 1e-4 * Math.Abs(Math.Log(At(12))));
            Assert.Equal((At(13), At(14)), (matches[1].EndYear, Math.Round(matches[1].T, 9)), (x, y) => x.Item1 == y.Item1 && Math.Abs(x.Item2 - y.Item2) < 1e-7);
        }
    }

    /// <summary>Leaving each series out of its own master: the true date is the witness, as the collectors have it.</summary>
    [Theory]
    [InlineData("co021.rwl", 35)]
    [InlineData("nc004.rwl", 30)]
    public void Every_whole_series_finds_its_date_in_the_master_of_the_others(string file, int found)
    {
        var series = RingReference.Series(file);
        Assert.Equal(found, series.Count(s => Date(s, [.. series.Where(o => o != s)]) == s.LastYear));
    }

    /// <summary>Stretches of 100 rings, about what a board shows: found, not found, and never wrong in these files.</summary>
    [Theory]
    [InlineData("co021.rwl", 160, 0)]
    [InlineData("nc004.rwl", 40, 0)]
    public void Short_stretches_find_their_date_or_none(string file, int atLeast, int wrong)
    {
        var series = RingReference.Series(file);
        var dates = RingReference.Stretches(series, 100).Select(s => (Found: Date(s.Sample, [.. series.Where(o => o != s.Whole)]), s.End)).ToList();
        TestContext.Current.SendDiagnosticMessage($"{file}: {dates.Count(d => d.Found == d.End)} of {dates.Count} found, {dates.Count(d => d.Found is { } f && f != d.End)} wrong");
        Assert.True(dates.Count(d => d.Found == d.End) >= atLeast, $"{dates.Count(d => d.Found == d.End)} of {dates.Count}");
        Assert.Equal(wrong, dates.Count(d => d.Found is { } f && f != d.End));
    }

    /// <summary>Trees of another climate and time have no date in a reference: whatever is proposed is false. The rule's level is 1 in 100 a reference.</summary>
    [Theory]
    [InlineData("co021.rwl", "nc004.rwl")]
    [InlineData("nc004.rwl", "co021.rwl")]
    public void Wrong_references_are_refused(string sample, string against)
    {
        var reference = RingReference.Series(against);
        var stretches = RingReference.Series(sample).Select(s => (Sample: s.WithoutDates(), 0)).Concat(new[] { 60, 100, 150 }.SelectMany(n => RingReference.Stretches(RingReference.Series(sample), n).Select(s => (s.Sample, 0)))).ToList();
        var accepted = stretches.Count(s => Date(s.Sample, reference) is not null);
        TestContext.Current.SendDiagnosticMessage($"{sample} against {against}: {accepted} of {stretches.Count} accepted");
        Assert.True(accepted <= Math.Max(1, 0.02 * stretches.Count), $"{accepted} of {stretches.Count}");
    }

    [Fact]
    public void A_date_needs_references_that_agree()
    {
        var series = RingReference.Series("co021.rwl");
        var sample = series[3].WithoutDates();
        IReadOnlyList<RingWidths> odd = [.. series.Skip(4).Where((_, i) => i % 2 == 1)], even = [.. series.Skip(4).Where((_, i) => i % 2 == 0)], moved = [.. even.Select(s => s.EndingIn(s.LastYear + 7))];
        DatingResult Against(params IReadOnlyList<RingWidths>[] references) => DatingResult.Of(sample, [.. references.Select((r, i) => ($"{i}", r))], new());
        Assert.Equal((DatingStrength.Agreed, series[3].LastYear), (Against(odd, even).Strength, Against(odd, even).LastRing));
        Assert.Equal((DatingStrength.OneReference, series[3].LastYear), (Against(odd, RingReference.Series("nc004.rwl")).Strength, Against(odd).LastRing));
        Assert.Equal((DatingStrength.Contradicted, (int?)null), (Against(odd, moved).Strength, Against(odd, moved).LastRing));
        Assert.Equal(DatingStrength.NoDate, Against(RingReference.Series("nc004.rwl")).Strength);
    }

    [Fact]
    public void Degenerate_samples_have_no_date()
    {
        var reference = RingReference.Series("nc004.rwl");
        foreach (var widths in new double[][] { [], [1], [.. Enumerable.Repeat(1.0, 100)], [.. Enumerable.Repeat(double.NaN, 100)], [.. Enumerable.Repeat(0.0, 100)], [.. Enumerable.Range(0, 30).Select(i => 1 + i % 3.0)] })
            Assert.Null(DatingResult.Of(new RingWidths("x", 1, widths, false), [("nc", reference)], new()).LastRing);
        Assert.Equal("minimum-overlap", Assert.Throws<InputProblem>(() => DatingResult.Of(reference[0], [("nc", reference)], new() { MinimumOverlap = 3 })).Code);
        Assert.Equal("reference-undated", Assert.Throws<InputProblem>(() => DatingResult.Of(reference[0], [("nc", [reference[1].WithoutDates()])], new())).Code);
    }

    [Fact]
    public void Extreme_spans_of_years_do_not_exhaust_the_machine()
    {
        RingWidths far = new("old", -14000, [1, 2, 1]), near = new("new", 2000, [1, 2, 1]);
        Assert.Null(DatingResult.Of(new RingWidths("x", 1, [.. Enumerable.Range(0, 200).Select(i => 1 + 0.1 * (i * 7919 % 13))], false), [("far", [far, near])], new()).LastRing);
    }

    private static int? Date(RingWidths sample, IReadOnlyList<RingWidths> reference) => DatingResult.Of(sample.WithoutDates(), [("reference", reference)], new()).LastRing;

    private static IEnumerable<int> Where(double[] values) => values.Select((v, i) => double.IsFinite(v) ? i : -1).Where(i => i >= 0);

    private static void Equal(double[] expected, double[] actual, int digits)
    {
        Assert.Equal(expected.Length, actual.Length);
        foreach (var (e, a) in expected.Zip(actual)) Assert.Equal(e, a, digits);
    }
}
