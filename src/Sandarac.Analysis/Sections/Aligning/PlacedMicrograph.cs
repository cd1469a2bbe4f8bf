using Sandarac.Analysis.Alignment;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Sections.Aligning;

/// <summary>A micrograph on the visible one's grid: the file itself, or what a map makes of it.</summary>
/// <param name="Image">The file.</param>
/// <param name="Grid">The visible micrograph's facts.</param>
/// <param name="Moved">Its pyramid and where it lies, pixels of the visible one; null where the file lies on that grid as it is.</param>
/// <param name="IsGrey">Whether its first band says all of it: programs of electron microscopes store grey as three equal bands.</param>
internal sealed record PlacedMicrograph(InputImage Image, ImageFacts Grid, (PyramidFile File, PlaneMap Map)? Moved, bool IsGrey = false)
{
    /// <summary>Its light's bands as shares of full scale in a window of the grid; NaN where it shows nothing.</summary>
    public Plane[] Read(int left, int top, int width, int height)
    {
        var window = Moved is { } m ? PlaneResampler.Window(m.File, m.Map, new PlaneGrid(new Box(0, 0, Grid.Width, Grid.Height), 1), left, top, width, height) : Image.Image.ReadWindow(left, top, width, height);
        return AsShares(window);
    }

    /// <summary>The same brought down by a whole factor so that the grid's longer side has at most so many pixels.</summary>
    public ReducedImage Reduced(int longestSide, RunContext context)
    {
        if (Moved is not { } m) return ReducedImage.Of(Image, longestSide, context) is var r && IsGrey ? r with { Planes = r.Planes[..1] } : r;
        var factor = (Math.Max(Grid.Width, Grid.Height) + longestSide - 1) / longestSide;
        var (width, height) = (Math.Max(1, Grid.Width / factor), Math.Max(1, Grid.Height / factor));
        return new ReducedImage(factor, AsShares(PlaneResampler.Window(m.File, m.Map, new PlaneGrid(new Box(0, 0, width * factor, height * factor), factor), 0, 0, width, height)));
    }

    private Plane[] AsShares(Plane[] window)
    {
        var facts = Image.Image.Facts;
        return [.. Bands.Of(window, facts).Take(IsGrey ? 1 : facts.Bands).Select(b => facts.FullScale == 1 ? b : b.Select(v => (float)(v / facts.FullScale)))];
    }
}
