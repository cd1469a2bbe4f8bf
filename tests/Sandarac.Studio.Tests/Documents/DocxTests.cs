using DocumentFormat.OpenXml.Drawing.Wordprocessing;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Validation;
using DocumentFormat.OpenXml.Wordprocessing;
using Sandarac.Studio.Documents.Docx;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Paragraph = DocumentFormat.OpenXml.Wordprocessing.Paragraph;
using Table = DocumentFormat.OpenXml.Wordprocessing.Table;
using Document = Sandarac.Studio.Documents.Model.Document;

namespace Sandarac.Studio.Tests.Documents;

/// <summary>DOCX files are checked by the schema validator of Microsoft's Open XML SDK and read back.</summary>
public sealed class DocxTests
{
    public static TheoryData<string> Titles => ["Ferry at low water", "<w:p/> & \"x\" \u202Eabc\u0001\uD800 \u6F6E \u05D0", "", new string('W', 10_000)];

    [Theory, MemberData(nameof(Titles))]
    public void It_follows_the_schema(string title) => Read(SampleDocument.Of(title, more: [SampleDocument.Figures(30), new Plates([new Plate(SampleDocument.Lost(), "Lost.", ""), new Plate(SampleDocument.Broken(), "Broken.", "")], 2)]), word =>
        Assert.Empty(new OpenXmlValidator().Validate(word, TestContext.Current.CancellationToken).Select(e => $"{e.Description} {e.Path?.XPath}")));

    [Fact]
    public void Headings_captions_pages_and_alternative_texts_are_real_ones() => Read(SampleDocument.Of(), word =>
    {
        var body = word.MainDocumentPart!.Document!.Body!;
        Assert.Equal([("Heading1", "Observations"), ("Heading2", "Zones"), ("Heading1", "Pictures"), ("Heading1", "Signatures")],
            body.Descendants<Paragraph>().Where(p => Style(p).StartsWith("Heading", StringComparison.Ordinal)).Select(p => (Style(p), p.InnerText)));
        Assert.Contains("Figure 5. The columns.", body.Descendants<Paragraph>().Where(p => Style(p) == "Caption").Select(Shown));
        Assert.Contains(body.Descendants<FieldCode>(), f => f.Text.Contains("TOC", StringComparison.Ordinal));
        Assert.Equal(["the painting", "detail 0", "detail 1", "detail 2", "columns of layers"], body.Descendants<DocProperties>().Select(d => d.Description!.Value!).Where(d => d.Length > 0));
        var foot = word.MainDocumentPart.FooterParts.Single().Footer!;
        Assert.Equal([" PAGE ", " NUMPAGES "], foot.Descendants<FieldCode>().Select(f => f.Text));
        Assert.Contains("1974.12, Ferry at low water, 412 x 518 mm", word.MainDocumentPart.HeaderParts.Single().Header!.InnerText, StringComparison.Ordinal);
        Assert.All(body.Descendants<Table>().Where(t => t.Descendants<TableHeader>().Any()), t => Assert.True(t.Elements<TableRow>().First().Descendants<TableHeader>().Any()));
        // Every anchor of the contents is there.
        var names = body.Descendants<BookmarkStart>().Select(b => b.Name!.Value).ToHashSet();
        Assert.All(body.Descendants<Hyperlink>(), h => Assert.Contains(h.Anchor!.Value, names));
    });

    [Fact]
    public void A_picture_that_cannot_be_read_says_so_in_its_place() => Read(SampleDocument.Of(more: [new Plates([new Plate(SampleDocument.Lost(), "Lost.", ""), new Plate(SampleDocument.Broken(), "Broken.", "", new PictureScale(5))])]), word =>
    {
        Assert.Contains("No picture: The object abc is missing. Restore it from a copy.", word.MainDocumentPart!.Document!.InnerText, StringComparison.Ordinal);
        Assert.Contains("No picture: the file cannot be decoded.", word.MainDocumentPart.Document.InnerText, StringComparison.Ordinal);
    });

    [Fact]
    public void Spanish_is_proofed_as_Spanish() => Read(SampleDocument.Of(phrases: Phrases.Spanish), word =>
    {
        Assert.Equal("es-ES", word.MainDocumentPart!.StyleDefinitionsPart!.Styles!.Descendants<Languages>().Single().Val!.Value);
        Assert.Contains("Página 1 de 1", Shown(word.MainDocumentPart.FooterParts.Single().Footer!.Descendants<Paragraph>().Single()), StringComparison.Ordinal);
    });

    private static string Style(Paragraph paragraph) => paragraph.ParagraphProperties?.ParagraphStyleId?.Val?.Value ?? "";

    private static string Shown(Paragraph paragraph) => string.Concat(paragraph.Descendants<Text>().Select(t => t.Text));

    private static void Read(Document document, Action<WordprocessingDocument> look)
    {
        using var stream = new MemoryStream();
        DocxRenderer.Write(document, stream, TestContext.Current.CancellationToken);
        using var word = WordprocessingDocument.Open(stream, isEditable: false);
        look(word);
    }
}
