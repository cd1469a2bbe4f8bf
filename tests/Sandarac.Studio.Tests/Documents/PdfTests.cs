using System.Diagnostics;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Pdf;
using Sandarac.Studio.Documents.Phrasing;
using UglyToad.PdfPig;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;

namespace Sandarac.Studio.Tests.Documents;

/// <summary>PDFs are read back by PdfPig, which knows nothing of how they were written, and checked by qpdf.</summary>
public sealed class PdfTests
{
    [Fact]
    public void Every_page_bears_the_identity_and_its_number_and_all_text_is_read_back()
    {
        using var pdf = Open(SampleDocument.Of());
        var pages = pdf.GetPages().Select(Text).ToList();
        Assert.All(pages, (p, i) =>
        {
            Assert.Contains("1974.12, Ferry at low water, 412 x 518 mm", p, StringComparison.Ordinal);
            Assert.Contains($"Page {i + 1} of {pages.Count}", p, StringComparison.Ordinal);
            Assert.Contains("Studio of the invented coast", p, StringComparison.Ordinal);
        });
        var whole = string.Join(' ', pages);
        Assert.All(["Invented Coast Museum", "1 Harbour Row", "oak panel", "The varnish is yellowed at the left.", "second point", "Caution. Lamps hurt eyes.", "Warning. The scale is assumed.", "Figure 4. Detail 2", "lifting paint", "100 mm", "10 mm, assumed",
            "12.35 \u00B1 0.80", "no answer", "Columns drawn", "Table 1. Areas", "R. Invented", "folded away", "Made for a test."], t => Assert.Contains(t, whole, StringComparison.Ordinal));
    }

    [Fact]
    public void It_is_flagged_as_archival_and_every_font_is_embedded()
    {
        var bytes = Write(SampleDocument.Of());
        var text = System.Text.Encoding.Latin1.GetString(bytes);
        Assert.Contains("pdfaid:part", text, StringComparison.Ordinal);
        using var pdf = PdfDocument.Open(bytes);
        Assert.Equal("Ferry at low water: Examination report", pdf.Information.Title);
        Assert.Equal("R. Invented", pdf.Information.Author);
        Assert.Contains("/Lang (en)", text, StringComparison.Ordinal);
        // A font file of its own for each descriptor; every letter names one of them, as a subset.
        Assert.Equal(Count(text, "/Type /FontDescriptor"), Count(text, "/FontFile2"));
        var fonts = pdf.GetPages().SelectMany(p => p.Letters).Select(l => l.FontName).Distinct().ToList();
        Assert.All(fonts, f => Assert.Matches("^[A-Z]{6}\\+Source(Sans3|Serif4)", f!));
        Assert.Contains(fonts, f => f!.Contains("SemiBold", StringComparison.Ordinal));
    }

    [Fact]
    public void The_outline_is_that_of_the_sections()
    {
        using var pdf = Open(SampleDocument.Of());
        Assert.True(pdf.TryGetBookmarks(out var outline));
        var nodes = outline!.GetNodes().Select(n => (n.Title, n.Level)).ToList();
        Assert.Equal([("1 Observations", 0), ("1.1 Zones", 1), ("2 Pictures", 0), ("3 Signatures", 0)], nodes);
        foreach (var node in outline!.GetNodes().OfType<UglyToad.PdfPig.Outline.DocumentBookmarkNode>())
            Assert.Contains(node.Title, Text(pdf.GetPage(node.PageNumber)), StringComparison.Ordinal);
        Assert.Equal(4, outline.GetNodes().OfType<UglyToad.PdfPig.Outline.DocumentBookmarkNode>().Count());
    }

    [Fact]
    public void The_contents_give_the_pages_on_which_sections_stand()
    {
        using var pdf = Open(SampleDocument.Of(more: [.. Enumerable.Range(0, 60).Select(i => new Paragraph(string.Join(' ', Enumerable.Repeat($"Sentence {i}.", 40))))]));
        var at = pdf.GetPages().First(p => Text(p).Contains("3 Signatures", StringComparison.Ordinal) && !Text(p).Contains("Contents", StringComparison.Ordinal)).Number;
        Assert.True(at > 6);
        Assert.Matches($"3 Signatures {at}\\b", Text(pdf.GetPages().First(p => Text(p).Contains("Contents", StringComparison.Ordinal))));
    }

    [Fact]
    public void The_head_of_a_table_is_repeated_and_no_row_is_lost()
    {
        using var pdf = Open(SampleDocument.Of(more: [SampleDocument.Figures(200)]));
        var pages = pdf.GetPages().Select(Text).Where(t => t.Contains("zone ", StringComparison.Ordinal)).ToList();
        Assert.True(pages.Count > 4);
        Assert.All(pages, p => Assert.Contains("Area (mm2)", p, StringComparison.Ordinal));
        var whole = string.Join(' ', pages);
        Assert.All(Enumerable.Range(0, 200), i => Assert.Matches($"zone {i}\\b", whole));
    }

