using Sandarac.Analysis.Lights;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents;

/// <summary>Every photograph with its scale bar, its light, and what to know about it.</summary>
internal static class PhotographsSection
{
    public static void Write(Html page, DocumentContent content, DocumentPictures pictures)
    {
        page.Add($"<h2>Photographs</h2>");
        foreach (var caution in Cautions.For(content.Photographs.Select(p => p.Light))) page.Add($"<p class=\"caution\">{caution}</p>");
        Group(page, content, pictures, "On the painting's plane", "grid", p => p.Alignments.InForce() is { PlaneImage: not null });
        Group(page, content, pictures, "Not on the plane", "grid", p => p.Alignments.InForce() is not { PlaneImage: not null } && !IsForCalibration(p));
        Group(page, content, pictures, "Charts and even boards", "grid tight", p => p.Alignments.InForce() is not { PlaneImage: not null } && IsForCalibration(p));
    }

    private static bool IsForCalibration(Photograph photograph) => photograph.Subject is PhotographSubject.Chart or PhotographSubject.FlatField or PhotographSubject.DarkFrame;

    private static void Group(Html page, DocumentContent content, DocumentPictures pictures, string title, string look, Func<Photograph, bool> belongs)
    {
        var photographs = content.Photographs.Where(belongs).OrderBy(p => Order(p.Light)).ThenBy(p => p.Subject).ThenBy(p => p.FileName, StringComparer.Ordinal).ToList();
        if (photographs.Count == 0) return;
        page.Add($"<h3>{title}</h3><div class=\"{look}\">");
        foreach (var photograph in photographs) page.Add($"<figure>{pictures.Of(photograph)}<figcaption>{Caption(photograph)}</figcaption></figure>");
        page.Add($"</div>");
    }

    private static int Order(string? light) => light is null ? int.MaxValue : Light.All.TakeWhile(l => l.Code != light).Count();

    private static Markup Caption(Photograph photograph)
    {
        var subject = photograph.Subject == PhotographSubject.Painting ? "" : $" Shows {Words.SubjectOf(photograph)}.";
        var taken = photograph.TakenAt is { } time ? $" Taken {Words.Date(time)} by the camera's clock." : "";
        var doubt = photograph.LightConfidence == Confidence.Certain ? "" : $" The light is {photograph.LightConfidence.ToString().ToLowerInvariant()} only: {photograph.LightReason}.";
        var warnings = Html.Join(photograph.Warnings.Select(w => Html.Of($"<br>\u26A0 {w.Message}")));
        return Html.Of($"<strong>{photograph.FileName}</strong><br>{Words.Sentence(Words.LightOf(photograph))}{subject}{taken}{doubt}{warnings}");
    }
}
