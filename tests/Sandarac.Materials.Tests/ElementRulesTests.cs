using Sandarac.Materials.Dating;

namespace Sandarac.Materials.Tests;

public class ElementRulesTests
{
    private static string[] Names(string[] seen, string[] untold, string? colour = null) => [.. ElementRules.Find(seen, untold, colour).Candidates.Select(c => c.Entry.Name)];

    /// <summary>Formulas of the table: lead stannate has lead and tin, lead antimonate lead and antimony.</summary>
    [Fact]
    public void Known_yellows_come_apart_by_their_elements()
    {
        Assert.Contains("lead-tin yellow type I", Names(["Pb", "Sn"], []));
        Assert.DoesNotContain("Naples yellow", Names(["Pb", "Sn"], []));
        Assert.Contains("Naples yellow", Names(["Pb", "Sb"], []));
        Assert.Contains("lead white", Names(["Pb", "Sb"], []));
    }

    [Fact]
    public void What_cannot_be_told_rules_nothing_out_and_names_nothing_alone()
    {
        Assert.Contains("emerald green (Schweinfurt)", Names(["Cu"], ["As"]));
        Assert.DoesNotContain("emerald green (Schweinfurt)", Names(["Cu"], []));
        Assert.DoesNotContain("orpiment", Names(["Pb"], ["As"]));
    }

    [Fact]
    public void Light_elements_may_be_missing()
    {
        var found = ElementRules.Find(["Co"], []);
        Assert.Contains("Al expected and not seen", found.Candidates.Single(c => c.Entry.Name == "cobalt blue").Reason, StringComparison.Ordinal);
        Assert.DoesNotContain("cerulean blue", found.Candidates.Select(c => c.Entry.Name));
    }

    [Fact]
    public void Colour_makes_the_list_shorter()
    {
        Assert.DoesNotContain("red lead (minium)", Names(["Pb"], [], "white"));
        Assert.Contains("lead white", Names(["Pb"], [], "pale white"));
    }

    /// <summary>Whatever is seen, one pigment alone is never named.</summary>
    [Fact]
    public void One_candidate_alone_is_never_given()
    {
        string[] all = ["Pb", "Zn", "Ba", "Ti", "Ca", "Sr", "Sb", "K", "Fe", "Hg", "Mn", "As", "Cd", "Se", "Sn", "Cu", "Cr", "Co", "Au", "S"];
        foreach (var a in all)
            foreach (var b in all)
            {
                var found = ElementRules.Find([a, b], []);
                Assert.NotEqual(1, found.Candidates.Count);
                Assert.Equal(found.Candidates.Count == 0, found.NoAnswer is not null);
                Assert.NotEmpty(found.Cautions);
            }
    }
}
