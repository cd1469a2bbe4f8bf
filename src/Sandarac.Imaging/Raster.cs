namespace Sandarac.Imaging;

/// <summary>Bands of equal size that belong together, with their names and unit, held in memory. Large images stay in an
/// <see cref="Formats.ImageFile"/> and are read window by window.</summary>
public sealed class Raster
{
    /// <summary>Joins bands into a raster.</summary>
    /// <param name="bands">At least one plane, all of one size.</param>
    /// <param name="names">A name for each band: "R", "G", "B"; "grey"; "height".</param>
    /// <param name="unit">Unit of the values: "counts", "um", "relative", "1" for pure ratios.</param>
    /// <param name="scale">Millimetres per pixel when known.</param>
    public Raster(IReadOnlyList<Plane> bands, IReadOnlyList<string> names, string unit, PixelScale? scale = null)
    {
        if (bands.Count == 0) throw new ArgumentException("A raster has at least one band.", nameof(bands));
        if (bands.Any(b => b.Width != bands[0].Width || b.Height != bands[0].Height))
            throw new ArgumentException("All bands of a raster have one size.", nameof(bands));
        if (names.Count != bands.Count) throw new ArgumentException("Every band has a name.", nameof(names));
        Bands = bands;
        Names = names;
        Unit = unit;
        Scale = scale;
    }

    /// <summary>The bands.</summary>
    public IReadOnlyList<Plane> Bands { get; }

    /// <summary>The bands' names.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>Unit of the values.</summary>
    public string Unit { get; }

    /// <summary>Millimetres per pixel, when known.</summary>
    public PixelScale? Scale { get; }

    /// <summary>Columns.</summary>
    public int Width => Bands[0].Width;

    /// <summary>Rows.</summary>
    public int Height => Bands[0].Height;
}
