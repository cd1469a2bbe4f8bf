using Sandarac.Imaging;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;

namespace Sandarac.Studio.Iiif;

/// <summary>An image on the plane, seen through the canvas's pixels: read as it lies when it has that grid, else brought onto it. Where it shows nothing it is mid-grey.</summary>
/// <param name="file">The image.</param>
/// <param name="extent">Where it lies, mm.</param>
/// <param name="window">What is shown black and white.</param>
/// <param name="canvas">The canvas.</param>
internal sealed class PlanePicture(PyramidFile file, Box extent, ContrastWindow window, CanvasGrid canvas)
{
    /// <summary>From 90 on the encoder keeps colour at full resolution: lights are compared edge by edge.</summary>
    private const int Quality = 90;

    private bool HasItsGrid => file.Width == canvas.Finest.Width && file.Height == canvas.Finest.Height && extent.Left == canvas.Finest.ExtentMm.Left && extent.Top == canvas.Finest.ExtentMm.Top
        && Math.Abs(extent.Width / file.Width / canvas.Finest.MmPerPixel - 1) < 1e-9;

    /// <summary>A JPEG of a window of the canvas.</summary>
    /// <param name="scale">How many times the canvas is halved.</param>
    /// <param name="left">First column at that scale.</param>
    /// <param name="top">First row at that scale.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    public byte[] Jpeg(int scale, int left, int top, int width, int height) =>
        DisplayEncoder.Encode(Read(scale, left, top, width, height), file.Format, window, file.IccProfile, DisplayFormat.Jpeg, Quality);

    private Plane[] Read(int scale, int left, int top, int width, int height)
    {
        var halvings = canvas.Coarser + scale;
        if (HasItsGrid) return file.ReadWindow(halvings, left, top, width, height);
        var (sx, sy) = (extent.Width / file.Width, extent.Height / file.Height);
        var map = new HomographyMap([sx, 0, extent.Left, 0, sy, extent.Top, 0, 0, 1]);
        var grid = canvas.Finest with { MmPerPixel = canvas.Finest.MmPerPixel * (1 << halvings) };
        return PlaneResampler.Window(file, map, grid, left, top, width, height);
    }
}
