using System.Globalization;
using System.Text;

namespace Sandarac.Analysis.Declaring;

/// <summary>Writes the pages of the readings from their declarations; nothing in them is written by hand.</summary>
public static class ReadingDocuments
{
    /// <summary>Writes one page for each reading and an index into a folder, and removes pages of readings that are gone.</summary>
    /// <param name="folder">docs/readings; made when missing.</param>
    public static void Write(string folder)
    {
        Directory.CreateDirectory(folder);
        var pages = Pages();
        foreach (var old in Directory.GetFiles(folder, "*.md").Where(f => !pages.ContainsKey(Path.GetFileName(f)))) File.Delete(old);
        foreach (var (name, text) in pages) File.WriteAllText(Path.Combine(folder, name), text);
    }

    /// <summary>File name and text of every page.</summary>
    public static IReadOnlyDictionary<string, string> Pages() => ReadingCatalogue.All.ToDictionary(r => $"{r.Declaration.Id}.md", r => Markdown(r.Declaration))
        .Append(new("README.md", Index())).ToDictionary();

    /// <summary>The page of one reading.</summary>
    public static string Markdown(Declaration d)
    {
        var page = new StringBuilder();
        page.Append(CultureInfo.InvariantCulture, $"<!-- Made from the reading's declaration by `sandarac readings --docs docs/readings`. Do not edit. -->\n# {d.Title}\n\n");
        page.Append(CultureInfo.InvariantCulture, $"`{d.Id}`, version {d.Version}. {d.Summary}\n\n");
        page.Append(CultureInfo.InvariantCulture, $"- Looks at: {DeclarationView.Of(d).Reach}, {(d.OnPlane ? "aligned images on one grid" : "photographs in their own pixels")}.\n");
        page.Append(CultureInfo.InvariantCulture, $"- {(d.RunsOnExamine ? "Runs by itself during an examination." : "Runs when asked for.")}\n");
        page.Append(CultureInfo.InvariantCulture, $"- Source: {d.Citation}\n\n**When not to use it, and what its figures do not say.** {d.Limits}\n\n");
        page.Append(CultureInfo.InvariantCulture, $"    {HelpText.Usage(d)}\n");
        Table(page, "Inputs", ["Name", "What", "How many", "Lights"], d.Inputs.Select(s => new[] { $"`{s.Name}`", s.Help, InputCheck.CountText(s), InputCheck.LightText(s) }));
        Table(page, "Parameters", ["Name", "What", "Range and default"], d.Parameters.Select(p => new[] { $"`{p.Name}`", p.Help, HelpText.Range(p) }));
        Table(page, "Rasters", ["Name", "What", "Bands", "Unit"], d.Rasters.Select(r => new[] { $"`{r.Name}`", r.Title, r.BandText, r.Unit }));
        Table(page, "Figures", ["Name", "What", "Unit", "Meaning"], d.Figures.Select(f => new[] { $"`{f.Name}`", f.Title, f.Unit, f.Meaning }));
        return page.ToString();
    }

    private static string Index()
    {
        var page = new StringBuilder("<!-- Made from the declarations by `sandarac readings --docs docs/readings`. Do not edit. -->\n# Readings\n\n");
        foreach (var d in ReadingCatalogue.All.Select(r => r.Declaration)) page.Append(CultureInfo.InvariantCulture, $"- [{d.Title}]({d.Id}.md): {d.Summary}\n");
        return page.ToString();
    }

    private static void Table(StringBuilder page, string title, string[] heads, IEnumerable<string[]> rows)
    {
        var lines = rows.ToArray();
        if (lines.Length == 0) return;
        page.Append(CultureInfo.InvariantCulture, $"\n## {title}\n\n| {string.Join(" | ", heads)} |\n|{string.Concat(Enumerable.Repeat("---|", heads.Length))}\n");
        foreach (var line in lines) page.Append(CultureInfo.InvariantCulture, $"| {string.Join(" | ", line.Select(cell => cell.Replace("|", "\\|", StringComparison.Ordinal)))} |\n");
    }
}
