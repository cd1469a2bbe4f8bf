using System.Globalization;

namespace Sandarac.Studio.Documents;

/// <summary>The files the document rests on, so that anyone can tell later whether they have the same ones.</summary>
internal static class FilesSection
{
    public static void Write(Html page, DocumentContent content)
    {
        page.Add($"<h2>Files</h2><p>The originals are kept untouched. Each is known by the SHA-256 of its bytes.</p>");
        page.Add($"<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Files\"><table><tr><th>File</th><th class=\"n\">Pixels</th><th>Kind</th><th>Colour profile</th><th>Camera</th><th>SHA-256</th></tr>");
        foreach (var p in content.Photographs)
            page.Add($"<tr><td>{p.FileName}</td><td class=\"n\">{p.Facts.Width} x {p.Facts.Height}</td><td>{p.Facts.Kind}, {Depth(p.Facts)}</td><td>{p.Facts.IccDescription ?? "none"}</td><td>{p.Facts.Camera}</td><td><code>{p.Sha256}</code></td></tr>");
        page.Add($"</table></div>");
        page.Add($"<footer>Written {Words.Time(content.Now)} by {Words.Software()} from the studio's record of painting {content.Painting.Id}. Imaging shows what is consistent with a material or a history; it does not identify either by itself.</footer>");
    }

    private static string Depth(Imaging.Formats.ImageFacts facts) =>
        string.Create(CultureInfo.InvariantCulture, $"{facts.Bands} x {facts.Format switch { Imaging.Formats.SampleFormat.UInt8 => "8 bit", Imaging.Formats.SampleFormat.UInt16 => "16 bit", Imaging.Formats.SampleFormat.UInt32 => "32 bit", Imaging.Formats.SampleFormat.Float => "float", _ => "signed" }}");
}
