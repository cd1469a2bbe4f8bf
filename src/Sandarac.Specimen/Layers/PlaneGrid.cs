namespace Sandarac.Specimen.Layers;

/// <summary>The grid on which the painting is built: pixel (i, j) has its centre at ((i + 0.5), (j + 0.5)) x mm per pixel from the upper
/// left corner.</summary>
internal sealed class PlaneGrid
{
    public PlaneGrid(double pixelsPerInch)
    {
        MmPerPixel = (float)(25.4 / pixelsPerInch);
        Width = (int)Math.Ceiling(SpecimenPainting.WidthMm / MmPerPixel);
        Height = (int)Math.Ceiling(SpecimenPainting.HeightMm / MmPerPixel);
    }

    public float MmPerPixel { get; }

    public int Width { get; }

    public int Height { get; }

    public int Count => Width * Height;

    /// <summary>Distance of a column's centre from the left edge, mm.</summary>
    public float X(int column) => (column + 0.5f) * MmPerPixel;

    /// <summary>Distance of a row's centre from the top edge, mm.</summary>
    public float Y(int row) => (row + 0.5f) * MmPerPixel;
}
