using System.Text.RegularExpressions;
using Sandarac.Analysis.Declaring;
using Sandarac.Materials.Safety;
using Sandarac.Materials.Solvents;
using Sandarac.Materials.Terms;
using Sandarac.Server.Pages;
using Sandarac.Server.Pages.Language;

namespace Sandarac.Server.Tests.Language;

/// <summary>What the studio, its readings and its terms say in English, against the Spanish tables.</summary>
public sealed class RecordTextTests
{
    /// <summary>Where the problems come from that a person meets at a form of a page.</summary>
    private static readonly string[] Forms =
    [
        "Studio/Findings/Findings.cs", "Studio/Findings/Candidates.cs", "Studio/Findings/StudioTerms.cs", "Studio/Search/Searching.cs", "Studio/Operations/Samples.cs", "Studio/Operations/SectionLayers.cs",
        "Studio/Operations/Stages.cs", "Studio/Operations/Relations.cs", "Studio/Operations/WrittenRecords.cs", "Studio/Record/Lookups.cs", "Server/Api/RowLookup.cs", "Server/Pages/Shared/Entered.cs", "Server/Pages/Findings/CandidateList.razor",
        "Server/Pages/BuildingUp/RelationForm.razor", "Studio/BuildUp/Dating.cs", "Studio/Checks/ConditionStates.cs", "Server/Pages/Plans/PlanPage.razor", "Server/Pages/Walks/PresentPage.razor",
        "Studio/Places/OnTheFace.cs", "Studio/Operations/Identity.cs", "Server/Pages/Shared/IdentityForm.razor", "Studio/Cleaning/CleaningTests.cs", "Studio/Cleaning/AgentText.cs", "Studio/Cleaning/TestFlags.cs", "Studio/Cleaning/PlanGaps.cs",
        "Studio/Treatment/Proposals.cs", "Studio/Treatment/Approvals.cs",
        "Studio/Treatment/TreatmentSteps.cs", "Studio/Treatment/TreatmentLog.cs", "Studio/Treatment/StepWork.cs", "Studio/Treatment/WorkEstimates.cs", "Studio/Checks/FrozenText.cs",
        "Studio/Decisions/StudioShelf.cs", "Studio/Decisions/StudioRegions.cs", "Server/Pages/Solvents/RegionForm.razor", "Server/Pages/Shared/Calculator.cs", "Materials/Given.cs", "Materials/Solvents/Mixture.cs", "Materials/Solvents/TeasFractions.cs",
        "Materials/Solvents/SolubilityRegion.cs", "Materials/Solvents/SolventTable.cs", "Materials/Solvents/BlendTarget.cs", "Materials/Solvents/BlendLimits.cs", "Materials/Aqueous/BufferSystem.cs", "Materials/Aqueous/BufferSolution.cs",
    ];

    private static readonly IReadOnlyDictionary<string, string> Table = Sources.Table("Record");

    /// <summary>What the tables of solvents and their hazards say in sentences.</summary>
    private static readonly string[] TablesOfMaterials =
        [.. HazardStatement.All.Select(h => $"{h.Code}: {h.Statement}."), .. Incompatibility.All.Select(i => i.Danger), .. SolventTable.All.Select(s => s.Caution).Where(c => c.Length > 0)];

    [Fact]
    public void Every_sentence_of_the_tables_of_materials_has_a_translation() => Assert.Empty(TablesOfMaterials.Where(s => !Table.ContainsKey(s)).Distinct());

    [Fact]
    public void Every_problem_of_a_form_has_a_translation()
    {
        var sentences = Forms.SelectMany(f => Sources.Literals(File.ReadAllText(Path.Combine(Sources.Root, "src", $"Sandarac.{f}")))).Where(IsSentence).Distinct().ToList();
        Assert.True(sentences.Count > 90, $"Only {sentences.Count} sentences were found.");
        Assert.Empty(sentences.Where(s => !Table.ContainsKey(s) && !Table.Keys.Any(Sources.Filled(s).IsMatch)).ToList());
    }

