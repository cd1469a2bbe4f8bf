using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents;

/// <summary>How each photograph was put on the plane, and how well.</summary>
internal static class AlignmentSection
{
    public static void Write(Html page, DocumentContent content)
    {
        page.Add($"<h2>How the photographs were put on the plane</h2>");
        page.Add($"<p>The painted face's four corners fix each photograph on a plane in millimetres. The residual says how straight the sides of the face come out: 95 of 100 points found along them lie nearer to a straight side than the figure. No held-out points check the map, and the painting itself may not be flat.</p>");
        page.Add($"<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"How each photograph was put on the plane\"><table><tr><th>Photograph</th><th>Verdict</th><th class=\"n\">mm in a pixel</th><th class=\"n\">Residual <span class=\"unit\">mm, 95 %</span></th><th>Why</th></tr>");
        foreach (var photograph in content.Photographs.Where(Belongs)) page.Add($"{Row(photograph)}");
        page.Add($"</table></div>");
        foreach (var group in content.Photographs.Where(p => !Belongs(p)).GroupBy(p => p.Alignments.InForce()!.Reason))
            page.Add($"<p class=\"small\">Not on the plane: {string.Join(", ", group.Select(p => p.FileName))}. {group.Key}</p>");
    }

    /// <summary>Photographs of the whole painting belong on the plane; others are only named, once they have a reason.</summary>
    private static bool Belongs(Photograph photograph) => photograph.Subject == PhotographSubject.Painting || photograph.Alignments.InForce() is not { Verdict: Verdict.NotAligned };

    private static Markup Row(Photograph photograph)
    {
        var alignment = photograph.Alignments.InForce();
        var size = alignment?.MmPerPixel is { } mm ? Rounding.Significant(mm, 4) : "";
        var residual = alignment?.Residuals?.P95Mm is { } p95 ? Rounding.Significant(p95, 2) : "";
        return Html.Of($"<tr><td>{photograph.FileName}</td><td>{Words.VerdictOf(alignment?.Verdict)}</td><td class=\"n\">{size}</td><td class=\"n\">{residual}</td><td>{Words.Sentence(alignment?.Reason ?? "Nobody has tried yet.")} {alignment?.Residuals?.Note}</td></tr>");
    }
}
