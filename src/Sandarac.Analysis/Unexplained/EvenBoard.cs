using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Unexplained;

/// <summary>The light over a frame, from a photograph of an even board: means of whole squares, in between and on to the frame's edges linear, so that the board's own grain and noise are left out.</summary>
internal sealed class EvenBoard
{
    private const int Square = 64;

    private readonly CellField[] _light;
    private readonly (int Width, int Height) _size;

    private EvenBoard(Plane[] means, (int, int) size) => (_light, _size) = ([.. means.Select(m => new CellField(m, Square, Square, 1))], size);

    /// <summary>Reads a board.</summary>
    /// <exception cref="InputProblem">The board is black somewhere.</exception>
    public static EvenBoard Of(InputImage board, RunContext context)
    {
        var (facts, light) = (board.Image.Facts, LightFrame.LightOf(board));
        var means = Enumerable.Range(0, Bands.Count(facts)).Select(_ => new Plane(Math.Max(1, facts.Width / Square), Math.Max(1, facts.Height / Square))).ToArray();
        TiledRun.Map([board], 8 * Square, 0, (tile, windows) =>
        {
            var bands = Bands.Of(windows[0], facts);
            for (var b = 0; b < means.Length; b++) Average(bands[b], light, means[b], tile.Left / Square, tile.Top / Square);
            return 0;
        }, context);
        if (means.Any(m => m.Data.Any(v => !(v > 0)))) throw new InputProblem("board-black", board.Name, $"{board.Name} is black or without data in some place: it cannot be divided by.", "Leave it out, or give a photograph of an evenly lit board.");
        return new EvenBoard(means, (facts.Width, facts.Height));
    }

    /// <summary>Refuses a board that was not taken in the frame of a photograph.</summary>
    /// <exception cref="InputProblem">Other size, or other bands.</exception>
    public void RequireFits(string name, int width, int height, int bands)
    {
        if ((width, height) != _size || bands != _light.Length)
            throw new InputProblem("board-size", name, $"The even board has {_size.Width} x {_size.Height} pixels in {_light.Length} bands; {name} was taken with {width} x {height} in {bands}.", "Give a board taken with the same camera in the same place.");
    }

    /// <summary>Light at a place of the frame, pixels; more than a square beyond the outermost middles nothing grows any more.</summary>
    public float At(int band, Point2 pixel)
    {
        var light = _light[band];
        // It cannot fall to nothing within a square.
        return Math.Max(light.At(pixel.X, pixel.Y), 0.1f * light.CellAt(pixel.X, pixel.Y));
    }

    private static void Average(Plane band, Func<float, float> light, Plane means, int left, int top)
    {
        for (var y = 0; y < band.Height && top + y / Square < means.Height; y += Square)
            for (var x = 0; x < band.Width && left + x / Square < means.Width; x += Square)
            {
                var (sum, count) = (0.0, 0);
                for (var j = y; j < Math.Min(y + Square, band.Height); j++)
                    foreach (var value in band.Row(j)[x..Math.Min(x + Square, band.Width)])
                        if (float.IsFinite(value)) (sum, count) = (sum + light(value), count + 1);
                means[left + x / Square, top + y / Square] = count == 0 ? 0 : (float)(sum / count);
            }
    }
}