    [Fact]
    public void Every_translated_sentence_is_said_somewhere()
    {
        var said = new[] { "Studio", "Analysis", "Materials", "Server" }.SelectMany(p => Sources.In(Path.Combine(Sources.Root, "src", $"Sandarac.{p}"), ".cs", ".razor")).Where(s => !s.File.EndsWith(".razor", StringComparison.Ordinal) || s.Text.Contains("@code {", StringComparison.Ordinal)).SelectMany(s => Sources.Literals(s.Text)).Concat(TablesOfMaterials).ToHashSet();
        var filled = said.Where(s => s.Contains("{0}", StringComparison.Ordinal) && s.Count(char.IsLetter) > 8).Select(Sources.Filled).ToList();
        Assert.Empty(Table.Keys.Where(k => k.Contains(' ', StringComparison.Ordinal) && !said.Contains(k) && !filled.Any(f => f.IsMatch(k)) && !Pieces(k).All(p => said.Any(s => s.Contains(p, StringComparison.Ordinal)))).ToList());
    }

    [Fact]
    public void What_was_filled_in_is_carried_over()
    {
        using var _ = new InSpanish();
        Assert.Equal("Desde: «soon» no es una fecha.", RecordText.Told("Desde: \"soon\" is not a date."));
        Assert.Equal("31,5 mm desde la izquierda, 70,1 mm desde abajo", RecordText.Told("31.5 mm from left, 70.1 mm from bottom"));
        Assert.Equal("El hallazgo 12 se ha modificado desde que se guardó.", RecordText.Told("Finding 12 was written on since it was kept."));
        Assert.Equal("rojo, sombras", RecordText.Told("red, shadows"));
        Assert.Equal("«IR» en el nombre del archivo, «infrared» en la descripción del archivo", RecordText.Told("\"IR\" in the file name, \"infrared\" in the file's description"));
        // A word of the studio's own is told too where the translation asks for it; a zone of that name is a person's.
        Assert.Equal("Solo hay un punto previsto para la capa de barniz: prevea al menos dos.", RecordText.Told("Only one spot is planned for varnish: plan at least two."));
        Assert.Contains("varnish", RecordText.Told("The zone \"varnish\" was deleted."), StringComparison.Ordinal);
        Assert.Equal("Esta muestra se cambió entretanto.", RecordText.Told("This sample was changed meanwhile."));
    }

    [Fact]
    public void What_has_no_translation_stays_English()
    {
        using var _ = new InSpanish();
        Assert.Null(RecordText.Translation("The lower right is 1.4 stops darker than the middle."));
        Assert.Equal("as it is", RecordText.Told("as it is"));
    }

    [Fact]
    public void Every_reading_and_its_parts_have_a_name()
    {
        var names = ReadingCatalogue.All.Select(r => r.Declaration).SelectMany(d => d.Parameters.Select(p => p.Label).Concat(d.Figures.Select(f => f.Title)).Concat(d.Rasters.Select(r => r.Title))
            .Concat(d.Inputs.Select(i => new ReadingForm.Slot(i, []).Title)).Append(d.Title)).Distinct().ToHashSet();
        var table = Sources.Table("Readings");
        using var _ = new InSpanish();
        Assert.Empty(names.Where(n => !table.ContainsKey(n) && ReadingText.Named(n) == n).ToList());
        var texts = ReadingCatalogue.All.Select(r => r.Declaration).SelectMany(d => d.Parameters.Select(p => p.Help).Concat(d.Inputs.Select(i => i.Help)).Append(d.Summary));
        Assert.Empty(table.Keys.Except(names).Except(texts));
    }

    [Fact]
    public void Every_term_and_group_has_a_name()
    {
        var keys = Term.All.SelectMany(t => new[] { t.Key, t.Group, t.Category }).ToHashSet();
        Assert.Equal(keys.Order(StringComparer.Ordinal), Sources.Table("Terms").Keys.Order(StringComparer.Ordinal));
        using var _ = new InSpanish();
        Assert.Equal(("pasmado", "barniz", "ours"), (TermText.Name("varnish/bloom"), TermText.Group("varnish"), TermText.Name("varnish/ours")));
    }

    /// <summary>What a sentence says between its places: the studio may put it together of several texts.</summary>
    private static IEnumerable<string> Pieces(string sentence) => Regex.Split(sentence, "\"?\\{\\d\\}\"?").Select(p => p.Trim(' ', '.')).Where(p => p.Length > 2);

    private static bool IsSentence(string text) => text.Length > 12 && text[^1] == '.' && (char.IsUpper(text[0]) || text[0] is '"' or '{') && text.Contains(' ', StringComparison.Ordinal);
}
