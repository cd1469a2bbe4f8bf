using Sandarac.Materials.Luminescence;

namespace Sandarac.Materials.Tests;

public class LuminescenceRulesTests
{
    /// <summary>As the table's read rows state it: aged natural resin greenish-yellow; orange shellac; madder pink-orange.</summary>
    [Theory]
    [InlineData("light weak yellow", "dammar / mastic, aged")]
    [InlineData("light moderate orange", "shellac")]
    [InlineData("medium moderate pink", "madder lake")]
    public void Known_colours_of_luminescence_are_consistent_with_their_materials(string colour, string material)
    {
        var found = LuminescenceRules.Find(colour, dark: false);
        Assert.Contains(found.Candidates, c => c.Entry.Material == material);
        Assert.True(found.Candidates.Count >= 2);
    }

    [Fact]
    public void Dark_is_consistent_with_retouching_and_with_original_paint_that_quenches()
    {
        var found = LuminescenceRules.Find("black", dark: true);
        Assert.Contains(found.Candidates, c => c.Entry.Material == "retouching over varnish");
        Assert.Contains(found.Candidates, c => c.Entry.Material.StartsWith("copper greens/blues", StringComparison.Ordinal));
        Assert.Contains(found.Candidates, c => c.Entry.Material.StartsWith("synthetic resins", StringComparison.Ordinal));
        Assert.DoesNotContain(found.Candidates, c => c.Entry.Material == "shellac");
    }

    [Fact]
    public void What_luminescence_does_not_show_is_always_said()
    {
        foreach (var (colour, dark) in ((string, bool)[])[("yellow", false), ("black", true), ("no colour", false)])
        {
            var found = LuminescenceRules.Find(colour, dark);
            Assert.NotEqual(1, found.Candidates.Count);
            Assert.Contains(found.Cautions, c => c.StartsWith("surface dirt", StringComparison.Ordinal) && c.Contains("READ", StringComparison.Ordinal));
            Assert.Contains(found.Cautions, c => c.Contains("absence is not proof of no varnish", StringComparison.Ordinal));
            Assert.Contains(found.Cautions, c => c.StartsWith("old retouching", StringComparison.Ordinal) && c.Contains("may match", StringComparison.Ordinal));
        }
    }

    [Fact]
    public void A_colour_that_no_row_has_gets_no_answer() => Assert.NotNull(LuminescenceRules.Find("no colour", dark: false).NoAnswer);
}
