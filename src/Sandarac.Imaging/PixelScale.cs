namespace Sandarac.Imaging;

/// <summary>Where a scale comes from; shown beside every length that rests on it.</summary>
public enum ScaleOrigin
{
    /// <summary>Measured on the object.</summary>
    Measured,

    /// <summary>One distance was measured on the object; the rest follows from the photographs.</summary>
    Distance,

    /// <summary>Worked out from a ruler in a photograph.</summary>
    Ruler,

    /// <summary>Taken from the file's resolution tags, which cameras often fill with a default.</summary>
    Metadata,

    /// <summary>Stated without a measurement.</summary>
    Assumed,
}

/// <summary>The size of a pixel on the object.</summary>
/// <param name="MmPerPixel">Millimetres per pixel, greater than 0.</param>
/// <param name="Origin">Where the figure comes from.</param>
public readonly record struct PixelScale(double MmPerPixel, ScaleOrigin Origin)
{
    /// <summary>Pixels per inch.</summary>
    public double PixelsPerInch => 25.4 / MmPerPixel;

    /// <summary>The scale of an image of so many pixels per inch.</summary>
    public static PixelScale FromPixelsPerInch(double pixelsPerInch, ScaleOrigin origin) => new(25.4 / pixelsPerInch, origin);
}
