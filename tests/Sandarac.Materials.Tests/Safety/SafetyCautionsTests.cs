using Sandarac.Materials.Safety;
using Sandarac.Materials.Solvents;

namespace Sandarac.Materials.Tests.Safety;

public class SafetyCautionsTests
{
    /// <summary>General chemistry, from memory: what every studio's first page of rules says.</summary>
    [Theory]
    [InlineData("sodium hypochlorite", "citric acid", "Chlorine")]
    [InlineData("ammonia (aq)", "Sodium Hypochlorite 5 %", "Chloramines")]
    [InlineData("acetone", "chloroform", "violently")]
    [InlineData("hydrogen peroxide", "acetone", "ketone peroxides")]
    [InlineData("dichloromethane", "sodium hydroxide", "Violent")]
    [InlineData("potassium permanganate", "2-methyltetrahydrofuran", "Heat or fire")]
    public void Known_pairs_are_warned_of_in_either_order(string first, string second, string word)
    {
        Assert.Contains(SafetyCautions.For([first, second]), c => c.Code == "incompatible" && c.Text.Contains(word, StringComparison.Ordinal) && c.IsUnverified);
        Assert.Contains(SafetyCautions.For([second, first]), c => c.Code == "incompatible" && c.Text.Contains(word, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("ethanol", "isooctane")]
    [InlineData("triethanolamine", "hydrogen peroxide")]
    public void Pairs_that_the_table_does_not_have_are_not_warned_of(string first, string second) => Assert.DoesNotContain(SafetyCautions.For([first, second]), c => c.Code == "incompatible");

    [Fact]
    public void A_solvent_has_its_statements_flash_point_and_limit_with_jurisdiction_and_date()
    {
        var cautions = SafetyCautions.For(["toluene"]);
        Assert.Contains(cautions, c => c.Text == "H361d: Suspected of damaging the unborn child." && c.IsUnverified);
        Assert.Contains(cautions, c => c is { Code: "flash-point", Text: "Flash point 4 C.", IsUnverified: false });
        Assert.Contains(cautions, c => c.Text == "Limit in the air of a workplace: day's mean 20 ppm (Ontario, Canada; as collected about 2016; today's may be lower).");
    }

    [Fact]
    public void Peroxide_formers_are_told_by_their_statement() => Assert.Contains(SafetyCautions.For(["THF"]), c => c.Text.Contains("May form explosive peroxides", StringComparison.Ordinal));

    [Fact]
    public void The_list_always_ends_with_who_decides_and_never_calls_anything_harmless()
    {
        Assert.Equal(SafetyCautions.Closing, Assert.Single(SafetyCautions.For([])));
        var all = SafetyCautions.For(SolventTable.All.Select(s => s.Name));
        Assert.Equal(SafetyCautions.Closing, all[^1]);
        Assert.DoesNotContain(all, c => c.Text.Replace("safety data sheet", "", StringComparison.Ordinal).Contains("safe", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void An_agent_that_is_not_in_the_table_says_so() => Assert.Contains(SafetyCautions.For(["enzyme gel"]), c => c is { Code: "unknown-agent", Subject: "enzyme gel" });
}
