using NetVips;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Display;

/// <summary>A file format for pictures that are only looked at.</summary>
public enum DisplayFormat
{
    /// <summary>WebP; keeps alpha.</summary>
    Webp,

    /// <summary>JPEG; alpha is laid on mid-grey.</summary>
    Jpeg,

    /// <summary>PNG, without loss; keeps alpha.</summary>
    Png,
}

/// <summary>Turns pixels into small 8-bit sRGB pictures: tiles, thumbnails, previews. Colours of a tagged image go through its profile.</summary>
public static class DisplayEncoder
{
    /// <summary>Encodes 8-bit pixels, such as a tile of <see cref="PyramidFile"/>.</summary>
    /// <param name="pixels">Pixel-interleaved; 1, 2 (grey and alpha), 3 or 4 (RGB and alpha) bands, of more only the first is shown.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    /// <param name="bands">Bands.</param>
    /// <param name="iccProfile">The image's profile; null to take the values as sRGB.</param>
    /// <param name="format">What to make.</param>
    /// <param name="quality">1 to 100; PNG has none.</param>
    public static byte[] Encode(ReadOnlySpan<byte> pixels, int width, int height, int bands, byte[]? iccProfile, DisplayFormat format, int quality = 90)
    {
        using var image = Image.NewFromMemoryCopy(pixels[..(width * height * bands)], width, height, bands, Enums.BandFormat.Uchar);
        using var display = ToSrgb(image, iccProfile);
        return Save(display, format, quality);
    }

    /// <summary>A small picture of a pyramid, its longer side at most <paramref name="longestSide"/>.</summary>
    /// <param name="pyramid">The image.</param>
    /// <param name="longestSide">Pixels.</param>
    /// <param name="window">What is black and white; null for the full range of integers, and a suggested one for floats.</param>
    /// <param name="format">What to make.</param>
    /// <param name="quality">1 to 100.</param>
    public static byte[] Thumbnail(PyramidFile pyramid, int longestSide = 256, ContrastWindow? window = null, DisplayFormat format = DisplayFormat.Webp, int quality = 85)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(longestSide, 1);
        var level = Enumerable.Range(0, pyramid.Levels.Count).Last(l => l == 0 || Math.Max(pyramid.Levels[l].Width, pyramid.Levels[l].Height) >= longestSide);
        var size = pyramid.Levels[level];
        var bands = pyramid.ReadWindow(level, 0, 0, size.Width, size.Height);
        var shown = window ?? (pyramid.Format == TileFormat.Float32 ? ContrastWindow.Suggest(pyramid) : ContrastWindow.Full(pyramid.Format));
        using var image = Windowed(bands, shown, pyramid.Format);
        using var display = ToSrgb(image, pyramid.IccProfile);
        var factor = Math.Min(1, longestSide / (double)Math.Max(size.Width, size.Height));
        using var small = factor < 1 ? display.ThumbnailImage(Math.Max(1, (int)Math.Round(size.Width * factor)), height: Math.Max(1, (int)Math.Round(size.Height * factor)), size: Enums.Size.Force) : display.Copy();
        return Save(small, format, quality);
    }

    /// <summary>An 8-bit picture of float planes that a person can look at.</summary>
    /// <param name="bands">One plane shows grey, three show red, green and blue; of other numbers the first is shown. NaN becomes mid-grey.</param>
    /// <param name="window">What is black and white.</param>
    /// <param name="format">What to make.</param>
    public static byte[] Preview(IReadOnlyList<Plane> bands, ContrastWindow window, DisplayFormat format = DisplayFormat.Png)
    {
        using var image = Windowed(bands.Count == 3 ? bands : [bands[0]], window, TileFormat.Float32);
        return Save(image, format, 90);
    }

    /// <summary>A picture of a window of pixels, such as a tile of a picture for the web. Colours of a tagged image go through its profile.</summary>
    /// <param name="bands">The pixels: 1, 2 (grey and alpha), 3 or 4 (RGB and alpha) bands, of more only the first is shown. NaN becomes mid-grey.</param>
    /// <param name="format">How the image holds them; says how alpha is scaled.</param>
    /// <param name="window">What is black and white.</param>
    /// <param name="iccProfile">The image's profile; null to take the values as sRGB.</param>
    /// <param name="display">What to make.</param>
    /// <param name="quality">1 to 100; PNG has none.</param>
    public static byte[] Encode(IReadOnlyList<Plane> bands, TileFormat format, ContrastWindow window, byte[]? iccProfile, DisplayFormat display, int quality = 90)
    {
        using var image = Windowed(bands, window, format);
        using var shown = ToSrgb(image, iccProfile);
        return Save(shown, display, quality);
    }

    private static Image Windowed(IReadOnlyList<Plane> bands, ContrastWindow window, TileFormat format)
    {
        var (width, height, count) = (bands[0].Width, bands[0].Height, bands.Count);
        var pixels = new byte[checked(width * height * count)];
        for (var b = 0; b < count; b++)
        {
            var alpha = count is 2 or 4 && b == count - 1 && format != TileFormat.Float32;
            var (low, scale) = alpha ? (0, 255 / format.FullScale()) : (window.Low, 255 / (window.High - window.Low));
            var data = bands[b].Data;
            for (int i = 0, o = b; i < data.Length; i++, o += count)
                pixels[o] = float.IsNaN(data[i]) ? (byte)128 : (byte)Math.Clamp((data[i] - low) * scale + 0.5, 0, 255);
        }
        return Image.NewFromMemory(pixels, width, height, count, Enums.BandFormat.Uchar);
    }

    private static Image ToSrgb(Image image, byte[]? icc)
    {
        VipsSource.Prepare();
        if (image.Bands > 4) image = image[0];
        var grey = image.Bands < 3;
        using var tagged = image.Copy(interpretation: grey ? Enums.Interpretation.Bw : Enums.Interpretation.Srgb);
        if (icc is null || grey) return tagged.Copy();
        using var withProfile = tagged.Mutate(m => m.Set(global::NetVips.GValue.BlobType, "icc-profile-data", icc));
        return withProfile.IccTransform("srgb", intent: Enums.Intent.Relative, blackPointCompensation: true, embedded: true).CopyMemory();
    }

    private static byte[] Save(Image image, DisplayFormat format, int quality) => format switch
    {
        DisplayFormat.Webp => image.WebpsaveBuffer(q: quality, effort: 0, keep: Enums.ForeignKeep.None),
        DisplayFormat.Jpeg => image.JpegsaveBuffer(q: quality, keep: Enums.ForeignKeep.None, background: [119]),
        _ => image.PngsaveBuffer(compression: 6, keep: Enums.ForeignKeep.None),
    };
}