    [Fact]
    public void Decimal_signs_of_a_column_stand_below_one_another()
    {
        var table = new Table("Numbers", [new Column("What"), new Column("Value", ColumnKind.Number)], [.. new[] { "1.5", "123.25", "0.125", "-7.5" }.Select(v => (IReadOnlyList<Prose>)["row", v])]);
        using var pdf = Open(SampleDocument.Of() with { Frontispiece = null, Sections = [new Section("Numbers", table)] });
        var letters = pdf.GetPages().SelectMany(p => p.Letters).ToList();
        var at = letters.Where((l, i) => l.Value == "." && i > 0 && char.IsAsciiDigit(letters[i - 1].Value[0]) && i + 1 < letters.Count && char.IsAsciiDigit(letters[i + 1].Value[0]) && l.PointSize is > 8.5 and < 8.7).Select(l => l.StartBaseLine.X).ToList();
        Assert.Equal(4, at.Count);
        Assert.True(at.Max() - at.Min() < 0.05, $"{string.Join(", ", at)}");
    }

    [Fact]
    public void Captions_stand_on_the_page_of_their_pictures()
    {
        using var pdf = Open(SampleDocument.Of(more: [new Plates([.. Enumerable.Range(0, 25).Select(i => new Plate(SampleDocument.Picture(160, 60 + 7 * i), $"Number {i}.", ""))])]));
        foreach (var page in pdf.GetPages())
        {
            var captions = System.Text.RegularExpressions.Regex.Count(Text(page), "Figure \\d+\\. (Number|Detail|The whole)");
            // The letterhead's sign on the first page has no caption.
            Assert.Equal(captions + (page.Number == 1 ? 1 : 0), page.NumberOfImages);
        }
    }

    [Fact]
    public void Letters_that_the_fonts_lack_are_printed_as_numbers_with_a_warning()
    {
        using var pdf = Open(SampleDocument.Of("Fähre \u0394\u03B7\u03BC\u03CC\u03C2 \u0411\u0435\u0440\u0435\u0433 \u6F6E \u05D0"));
        var whole = string.Join(' ', pdf.GetPages().Select(Text));
        Assert.Contains("Fähre \u0394\u03B7\u03BC\u03CC\u03C2 \u0411\u0435\u0440\u0435\u0433 [U+6F6E] [U+05D0]", whole, StringComparison.Ordinal);
        Assert.Contains("printed as their Unicode numbers: U+05D0, U+6F6E", whole, StringComparison.Ordinal);
    }

    [Fact]
    public void Hostile_text_neither_breaks_the_file_nor_leaves_the_page()
    {
        var word = new string('W', 10_000);
        using var pdf = Open(SampleDocument.Of($"</Title> (x) \\ {'\u202E'}abc\u0001\uD800", more: [new Paragraph(word), new Table("Long", [new Column("a"), new Column(word[..300], ColumnKind.Number)], [[word, word], ["b", "1"]]), new Facts([new Fact(word[..500], word)])]));
        var letters = pdf.GetPages().SelectMany(p => p.Letters).ToList();
        Assert.All(letters, l => Assert.InRange(l.EndBaseLine.X, 0, Sheet.Width - 20));
        Assert.All(letters, l => Assert.InRange(l.StartBaseLine.Y, 20, Sheet.Height));
        Assert.True(letters.Count(l => l.Value == "W") >= 40_000, "letters were lost");
        Assert.Contains("</Title> (x) \\ abc", Text(pdf.GetPage(1)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_picture_that_cannot_be_read_says_so_in_its_place()
    {
        using var pdf = Open(SampleDocument.Of(more: [new Plates([new Plate(SampleDocument.Lost(), "Lost.", ""), new Plate(SampleDocument.Broken(), "Broken.", "")], 2)]));
        var whole = string.Join(' ', pdf.GetPages().Select(Text));
        Assert.Contains("No picture: The object abc is missing. Restore it from a copy.", whole, StringComparison.Ordinal);
        Assert.Contains("No picture: the file cannot be decoded.", whole, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_but_a_title_is_a_document_too()
    {
        using var pdf = Open(new Document { Title = "", Kind = "", Identity = "", Phrases = Phrases.Spanish, Made = DateTime.UnixEpoch });
        Assert.Contains("Página 1 de", Text(pdf.GetPage(1)), StringComparison.Ordinal);
    }

    [Fact]
    public void Qpdf_finds_no_fault()
    {
        const string program = "/usr/bin/qpdf";
        if (!File.Exists(program)) Assert.Skip($"qpdf is not installed ({program}).");
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(path, Write(SampleDocument.Of(more: [SampleDocument.Figures(100)])));
            using var check = Process.Start(new ProcessStartInfo(program, ["--check", path]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            var said = check.StandardOutput.ReadToEnd() + check.StandardError.ReadToEnd();
            check.WaitForExit();
            Assert.True(check.ExitCode == 0, said);
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static PdfDocument Open(Document document) => PdfDocument.Open(Write(document));

    private static byte[] Write(Document document)
    {
        using var stream = new MemoryStream();
        PdfRenderer.Write(document, stream, TestContext.Current.CancellationToken);
        return stream.ToArray();
    }

    private static string Text(UglyToad.PdfPig.Content.Page page) => System.Text.RegularExpressions.Regex.Replace(ContentOrderTextExtractor.GetText(page).Replace('\u00A0', ' '), "\\s+", " ");

    private static int Count(string text, string part) => text.Split(part).Length - 1;
}
