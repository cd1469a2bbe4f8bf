using Sandarac.Imaging;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;

namespace Sandarac.Studio;

/// <summary>A part of a layer on the plane as a picture: the same place of several layers at the same scale, whatever their pixels.</summary>
public static class PlaneDetail
{
    /// <summary>Most pixels of a picture's longer side.</summary>
    public const int Longest = 2000;

    /// <summary>Draws it, mid-grey where the layer shows nothing.</summary>
    /// <param name="studio">The studio.</param>
    /// <param name="layer">A layer on the plane.</param>
    /// <param name="place">Which part, mm, y down.</param>
    /// <param name="longest">Pixels of the longer side, 1 to <see cref="Longest"/>.</param>
    /// <param name="format">What to make.</param>
    /// <exception cref="InputProblem">The layer is not on the plane ("not-on-plane"), or the place or the number of pixels cannot be ("place").</exception>
    public static byte[] Draw(OpenStudio studio, Layer layer, Box place, int longest, DisplayFormat format = DisplayFormat.Webp)
    {
        if (layer.MmPerPixel is not { } mm || !layer.OnPlane) throw new InputProblem("not-on-plane", layer.Id, "The layer is not on the plane, so that nobody knows where a place lies on it.", "Align its photograph first.");
        if (longest is < 1 or > Longest || !(place is { Width: > 0, Height: > 0 } && Math.Max(Math.Abs(place.Left), Math.Abs(place.Top)) + place.Width + place.Height < 1e6))
            throw new InputProblem("place", "place", $"The place has no area on a painting, or the picture would have no side of 1 to {Longest} pixels.", "Give left, top, width and height in mm, and a smaller picture.");
        var scale = longest / Math.Max(place.Width, place.Height);
        var (width, height) = (Math.Max(1, (int)Math.Round(place.Width * scale)), Math.Max(1, (int)Math.Round(place.Height * scale)));
        var map = new HomographyMap([mm * scale, 0, (layer.Extent.Left - place.Left) * scale, 0, mm * scale, (layer.Extent.Top - place.Top) * scale, 0, 0, 1]);
        return Draw(studio, layer.Pyramid.Sha256, map, width, height, format);
    }

    /// <summary>A pyramid's pixels where a map puts them.</summary>
    /// <param name="studio">The studio.</param>
    /// <param name="sha256">The pyramid.</param>
    /// <param name="map">From its pixels to the picture's.</param>
    /// <param name="width">Of the picture, pixels.</param>
    /// <param name="height">Of the picture, pixels.</param>
    /// <param name="format">What to make.</param>
    internal static byte[] Draw(OpenStudio studio, string sha256, PlaneMap map, int width, int height, DisplayFormat format) => studio.Pyramids.Read(sha256, file =>
    {
        var bands = PlaneResampler.Window(file, map, new PlaneGrid(new Box(0, 0, width, height), 1), 0, 0, width, height);
        return DisplayEncoder.Encode(bands, file.Format, file.Format == TileFormat.Float32 ? ContrastWindow.Suggest(file) : ContrastWindow.Full(file.Format), file.IccProfile, format);
    });
}
