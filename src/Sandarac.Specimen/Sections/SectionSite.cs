using System.Runtime.Intrinsics;
using Sandarac.Specimen.Layers;

namespace Sandarac.Specimen.Sections;

/// <summary>Where a sample was taken, and why.</summary>
internal sealed record SectionSite(string Name, float X, float Y, string Why)
{
    /// <summary>Length of the section along x, mm, and the number of places at which the stack is read.</summary>
    public const float LengthMm = 0.6f;

    public const int Readings = 7;

    public static IReadOnlyList<SectionSite> All { get; } =
    [
        new("S1", 412.0f, 116.0f, "sunlit cloud, retouched: is the dark patch in luminescence later than the varnish?"),
        new("S2", 452.0f, 377.0f, "sand in the lower right, where infrared shows a shape: what lies beneath?"),
    ];

    /// <summary>Thickness of the layer just laid at each reading, um, and the surface it left.</summary>
    public SiteLayer Read(Canvas canvas, int number)
    {
        var um = Enumerable.Range(0, Readings).Select(n => At(canvas, X + n * LengthMm / (Readings - 1), Y)).ToArray();
        var i = Index(canvas.Grid, X + LengthMm / 2, Y);
        return new SiteLayer(number, um, canvas.Reflectance[i], canvas.Glow[i]);
    }

    private static float At(Canvas canvas, float x, float y)
    {
        var grid = canvas.Grid;
        var (fx, fy) = (x / grid.MmPerPixel - 0.5f, y / grid.MmPerPixel - 0.5f);
        var (ix, iy) = ((int)fx, (int)fy);
        var (tx, ty) = (fx - ix, fy - iy);
        var i = iy * grid.Width + ix;
        var top = canvas.Layer[i] + tx * (canvas.Layer[i + 1] - canvas.Layer[i]);
        var low = canvas.Layer[i + grid.Width] + tx * (canvas.Layer[i + grid.Width + 1] - canvas.Layer[i + grid.Width]);
        return top + ty * (low - top);
    }

    private static int Index(PlaneGrid grid, float x, float y) => (int)(y / grid.MmPerPixel) * grid.Width + (int)(x / grid.MmPerPixel);
}

/// <summary>One layer at one site.</summary>
/// <param name="Number">The layer's number in the stack.</param>
/// <param name="Um">Thickness at each reading, um.</param>
/// <param name="Surface">Reflectance of the surface it left.</param>
/// <param name="Glow">Luminescence of the surface it left.</param>
internal sealed record SiteLayer(int Number, float[] Um, Vector128<float> Surface, Vector128<float> Glow);
