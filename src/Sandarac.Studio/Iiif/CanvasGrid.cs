using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Iiif;

/// <summary>The painting's face in whole pixels: what every exported picture is laid on, so that all of them register.</summary>
/// <param name="Finest">The grid that the painting's plane images share.</param>
/// <param name="Coarser">How many times it is halved; sizes round up.</param>
internal sealed record CanvasGrid(PlaneGrid Finest, int Coarser)
{
    /// <summary>Columns.</summary>
    public int Width => Halved(Finest.Width, Coarser);

    /// <summary>Rows.</summary>
    public int Height => Halved(Finest.Height, Coarser);

    /// <summary>Side of a pixel, mm.</summary>
    public double MmPerPixel => Finest.MmPerPixel * (1 << Coarser);

    /// <summary>Sizes in which it is cut into tiles: itself, half, a quarter and so on, down to the first that fits into one tile.</summary>
    public int Scales
    {
        get
        {
            var scales = 1;
            while (Math.Max(SizeAt(scales - 1).Width, SizeAt(scales - 1).Height) > PyramidFile.TileSize) scales++;
            return scales;
        }
    }

    /// <summary>The grid for a painting.</summary>
    /// <param name="painting">The painting.</param>
    /// <param name="longestSide">The longer side has at most so many pixels; 0 for all that there are.</param>
    /// <exception cref="InputProblem">Nothing is on the plane ("nothing-aligned"); "longest-side": less than a tile.</exception>
    public static CanvasGrid Of(Painting painting, int longestSide)
    {
        if (painting.WidthMm <= 0 || painting.PlaneMmPerPixel <= 0)
            throw new InputProblem("nothing-aligned", painting.Title, "No photograph of this painting is on the plane yet, so there is nothing to show.", "Examine its photographs, or set the corners of one on the Easel.");
        if (longestSide is not 0 and < PyramidFile.TileSize)
            throw new InputProblem("longest-side", "longest-side", $"{longestSide} pixels are too few.", $"Give at least {PyramidFile.TileSize}, or leave it out for all pixels.");
        var grid = new CanvasGrid(PlaneGrid.Covering(new Box(0, 0, painting.WidthMm, painting.HeightMm), painting.PlaneMmPerPixel), 0);
        while (longestSide > 0 && Math.Max(grid.Width, grid.Height) > longestSide) grid = grid with { Coarser = grid.Coarser + 1 };
        return grid;
    }

    /// <summary>Columns and rows when it is halved so many times.</summary>
    public (int Width, int Height) SizeAt(int scale) => (Halved(Finest.Width, Coarser + scale), Halved(Finest.Height, Coarser + scale));

    /// <summary>Where a place on the plane lies, pixels: (0, 0) is the outer corner of the first one.</summary>
    public Point2 ToPixel(double xMm, double yMm) => new((xMm - Finest.ExtentMm.Left) / MmPerPixel, (yMm - Finest.ExtentMm.Top) / MmPerPixel);

    private static int Halved(int size, int times) => ((size - 1) >> times) + 1;
}
