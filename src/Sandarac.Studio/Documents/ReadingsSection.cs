using Sandarac.Analysis.Declaring;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents;

/// <summary>Readings with their figures, uncertainties, notes and warnings. Readings made of one photograph at a time share a table.</summary>
internal static class ReadingsSection
{
    public static void Write(Html page, DocumentContent content, DocumentPictures pictures)
    {
        var ended = content.Runs.Where(r => r.State is RunState.Done or RunState.NoAnswer or RunState.Failed).ToList();
        if (ended.Count == 0) return;
        page.Add($"<h2>Readings</h2>");
        foreach (var group in ended.GroupBy(r => (r.ReadingId, r.ReadingVersion)).OrderBy(g => g.Key.ReadingId, StringComparer.Ordinal))
        {
            var declaration = ReadingCatalogue.All.FirstOrDefault(r => r.Declaration.Id == group.Key.ReadingId)?.Declaration;
            page.Add($"<h3>{declaration?.Title ?? group.Key.ReadingId}</h3><p>{declaration?.Summary} <span class=\"small\">{declaration?.Limits}</span></p>");
            if (group.All(r => r.Rasters.Count == 0)) Table(page, declaration, [.. group]);
            else foreach (var run in group) One(page, declaration, run, content, pictures);
            page.Add($"<p class=\"note\">{declaration?.Citation} Reading {group.Key.ReadingId}, version {group.Key.ReadingVersion}.</p>");
        }
    }

    private static void Table(Html page, Declaration? declaration, IReadOnlyList<Run> runs)
    {
        var names = runs.SelectMany(r => r.Figures).Where(f => f.Subject is null).Select(f => f.Name).Distinct().ToList();
        page.Add($"<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"{declaration?.Title}, each photograph\"><table><tr><th>Photograph</th>{Html.Join(names.Select(n => Html.Of($"<th class=\"n\">{Title(declaration, n)}<br><span class=\"unit\">{Unit(declaration, n)}</span></th>")))}</tr>");
        foreach (var run in runs.OrderBy(r => r.Inputs[0].FileName, StringComparer.Ordinal))
            page.Add($"<tr><td>{run.Inputs[0].FileName}</td>{Html.Join(names.Select(n => Html.Of($"<td class=\"n\">{Value(run.Figures.FirstOrDefault(f => f.Name == n && f.Subject is null))}</td>")))}</tr>");
        page.Add($"</table></div>");
        foreach (var run in runs.OrderBy(r => r.Inputs[0].FileName, StringComparer.Ordinal)) Remarks(page, run, $"{run.Inputs[0].FileName}: ");
        if (!runs.Any(r => r.Figures.Any(f => f.Subject is not null))) return;
        page.Add($"<details><summary>Every figure, by band, region or corner</summary>");
        foreach (var run in runs.OrderBy(r => r.Inputs[0].FileName, StringComparer.Ordinal).Where(r => r.Figures.Count > 0))
        {
            page.Add($"<p class=\"small\"><strong>{run.Inputs[0].FileName}</strong></p>");
            Figures(page, declaration, run);
        }
        page.Add($"</details>");
    }

    private static void One(Html page, Declaration? declaration, Run run, DocumentContent content, DocumentPictures pictures)
    {
        page.Add($"<div class=\"pair\"><div>{Html.Join(content.Layers.Where(l => l.RunId == run.Id).Select(l => Html.Of($"<figure>{pictures.Of(l)}<figcaption>{l.Label}</figcaption></figure>")))}</div><div>");
        page.Add($"<p class=\"small\">From {string.Join(", ", run.Inputs.Select(i => $"{i.FileName} ({i.Slot})"))}; {string.Join(", ", run.Parameters.Select(p => $"{p.Key} {p.Value}"))}</p>");
        if (run.Figures.Count > 0) Figures(page, declaration, run);
        Remarks(page, run, "");
        page.Add($"</div></div>");
    }

    private static void Figures(Html page, Declaration? declaration, Run run)
    {
        page.Add($"<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"{declaration?.Title}, {run.Inputs[0].FileName}\"><table><tr><th>Figure</th><th class=\"n\">Value</th><th>Note</th></tr>");
        foreach (var f in run.Figures)
            page.Add($"<tr><td>{Title(declaration, f.Name)}{(f.Subject is null ? "" : $", {f.Subject}")}</td><td class=\"n\">{Value(f)} <span class=\"unit\">{Unit(declaration, f.Name)}</span></td><td>{f.Note}</td></tr>");
        page.Add($"</table></div>");
    }

    private static void Remarks(Html page, Run run, string before)
    {
        foreach (var warning in run.Warnings) page.Add($"<p class=\"warning\">{before}{warning.Message}</p>");
        if (run.NoAnswer is { } none) page.Add($"<p class=\"note\">{before}No answer. {none}</p>");
        if (run.Problem is { } problem) page.Add($"<p class=\"warning\">{before}{problem.Message} {problem.Remedy}</p>");
    }

    private static Markup Value(Figure? figure) => figure switch
    {
        null => Markup.None,
        { Value: null } => Html.Of($"<span title=\"{figure.Note}\">no answer</span>"),
        { Value: { } v } => Rounding.Rounded(v, figure.Uncertainty) switch
        {
            (var value, { } uncertainty) => Html.Of($"{value} <span class=\"pm\">\u00B1 {uncertainty}</span>"),
            var (value, _) => Html.Of($"{value}"),
        },
    };

    private static string Title(Declaration? declaration, string name) => declaration?.Figures.FirstOrDefault(f => f.Name == name)?.Title ?? name;

    private static string Unit(Declaration? declaration, string name) => declaration?.Figures.FirstOrDefault(f => f.Name == name)?.Unit is { } unit && unit != "1" ? unit : "";
}
