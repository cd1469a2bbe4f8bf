using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Relief;

/// <summary>A photograph in raking light as light: tone curve undone, divided by the even board's where there is one, mean of its bands, NaN where a band is clipped.</summary>
internal sealed class RakingFrame
{
    /// <summary>Share of full scale from which a value counts as clipped: bringing a photograph onto the plane moves clipped values by less than a hundredth.</summary>
    private const double Clipped = 0.99;

    /// <summary>Side of the cells over which the board's light is laid, pixels: the board itself is known in squares of 64.</summary>
    private const int Cell = 32;

    private readonly InputImage _image;
    private readonly Func<float, float> _light;
    private readonly CellField[] _board;
    private readonly float _clip;

    /// <summary>Opens a photograph.</summary>
    /// <param name="image">The photograph.</param>
    /// <param name="board">The even board under its lamp; null for none.</param>
    /// <param name="keepClipped">Whether clipped values count as light: the mirror image of a lamp is always clipped.</param>
    public RakingFrame(InputImage image, EvenBoard? board, bool keepClipped = false)
    {
        var facts = image.Image.Facts;
        (_image, _light) = (image, LightFrame.LightOf(image));
        _clip = Bands.AreSmallIntegers(facts) && !keepClipped ? (float)(Clipped * facts.FullScale) : float.PositiveInfinity;
        if (board is not null && image.Original is null) board.RequireFits(image.Name, facts.Width, facts.Height, Bands.Count(facts));
        _board = board is null ? [] : [.. Enumerable.Range(0, Bands.Count(facts)).Select(band => Laid(board, band, image))];
    }

    /// <summary>Light of a window, and how many of its pixels are clipped.</summary>
    /// <param name="window">The window's bands as they are in the file.</param>
    /// <param name="left">Its first column.</param>
    /// <param name="top">Its first row.</param>
    public (Plane Light, long Clipped) Of(Plane[] window, int left, int top)
    {
        var bands = Bands.Of(window, _image.Image.Facts);
        var (sum, clipped) = (new Plane(bands[0].Width, bands[0].Height), 0L);
        var share = 1f / bands.Length;
        for (var b = 0; b < bands.Length; b++)
        {
            var (values, board) = (bands[b].Data, _board.Length == 0 ? null : _board[b].Window(left, top, sum.Width, sum.Height).Data);
            for (var i = 0; i < values.Length; i++)
            {
                var v = values[i];
                sum.Data[i] += v >= _clip ? float.NaN : share * _light(v) / (board is null ? 1 : board[i]);
            }
        }
        for (var i = 0; i < sum.Data.Length; i++)
            if (float.IsNaN(sum.Data[i]) && bands.Any(b => b.Data[i] >= _clip)) clipped++;
        return (sum, clipped);
    }

    private static CellField Laid(EvenBoard board, int band, InputImage image)
    {
        var facts = image.Image.Facts;
        var toImage = image.Original?.ToImage ?? new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1]);
        var cells = new Plane((facts.Width + Cell - 1) / Cell, (facts.Height + Cell - 1) / Cell);
        for (var j = 0; j < cells.Height; j++)
            for (var i = 0; i < cells.Width; i++) cells[i, j] = board.At(band, toImage.ToPixel(new Point2((i + 0.5) * Cell, (j + 0.5) * Cell)));
        return new CellField(cells, Cell, Cell, 1);
    }
}
