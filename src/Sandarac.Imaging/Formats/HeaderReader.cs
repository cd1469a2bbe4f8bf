using System.Globalization;
using NetVips;
using Sandarac.Imaging.Tiff;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Formats;

/// <summary>Gathers what a file's header says into <see cref="ImageFacts"/>, with a warning for everything a person should know.</summary>
internal sealed class HeaderReader(string path, string kind, TiffDirectory? tiff)
{
    // Densities that programs and cameras write when nobody measured anything: never a scale.
    private static readonly double[] NeverMeasured = [1, 25.4, 72, 96];

    // Customary settings of cameras and raw converters: a scale only if someone set it on purpose.
    private static readonly double[] Customary = [180, 240, 300, 350];

    private readonly List<Warning> _warnings = [];

    /// <summary>Facts of a plain TIFF, without the image library.</summary>
    public ImageFacts Of(PlainTiff image)
    {
        var colours = tiff!.Number(TiffTag.Photometric, 1) == 2 ? 3 : 1;
        var alpha = image.Bands == colours + 1 && tiff.Number(TiffTag.ExtraSamples, 1) != 0;
        var format = image.Format switch { TileFormat.UInt8 => SampleFormat.UInt8, TileFormat.UInt16 => SampleFormat.UInt16, _ => SampleFormat.Float };
        return Facts(image, format, image.Format.FullScale(), alpha, tiff, TiffDensity(), tiff.Bytes(TiffTag.IccProfile), 1);
    }

    /// <summary>Facts of everything else.</summary>
    public ImageFacts Of(VipsSource image)
    {
        var header = image.Header;
        if (image.IsConverted) Warn("colour-converted", $"The picture holds {header.Interpretation.ToString().ToUpperInvariant()} values, not RGB; it was converted to sRGB, so its values are not those in the file.");
        if (header.Format is Enums.BandFormat.Uint or Enums.BandFormat.Int) Warn("wide-integers", "Samples have 32 bits; above 16 777 216 they are rounded, at most by one part in 16 million.");
        if (header.Format is Enums.BandFormat.Double) Warn("wide-floats", "Samples have 64 bits; they are computed with 32 bits (7 digits).");
        var alpha = header.HasAlpha() && header.Interpretation is not (Enums.Interpretation.Multiband or Enums.Interpretation.Matrix);
        var format = image.IsConverted ? image.Format switch { TileFormat.UInt8 => SampleFormat.UInt8, TileFormat.UInt16 => SampleFormat.UInt16, _ => SampleFormat.Float } : FormatOf(header);
        return Facts(image, format, image.IsConverted ? image.Format.FullScale() : FullScale(header), alpha, tiff ?? Exif(header), tiff is null ? Density(header) : TiffDensity(), image.IccProfile, VipsSource.Orientation(header));
    }

    /// <summary>Pages of a TIFF that are pictures of their own: no reduced copies, no masks.</summary>
    public static int Pages(TiffDirectory first)
    {
        var (pages, seen) = (1, new HashSet<long>());
        try
        {
            for (var d = first; d.Next > 0 && seen.Count < 10_000 && seen.Add(d.Next);)
            {
                d = d.At(d.Next);
                if ((d.Number(TiffTag.NewSubfileType, 0) & 5) == 0) pages++;
            }
        }
        catch (InvalidDataException)
        {
            // A broken page after the first does no harm to the first.
        }
        return pages;
    }

    private ImageFacts Facts(IPixelSource image, SampleFormat format, double fullScale, bool alpha, TiffDirectory? tags, (double X, double Y)? density, byte[]? icc, int orientation)
    {
        var promised = FileKind.BySuffix(path);
        if (promised != kind && !(promised is "heif" && kind is "avif"))
            Warn("suffix-mismatch", $"{Path.GetFileName(path)} is a {kind.ToUpperInvariant()} file by its content.");
        var pages = tiff is null ? 1 : Pages(tiff);
        if (pages > 1) Warn("several-pages", $"The file has {pages} pages; only the first is used.");
        if (orientation > 1) Warn("orientation-applied", "The file asks to be shown turned or mirrored; it is used that way.");
        var colours = image.Bands - (alpha ? 1 : 0);
        if (icc is null && colours >= 3) Warn("no-icc-profile", "The colours are untagged (no ICC profile); they are shown as if they were sRGB.");
        return new ImageFacts
        {
            Width = image.Width,
            Height = image.Height,
            Bands = image.Bands,
            Format = format,
            FullScale = fullScale,
            Kind = kind,
            Pages = pages,
            HasAlpha = alpha,
            Scale = Scale(density),
            IccDescription = icc is null ? null : IccText.Description(icc) ?? "profile without a name",
            TakenAt = TakenAt(tags),
            Camera = Camera(tags),
            Description = tags?.Text(TiffTag.ImageDescription),
            Warnings = _warnings,
        };
    }

