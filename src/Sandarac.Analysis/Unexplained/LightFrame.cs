using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Quality;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Unexplained;

/// <summary>A photograph as light: its tone curve undone, and divided by a photograph of an even board under the same lamps where there is one.</summary>
/// <param name="image">The photograph.</param>
/// <param name="board">The even board, in the camera's own pixels; null when there is none.</param>
internal sealed class LightFrame(InputImage image, EvenBoard? board)
{
    private readonly Func<float, float> _light = LightOf(image);
    private readonly PlaneMap _toImage = image.Original?.ToImage ?? new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1]);

    /// <summary>The photograph in a slot, divided by the board in the slot's board slot (<c>slot-board</c>) where there is one.</summary>
    /// <exception cref="InputProblem">The board is black, or was not taken in the photograph's frame.</exception>
    public static LightFrame In(string slot, RunContext context)
    {
        var image = context.Inputs(slot)[0];
        if (context.Inputs(slot + "-board") is not [var given, ..]) return new LightFrame(image, null);
        var board = EvenBoard.Of(given, context);
        var facts = image.Image.Facts;
        if (image.Original is null) board.RequireFits(image.Name, facts.Width, facts.Height, Levels.Bands.Count(facts));
        return new LightFrame(image, board);
    }

    public InputImage Image => image;

    /// <summary>Bands that hold light.</summary>
    public int Bands => Levels.Bands.Count(image.Image.Facts);

    /// <summary>A window as light: 1 is the board's, or full scale without a board; NaN is no data.</summary>
    /// <param name="window">The window's bands as they are in the file.</param>
    /// <param name="left">Its first column.</param>
    /// <param name="top">Its first row.</param>
    public Plane[] Of(Plane[] window, int left, int top) =>
        [.. Levels.Bands.Of(window, image.Image.Facts).Select((plane, band) => Divided(plane.Select(_light), band, left, top))];

    /// <summary>How the values of a file encode light.</summary>
    public static Func<float, float> LightOf(InputImage image)
    {
        var facts = image.Image.Facts;
        var tone = ToneCurve.For("profile", facts.IccDescription);
        return Levels.Bands.AreSmallIntegers(facts) ? tone.Table(facts.FullScale) : v => (float)tone.Light(v / facts.FullScale);
    }

    private Plane Divided(Plane light, int band, int left, int top)
    {
        if (board is null) return light;
        for (var y = 0; y < light.Height; y++)
            for (var x = 0; x < light.Width; x++)
                light[x, y] /= board.At(band, _toImage.ToPixel(new Point2(left + x + 0.5, top + y + 0.5)));
        return light;
    }
}
