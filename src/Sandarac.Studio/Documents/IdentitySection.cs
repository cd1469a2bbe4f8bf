using System.Globalization;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents;

/// <summary>What the painting is, its picture, and what is in the document.</summary>
internal static class IdentitySection
{
    public static void Write(Html page, DocumentContent content, DocumentPictures pictures)
    {
        var painting = content.Painting;
        page.Add($"<h1>{painting.Title}</h1><p class=\"lead\">First examination, {Words.Date(content.Now)}</p>");
        if (pictures.Frontispiece() is { } picture) page.Add($"{picture}");
        page.Add($"<dl class=\"facts\">{Html.Join(Facts(content).Select(f => Html.Of($"<dt>{f.Name}</dt><dd>{f.Value}</dd>")))}</dl>");
        foreach (var warning in SizeWarnings(painting)) page.Add($"<p class=\"warning\">{warning}</p>");
    }

    private static IEnumerable<(string Name, string Value)> Facts(DocumentContent content)
    {
        var painting = content.Painting;
        if (painting.Technique is { } technique) yield return ("Technique", technique);
        if (painting.Support is { } support) yield return ("Support", support);
        if (painting.AccessionNumber is { } number) yield return ("Accession number", number);
        if (Years(painting) is { } years) yield return ("Date", years);
        yield return ("Painted face", painting.WidthMm > 0 ? $"{Words.Size(painting)} (height x width{Words.Spread(painting)}), {Words.Origin(painting.SizeOrigin)}" : "size not known");
        yield return ("Photographs", Counts(content));
        yield return ("Places", "given in mm from the left edge and from the bottom edge of the painted face");
        yield return ("Written", $"{Words.Time(content.Now)} by {Words.Software()}");
    }

    private static string? Years(Painting painting) => (painting.DateFrom, painting.DateTo) switch
    {
        ({ } from, { } to) when from == to => from.ToString(CultureInfo.InvariantCulture),
        ({ } from, { } to) => string.Create(CultureInfo.InvariantCulture, $"between {from} and {to}"),
        ({ } from, null) => string.Create(CultureInfo.InvariantCulture, $"{from} or later"),
        (null, { } to) => string.Create(CultureInfo.InvariantCulture, $"{to} or earlier"),
        _ => null,
    };

    private static string Counts(DocumentContent content)
    {
        var verdicts = content.Photographs.Select(p => p.Alignments.InForce()?.Verdict ?? Verdict.NotAligned).ToLookup(v => v);
        return string.Create(CultureInfo.InvariantCulture,
            $"{content.Photographs.Count}: {verdicts[Verdict.Aligned].Count()} on the plane, {verdicts[Verdict.Uncertain].Count()} on the plane with doubt, {verdicts[Verdict.NotAligned].Count()} by themselves");
    }

    private static IEnumerable<string> SizeWarnings(Painting painting)
    {
        foreach (var warning in painting.SizeWarnings) yield return warning.Message;
        if (painting.SizeOrigin is Imaging.ScaleOrigin.Metadata or Imaging.ScaleOrigin.Assumed)
            yield return $"The size of the painted face is {Words.Origin(painting.SizeOrigin)}. Measure its height and width and examine again with --height-mm and --width-mm.";
    }
}
