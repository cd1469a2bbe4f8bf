using System.Diagnostics;
using Sandarac.Studio;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using SkiaSharp;

namespace Sandarac.Benchmarks.Documents;

/// <summary>A generated report of some 200 pages with 300 pictures, each a JPEG of its own of up to 1600 pixels, and tables of figures between.</summary>
internal static class LongReport
{
    public const int Pictures = 300;

    /// <summary>Writes it in one format into a folder, and says the seconds that writing took, without drawing the pictures beforehand.</summary>
    public static string Run(string format, int pictures, string folder)
    {
        var sources = Draw(folder, Math.Min(pictures, 30));
        var document = Of(sources, pictures);
        var start = Stopwatch.GetTimestamp();
        Dossier.WriteFile(document, Enum.Parse<Rendering>(format, ignoreCase: true), Path.Combine(folder, $"long.{format}"), force: true);
        return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Stopwatch.GetElapsedTime(start).TotalSeconds:0.00}");
    }

    /// <summary>Thirty pictures of noise and shapes, which no encoder makes small.</summary>
    private static List<string> Draw(string folder, int count)
    {
        List<string> paths = [];
        for (var n = 0; n < count; n++)
        {
            using var bitmap = new SKBitmap(1600, 1200);
            var random = new Random(n);
            var pixels = bitmap.GetPixelSpan();
            for (var y = 0; y < 1200; y++)
                for (var x = 0; x < 1600; x++)
                {
                    var at = 4 * (y * 1600 + x);
                    var level = (byte)(96 + 60 * Math.Sin((x + 40 * n) / 90.0) * Math.Cos(y / 70.0) + random.Next(24));
                    (pixels[at], pixels[at + 1], pixels[at + 2], pixels[at + 3]) = (level, (byte)(level + random.Next(12)), (byte)(level / 2 + 60), 255);
                }
            paths.Add(Path.Combine(folder, $"source-{n}.jpg"));
            using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 88);
            File.WriteAllBytes(paths[^1], data.ToArray());
        }
        return paths;
    }

    /// <summary>What the record's own pictures are: decoded, made smaller and encoded when they are asked for.</summary>
    private static RasterPicture Picture(string path) => new(1600, 1200, longest =>
    {
        using var image = NetVips.Image.Thumbnail(path, Math.Min(1600, longest), height: Math.Min(1600, longest));
        return image.JpegsaveBuffer(q: 88);
    });

    private static Document Of(List<string> sources, int pictures)
    {
        var text = string.Join(' ', Enumerable.Repeat("The varnish has yellowed and lies in runs along the lower edge, where an earlier cleaning left it thicker than above.", 5));
        return new Document
        {
            Title = "Ferry at low water", Kind = "Examination report", Identity = "1974.12, Ferry at low water, 412 x 518 mm", Phrases = Phrases.English, Made = DateTime.UnixEpoch, Closing = "Generated for a benchmark.",
            Sections = [.. Enumerable.Range(0, pictures / 10).Select(s => new Section($"Part {s + 1}",
            [
                .. Enumerable.Repeat(new Paragraph(text), 12), new Plates([.. Enumerable.Range(0, 4).Select(i => Plate(sources, 10 * s + i))]), new Plates([.. Enumerable.Range(4, 6).Select(i => Plate(sources, 10 * s + i))], 2),
                new Sandarac.Studio.Documents.Model.Table("Figures", [new Column("Figure", Share: 2), new Column("Value", ColumnKind.Number), new Column("Note", Share: 2)], [.. Enumerable.Range(0, 60).Select(i => (IReadOnlyList<Prose>)[$"figure {i}", Prose.Measured(i * 1.2345 + s, 0.12, Phrases.English), "counted over the whole face"])]),
            ]))],
        };
    }

    private static Plate Plate(List<string> sources, int n) => new(Picture(sources[n % sources.Count]), $"Detail {n} of the painted face in raking light.", $"detail {n}", new PictureScale(120));
}
