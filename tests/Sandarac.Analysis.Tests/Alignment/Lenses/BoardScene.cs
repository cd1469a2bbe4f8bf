using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Lenses;

/// <summary>A chessboard photographed through a known map.</summary>
internal static class BoardScene
{
    /// <summary>Squares of 4 mm about the origin, 4 x 4 samples a pixel, with a little noise.</summary>
    public static Plane Photograph(int width, int height, HomographyMap map, double half = 100) => Synthetic.Of(width, height, (x, y) =>
    {
        double sum = 0;
        for (var i = 0; i < 16; i++)
        {
            var mm = map.ToPlane(new Point2(x - 0.375 + i % 4 / 4.0, y - 0.375 + i / 4 / 4.0));
            sum += Math.Max(Math.Abs(mm.X), Math.Abs(mm.Y)) < half && (Math.Floor(mm.X / 4) + Math.Floor(mm.Y / 4)) % 2 == 0 ? 0.1 : 0.8;
        }
        return sum / 16;
    }).AddNoise(0.005, 9);
}