    private PixelScale? Scale((double X, double Y)? density)
    {
        if (density is not { } d || d.X <= 0 || d.Y <= 0) return null;
        if (Array.Exists(NeverMeasured, v => Math.Abs(d.X - v) < 0.05) || Math.Abs(d.X / d.Y - 1) > 0.01 || d.X is < 5 or > 500_000)
        {
            Warn("resolution-not-believable", string.Create(CultureInfo.InvariantCulture, $"The file states {d.X:0.##} x {d.Y:0.##} pixels per inch, a default that nobody measured; no scale is taken from it."));
            return null;
        }
        if (Array.Exists(Customary, v => Math.Abs(d.X - v) < 0.05))
            Warn("resolution-may-be-default", string.Create(CultureInfo.InvariantCulture, $"The file states {d.X:0.##} pixels per inch, which cameras and converters write by custom; check it against a ruler."));
        return PixelScale.FromPixelsPerInch(d.X, ScaleOrigin.Metadata);
    }

    private (double, double)? TiffDensity()
    {
        var perInch = tiff!.Number(TiffTag.ResolutionUnit, 2) switch { 2 => 1.0, 3 => 2.54, _ => 0 };
        return tiff.Real(TiffTag.XResolution) is { } x && tiff.Real(TiffTag.YResolution) is { } y ? (x * perInch, y * perInch) : null;
    }

    // libvips gives pixels per mm, and 1 or 72 per inch when the file says nothing: whether it did cannot be told.
    private static (double, double)? Density(Image header)
    {
        var (x, y) = (header.Xres * 25.4, header.Yres * 25.4);
        return Array.Exists(NeverMeasured, v => Math.Abs(x - v) < 0.05) ? null : (x, y);
    }

    private static TiffDirectory? Exif(Image header)
    {
        if (!header.Contains("exif-data") || header.Get("exif-data") is not byte[] { Length: > 16 } block) return null;
        var start = block.AsSpan().StartsWith("Exif\0\0"u8) ? 6 : 0;
        try
        {
            return TiffDirectory.First(new MemoryStream(block, start, block.Length - start));
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }

    private static DateTime? TakenAt(TiffDirectory? tags)
    {
        if (tags?.Number(TiffTag.ExifIfd, 0) is not (> 0 and var at)) return null;
        try
        {
            return DateTime.TryParseExact(tags.At(at).Text(TiffTag.ExifTakenAt), "yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture, DateTimeStyles.None, out var t) ? t : null;
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }

    private static string? Camera(TiffDirectory? tags)
    {
        var (make, model) = (tags?.Text(TiffTag.Make), tags?.Text(TiffTag.Model));
        return make is null || (model?.StartsWith(make, StringComparison.OrdinalIgnoreCase) ?? false) ? model : $"{make} {model}".Trim();
    }

    private static SampleFormat FormatOf(Image image) => image.Format switch
    {
        Enums.BandFormat.Uchar => SampleFormat.UInt8,
        Enums.BandFormat.Ushort => SampleFormat.UInt16,
        Enums.BandFormat.Uint => SampleFormat.UInt32,
        Enums.BandFormat.Float or Enums.BandFormat.Double => SampleFormat.Float,
        _ => SampleFormat.Signed,
    };

    private static double FullScale(Image image) => image.Format switch
    {
        Enums.BandFormat.Uchar => byte.MaxValue,
        Enums.BandFormat.Ushort => ushort.MaxValue,
        Enums.BandFormat.Uint => uint.MaxValue,
        Enums.BandFormat.Char => sbyte.MaxValue,
        Enums.BandFormat.Short => short.MaxValue,
        Enums.BandFormat.Int => int.MaxValue,
        _ => 1,
    };

    private void Warn(string code, string message) => _warnings.Add(new Warning(code, message));
}
