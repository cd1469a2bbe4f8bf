using Sandarac.Studio.Documents;
using Sandarac.Studio.Iiif;

namespace Sandarac.Studio.Walking;

/// <summary>The exported folder's page. Its script replaces what stands in it; without a script it is a page of pictures and captions.</summary>
internal static class WalkPage
{
    /// <summary>Everything from this folder; nothing from elsewhere, nothing inline.</summary>
    private const string Policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; base-uri 'none'; form-action 'none'";

    /// <summary>The page.</summary>
    public static string Html(WalkPlan plan, CanvasGrid canvas, WalkExportOptions options)
    {
        var (title, language) = (plan.Walk?.Title ?? plan.Painting.Title, plan.Walk?.Language ?? "en");
        var size = TileFolder.Largest(canvas);
        var page = new Html();
        page.Add($"<!doctype html><html lang=\"{language}\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><meta name=\"referrer\" content=\"no-referrer\">");
        page.Add($"<meta http-equiv=\"Content-Security-Policy\" content=\"{Policy}\"><title>{title}</title><link rel=\"icon\" type=\"image/jpeg\" href=\"{WalkAddresses.Pictures}/{plan.Pictures[0].Key}/{TileFolder.Whole(TileFolder.Smallest(canvas))}\"><link rel=\"stylesheet\" href=\"walk.css\"></head><body>");
        page.Add($"<main id=\"walk\"><h1 dir=\"auto\">{title}</h1>");
        foreach (var step in plan.Steps)
        {
            page.Add($"<section><h2 dir=\"auto\">{step.Step.Title}</h2>{Figure(step.A, size)}");
            foreach (var line in step.Step.Caption.Split('\n', StringSplitOptions.RemoveEmptyEntries)) page.Add($"<p dir=\"auto\">{line}</p>");
            page.Add($"</section>");
        }
        if (plan.Steps.Count == 0) foreach (var picture in plan.Pictures) page.Add($"{Figure(picture, size)}");
        if (options.Attribution.Length > 0) page.Add($"<p dir=\"auto\">{options.Attribution}</p>");
        page.Add($"</main><script src=\"data.js\"></script><script src=\"walk.js\"></script></body></html>");
        return page.ToString();
    }

    private static Markup Figure(ExportedPicture picture, (int Width, int Height) size) => Documents.Html.Of(
        $"<figure><img loading=\"lazy\" src=\"{WalkAddresses.Pictures}/{picture.Key}/{TileFolder.Whole(size)}\" width=\"{size.Width}\" height=\"{size.Height}\" alt=\"{picture.Label}\"><figcaption>{picture.Label}</figcaption></figure>");
}
