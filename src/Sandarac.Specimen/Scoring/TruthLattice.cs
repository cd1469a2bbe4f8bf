using NetTopologySuite.Algorithm.Locate;
using NetTopologySuite.Geometries;
using Sandarac.Imaging.Formats;

namespace Sandarac.Specimen.Scoring;

/// <summary>The painted face as a square lattice of points, on which truth and what was found are compared.</summary>
internal static class TruthLattice
{
    /// <summary>Distance of the points, mm.</summary>
    public const double StepMm = 0.5;

    public static int Columns { get; } = (int)(SpecimenPainting.WidthMm / StepMm);

    public static int Rows { get; } = (int)(SpecimenPainting.HeightMm / StepMm);

    /// <summary>A raster of the truth at each point, row by row.</summary>
    /// <param name="file">The file; its first pixel's outer corner lies in the face's upper left corner.</param>
    /// <param name="unit">What a number of the file means.</param>
    public static float[] Values(string file, double unit)
    {
        using var image = ImageFile.Open(file);
        var (width, height) = (image.Facts.Width, image.Facts.Height);
        var plane = image.ReadWindow(0, 0, width, height)[0];
        var values = new float[Columns * Rows];
        for (var i = 0; i < values.Length; i++)
            values[i] = (float)(unit * plane[(int)((i % Columns + 0.5) / Columns * width), (int)((i / Columns + 0.5) / Rows * height)]);
        return values;
    }

    /// <summary>Share of a phenomenon at each point, 0 to 1.</summary>
    public static float[] Mask(string folder, string name) => Values(Path.Combine(folder, "truth", "masks", name + ".tif"), 1 / 255.0);

    /// <summary>The points in a place; mm, y down.</summary>
    public static IEnumerable<int> Inside(Geometry place)
    {
        var (box, locator) = (place.EnvelopeInternal, new IndexedPointInAreaLocator(place));
        for (var row = Math.Max(0, (int)(box.MinY / StepMm)); row < Rows && row * StepMm < box.MaxY; row++)
            for (var column = Math.Max(0, (int)(box.MinX / StepMm)); column < Columns && column * StepMm < box.MaxX; column++)
                if (locator.Locate(new Coordinate((column + 0.5) * StepMm, (row + 0.5) * StepMm)) == Location.Interior) yield return row * Columns + column;
    }
}
