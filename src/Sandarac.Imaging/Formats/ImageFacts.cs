namespace Sandarac.Imaging.Formats;

/// <summary>How a sample is stored in a file.</summary>
public enum SampleFormat
{
    /// <summary>Unsigned 8-bit, 0-255.</summary>
    UInt8,

    /// <summary>Unsigned 16-bit, 0-65535.</summary>
    UInt16,

    /// <summary>Unsigned 32-bit.</summary>
    UInt32,

    /// <summary>Signed 8-, 16- or 32-bit.</summary>
    Signed,

    /// <summary>32- or 64-bit floating point.</summary>
    Float,
}

/// <summary>What the header of an image file says; read without decoding its pixels.</summary>
public sealed record ImageFacts
{
    /// <summary>Columns.</summary>
    public required int Width { get; init; }

    /// <summary>Rows.</summary>
    public required int Height { get; init; }

    /// <summary>Bands, an alpha band included.</summary>
    public required int Bands { get; init; }

    /// <summary>How samples are stored.</summary>
    public required SampleFormat Format { get; init; }

    /// <summary>Largest value the format's integers can hold (255, 65535, ...); 1 for floats.</summary>
    public required double FullScale { get; init; }

    /// <summary>The file's kind by its content: "tiff", "png", "jpeg", "webp", "avif", "heif".</summary>
    public required string Kind { get; init; }

    /// <summary>Pages; only the first is used as the photograph.</summary>
    public int Pages { get; init; } = 1;

    /// <summary>Whether the last band is an alpha band.</summary>
    public bool HasAlpha { get; init; }

    /// <summary>Resolution tags, when the file has believable ones.</summary>
    public PixelScale? Scale { get; init; }

    /// <summary>Description of the embedded ICC profile; null when untagged.</summary>
    public string? IccDescription { get; init; }

    /// <summary>EXIF DateTimeOriginal, local time without zone.</summary>
    public DateTime? TakenAt { get; init; }

    /// <summary>EXIF camera maker and model.</summary>
    public string? Camera { get; init; }

    /// <summary>EXIF or TIFF ImageDescription, as written by whoever made the file.</summary>
    public string? Description { get; init; }

    /// <summary>What a person should know: untagged colour, several pages, unlikely resolution.</summary>
    public IReadOnlyList<Warning> Warnings { get; init; } = [];
}
