using Sandarac.Analysis.Alignment.Mosaics;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Mosaics;

public class TileBorderTests
{
    /// <summary>A film's clear edge: found on each side, with one line to spare for what is half in it.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(4000)]
    public void Known_plain_border_is_left_out(float border)
    {
        var film = MosaicScene.Tile(0);
        for (var y = 0; y < film.Height; y++)
            for (var x = 0; x < film.Width; x++)
                if (x < 7 || x >= film.Width - 12 || y < 9 || y >= film.Height - 4) film[x, y] = border;
        Assert.Equal(new Box(8, 10, 440 - 8 - 13, 440 - 10 - 5), Inside(film));
    }

    [Fact]
    public void Known_picture_without_a_border_is_kept_whole() => Assert.Equal(new Box(0, 0, 440, 440), Inside(MosaicScene.Tile(0)));

    /// <summary>A plain passage in the middle of the scale is a wall or a sky, no border.</summary>
    [Fact]
    public void Known_plain_passage_of_a_middle_tone_is_no_border()
    {
        var picture = MosaicScene.Tile(0);
        for (var y = 0; y < 20; y++) picture.Row(y).Fill(1000);
        Assert.Equal(new Box(0, 0, 440, 440), Inside(picture));
    }

    private static Box Inside(Plane plane)
    {
        using var pairs = new TestPairs();
        return TileBorder.Inside(pairs.Float(plane));
    }
}
