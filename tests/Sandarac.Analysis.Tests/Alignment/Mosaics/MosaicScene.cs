using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Mosaics;

/// <summary>Four overlapping tiles of one analytic texture, each drawn at its own place, a little turned and sheared, with its own exposure.</summary>
internal static class MosaicScene
{
    public const int Side = 440;
    public const int WholeWidth = 770;
    public const int WholeHeight = 765;

    public static readonly Texture Painting = new(21, 7, 160);

    /// <summary>From a tile's pixels to the whole's.</summary>
    public static readonly HomographyMap[] Places =
    [
        new([1, 0, 12, 0, 1, 10, 0, 0, 1]), new([1.004, 0.006, 303.4, -0.005, 0.998, 9.3, 0, 0, 1]),
        new([0.997, -0.008, 11.7, 0.007, 1.003, 301.8, 0, 0, 1]), new([1.002, 0.004, 304.6, -0.006, 1.005, 299.1, 0, 0, 1]),
    ];

    public static readonly double[] Factors = [1, 0.92, 1.07, 0.97];

    public static Plane Tile(int i) => Painting.Photograph(Side, Side, Places[i].ToPlane).Select(v => (float)(Factors[i] * v));

    public static InputImage Image(TempFolder folder, string name, Plane plane) => TestRun.Open(TestTiff.WriteFloat(folder[name], plane));
}
