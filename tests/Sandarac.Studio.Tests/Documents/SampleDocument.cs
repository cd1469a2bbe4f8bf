using Sandarac.Imaging;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using SkiaSharp;

namespace Sandarac.Studio.Tests.Documents;

/// <summary>A document with every kind of block, made without a studio.</summary>
internal static class SampleDocument
{
    public const string Svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 120 60\" width=\"120\" height=\"60\"><rect width=\"120\" height=\"60\" fill=\"#dddddd\"/><text x=\"8\" y=\"34\" font-family=\"Source Sans 3\" font-size=\"14\">Columns drawn</text></svg>";

    public static Document Of(string title = "Ferry at low water", Phrases? phrases = null, params IReadOnlyList<Block> more) => new()
    {
        Title = title, Kind = "Examination report", Identity = $"1974.12, {title}, 412 x 518 mm", Phrases = phrases ?? Phrases.English, Author = "R. Invented", Footer = "Studio of the invented coast", Made = new DateTime(2026, 11, 26, 8, 20, 0, DateTimeKind.Utc),
        Letterhead = new Letterhead("Invented Coast Museum", ["1 Harbour Row"], Picture()), Frontispiece = new Plate(Picture(), "The whole.", "the painting", new PictureScale(518)),
        Opening = [new Facts([new Fact("Support", "oak panel"), new Fact("Marks", Prose.Of("not recorded", SpanLook.Emphasis))])],
        Sections =
        [
            new Section("Observations", [new Paragraph(Prose.Of("The varnish is ") + Prose.Of("yellowed", SpanLook.Emphasis) + " at the left.", ParagraphLook.Lead), new BulletList(["first point", "second point"]), new Note(NoteKind.Caution, "Lamps hurt eyes."), new Note(NoteKind.Warning, "The scale is assumed.")],
                [new Section("Zones", Figures(), new Legend([new LegendEntry(Drawing(), "lifting paint")]))]),
            new Section("Pictures", [new Plates([.. Enumerable.Range(0, 3).Select(i => new Plate(Picture(), $"Detail {i}", $"detail {i}", new PictureScale(40, ", assumed")))], 2), new Plates([new Plate(Drawing(), "The columns.", "columns of layers")]), .. more]),
            new Section("Signatures", new Signatures([new SignatureLine("Conservator", "R. Invented")]), new Aside("Every figure", [new Paragraph("folded away", ParagraphLook.Small)])),
        ],
        Closing = "Made for a test.",
    };

    public static Table Figures(int rows = 3) => new("Areas", [new Column("Zone"), new Column("Area (mm2)", ColumnKind.Number), new Column("SHA-256", Share: 2)],
        [.. Enumerable.Range(0, rows).Select(i => (IReadOnlyList<Prose>)[$"zone {i}", i == 1 ? "no answer" : Prose.Measured(12.34567 * Math.Pow(10, i % 3), i % 2 == 0 ? 0.8 : null, Phrases.English), Prose.Of(new string('a', 64), SpanLook.Code)])]);

    public static DrawingPicture Drawing() => new(120, 60, () => Svg);

    public static RasterPicture Picture(int width = 160, int height = 120) => new(width, height, _ =>
    {
        using var bitmap = new SKBitmap(width, height);
        bitmap.Erase(new SKColor(0x40, 0x70, 0x60));
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 80);
        return data.ToArray();
    });

    public static RasterPicture Lost() => new(160, 120, _ => throw new InputProblem("object-missing", "abc", "The object abc is missing.", "Restore it from a copy."));

    public static RasterPicture Broken() => new(160, 120, _ => [0xFF, 0xD8, 0xFF, 1, 2, 3]);
}
