using Sandarac.Materials.Pigments;

namespace Sandarac.Materials.Tests;

public class PigmentRulesTests
{
    /// <summary>Published pairs of pigments that look alike in visible light and come apart in false colour, as the table's read rows state them: azurite dark blue-violet, ultramarine red-magenta.</summary>
    [Fact]
    public void Known_blues_come_apart_in_false_colour()
    {
        var dark = PigmentRules.Find("dark moderate blue", 0.1, "medium strong blue");
        var bright = PigmentRules.Find("medium strong magenta", 0.8, "medium strong blue");
        Assert.Contains(dark.Candidates, c => c.Entry.Pigment == "azurite");
        Assert.DoesNotContain(dark.Candidates, c => c.Entry.Pigment == "ultramarine");
        Assert.Contains(bright.Candidates, c => c.Entry.Pigment == "ultramarine");
        Assert.DoesNotContain(bright.Candidates, c => c.Entry.Pigment == "azurite");
    }

    [Fact]
    public void Known_bright_yellow_false_colour_of_red_paint_is_consistent_with_several_reds()
    {
        var found = PigmentRules.Find("light strong yellow", 0.8, "medium strong red");
        Assert.Contains(found.Candidates, c => c.Entry.Pigment == "vermilion");
        Assert.Contains(found.Candidates, c => c.Entry.Pigment == "cadmium red");
        Assert.DoesNotContain(found.Candidates, c => c.Entry.Pigment == "lead white");
        Assert.All(found.Candidates, c => Assert.NotEmpty(c.Entry.Source));
    }

    /// <summary>Whatever a zone looks like, one pigment alone is never named.</summary>
    [Fact]
    public void One_candidate_alone_is_never_given()
    {
        string[] names = ["red", "orange", "yellow", "green", "blue-green", "blue", "violet", "magenta", "pink", "brown", "white", "grey", "black", "no colour"];
        foreach (var shifted in names)
            foreach (var visible in names.Append(null))
                foreach (var infrared in (double[])[0, 0.1, 0.3, 0.5, 0.7, 1, 1.4])
                {
                    var found = PigmentRules.Find(shifted, infrared, visible);
                    Assert.NotEqual(1, found.Candidates.Count);
                    Assert.True(found.Candidates.Count >= 2 || found.InMixtures.Count != 1);
                    Assert.Equal(found.Candidates.Count == 0, found.NoAnswer is not null);
                    Assert.NotEmpty(found.Cautions);
                    Assert.Equal(found.Candidates.OrderByDescending(c => c.Agreement).Select(c => c.Agreement), found.Candidates.Select(c => c.Agreement));
                }
    }

    [Fact]
    public void Near_a_bound_both_words_count()
    {
        // Prussian blue is dark, ochres are mid: just above the bound of dark neither may drop out.
        Assert.Contains(PigmentRules.Find("black", 0.28, "blue").Candidates.Concat(PigmentRules.Find("blue", 0.28, "blue").Candidates), c => c.Entry.Pigment == "Prussian blue");
        Assert.Contains(PigmentRules.Find("green", 0.28, "yellow").Candidates.Concat(PigmentRules.Find("yellow", 0.28, "red").Candidates), c => c.Entry.Pigment is "yellow ochre" or "red ochre / earth");
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(-0.1)]
    [InlineData(double.PositiveInfinity)]
    public void Invalid_infrared_is_refused(double infrared) => Assert.Throws<ArgumentOutOfRangeException>(() => PigmentRules.Find("red", infrared));

    /// <summary>Every row says where it is known from, and has words that the rules understand.</summary>
    [Fact]
    public void Every_row_carries_its_source_and_is_found_by_its_own_appearance()
    {
        Assert.Equal(46, PigmentAppearance.All.Count);
        foreach (var p in PigmentAppearance.All)
        {
            Assert.True(p.IsRead || p.Source.Contains("MEMORY", StringComparison.Ordinal), p.Pigment);
            var share = p.NearInfrared.Contains("bright", StringComparison.Ordinal) ? 0.9 : p.NearInfrared.StartsWith("mid", StringComparison.Ordinal) ? 0.4 : 0.1;
            Assert.Contains(PigmentRules.Find(p.FalseColour, share, p.VisibleColour).Candidates.Concat(PigmentRules.Find(p.FalseColour, share).Candidates), c => c.Entry == p);
        }
    }

    /// <summary>The table's own rows, each with its own look: visible colour makes the list shorter (529 instead of 915 lines in all), keeps the row, and drops nothing, for a mixture has a colour that none of its parts has.</summary>
    [Fact]
    public void Visible_colour_makes_the_list_shorter_and_excludes_nothing_from_mixtures()
    {
        var (without, with) = (0, 0);
        foreach (var p in PigmentAppearance.All)
        {
            var share = p.NearInfrared.Contains("bright", StringComparison.Ordinal) ? 0.9 : p.NearInfrared.StartsWith("mid", StringComparison.Ordinal) ? 0.4 : 0.1;
            var (all, seen) = (PigmentRules.Find(p.FalseColour, share), PigmentRules.Find(p.FalseColour, share, p.VisibleColour));
            Assert.Empty(all.InMixtures);
            if (all.Candidates.Count < 2) continue;
            Assert.Equal(all.Candidates.Select(c => c.Entry.Pigment).Order(StringComparer.Ordinal), seen.Candidates.Concat(seen.InMixtures).Select(c => c.Entry.Pigment).Order(StringComparer.Ordinal));
            Assert.Contains(seen.Candidates.Count > 0 ? seen.Candidates : seen.InMixtures, c => c.Entry == p);
            (without, with) = (without + all.Candidates.Count, with + seen.Candidates.Count);
        }
        Assert.InRange(with, 1, 0.6 * without);
    }

    /// <summary>Violet of ultramarine and a red lake: both are bright in infrared, the first red-magenta, the second yellow-orange in false colour, as the table says; neither is violet, and neither may be ruled out.</summary>
    [Fact]
    public void A_part_of_a_mixture_is_not_ruled_out_by_its_colour()
    {
        var found = PigmentRules.Find("light strong red", 0.8, "medium moderate violet");
        Assert.Contains(found.Candidates.Concat(found.InMixtures), c => c.Entry.Pigment == "ultramarine");
        Assert.Contains(found.InMixtures, c => c.Entry.Pigment == "madder lake");
        Assert.DoesNotContain(found.Candidates, c => c.Entry.Pigment == "madder lake");
    }
}
