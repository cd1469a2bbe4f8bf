using Sandarac.Materials.Dating;

namespace Sandarac.Materials.Tests;

public class DatingTests
{
    private static DatingCheck Of(string pigment, int? from, int? to) => DatingCheck.Of(Pigment.Find(pigment)!, from, to);

    /// <summary>The table's Prussian blue, from 1704 on: both years belong to their spans.</summary>
    [Theory]
    [InlineData(1700, 1703, DatingVerdict.LaterThan)]
    [InlineData(1700, 1704, DatingVerdict.Consistent)]
    [InlineData(1704, 1704, DatingVerdict.Consistent)]
    [InlineData(1900, 1950, DatingVerdict.Consistent)]
    [InlineData(null, 1703, DatingVerdict.LaterThan)]
    [InlineData(null, 1704, DatingVerdict.Consistent)]
    [InlineData(1703, null, DatingVerdict.CannotBeTold)]
    [InlineData(1704, null, DatingVerdict.Consistent)]
    [InlineData(null, null, DatingVerdict.CannotBeTold)]
    public void Known_beginning_at_its_bounds(int? from, int? to, DatingVerdict verdict) => Assert.Equal(verdict, Of("Prussian blue", from, to).Verdict);

    /// <summary>The table's lead-tin yellow type I, 1400 to 1750.</summary>
    [Theory]
    [InlineData(1750, 1760, DatingVerdict.Consistent)]
    [InlineData(1751, 1760, DatingVerdict.EndsBefore)]
    [InlineData(1751, null, DatingVerdict.EndsBefore)]
    [InlineData(1390, 1399, DatingVerdict.LaterThan)]
    [InlineData(1390, 1400, DatingVerdict.Consistent)]
    [InlineData(null, 1500, DatingVerdict.CannotBeTold)]
    public void Known_end_at_its_bounds(int? from, int? to, DatingVerdict verdict) => Assert.Equal(verdict, Of("lead-tin yellow type I", from, to).Verdict);

    /// <summary>Titanium white, 1916, with the table's claim of about 1890.</summary>
    [Theory]
    [InlineData(1880, 1889, DatingVerdict.LaterThan)]
    [InlineData(1880, 1890, DatingVerdict.Contested)]
    [InlineData(1880, 1915, DatingVerdict.Contested)]
    [InlineData(1880, 1916, DatingVerdict.Consistent)]
    public void Known_contested_beginning(int from, int to, DatingVerdict verdict)
    {
        var check = Of("titanium white (anatase)", from, to);
        Assert.Equal(verdict, check.Verdict);
        if (verdict == DatingVerdict.Contested) Assert.Contains("others hold", check.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_claim_without_a_year_makes_any_earlier_year_contested() => Assert.Equal(DatingVerdict.Contested, Of("umber", 1200, 1300).Verdict);

    [Fact]
    public void Weak_contradictions_are_said_to_be_weak()
    {
        Assert.Contains("says little", Of("Prussian blue", 1690, 1700).Reason, StringComparison.Ordinal);
        Assert.DoesNotContain("says little", Of("Prussian blue", 1640, 1660).Reason, StringComparison.Ordinal);
        Assert.Contains("1 year after", Of("Prussian blue", 1690, 1703).Reason, StringComparison.Ordinal);
        Assert.Contains("retouching", Of("Prussian blue", 1640, 1660).Question, StringComparison.Ordinal);
    }

    [Fact]
    public void Invalid_years_are_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => Of("umber", 1700, 1600));

    /// <summary>Every pair of years and every row: the verdict agrees with a comparison year by year.</summary>
    [Fact]
    public void Verdicts_agree_with_counting_years()
    {
        foreach (var p in Pigment.All)
            for (var from = 1200; from <= 2000; from += 7)
            {
                var years = Enumerable.Range(from, 12).ToList();
                var common = years.Any(y => y >= p.From && y <= (p.RareAfter ?? int.MaxValue));
                Assert.Equal(common, DatingCheck.Of(p, years[0], years[^1]).Verdict == DatingVerdict.Consistent);
            }
    }

    [Fact]
    public void Every_row_carries_its_source_flag_and_years_in_order()
    {
        Assert.Equal(78, Pigment.All.Count);
        Assert.All(Pigment.All, p =>
        {
            Assert.True(p.Source.Length > 0 && (p.IsRead ? p.WhatWasRead.Length > 0 : p.Flag == "MEMORY"), p.Name);
            Assert.True(p.RareAfter is null || p.RareAfter > p.From, p.Name);
            Assert.True(p.ContestedFrom is null || p.ContestedFrom < p.From && p.Contested.Length > 0, p.Name);
        });
        Assert.Equal(78, Pigment.All.Select(p => p.Name).Distinct().Count());
    }

    [Fact]
    public void Pigments_by_part_of_their_name()
    {
        Assert.Equal(2, Pigment.Named("titanium white").Count);
        Assert.Single(Pigment.Named("Smalt"));
        Assert.Empty(Pigment.Named("no such thing"));
        Assert.Empty(Pigment.Named(" "));
    }
}
