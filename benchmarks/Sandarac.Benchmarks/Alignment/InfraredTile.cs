using System.Runtime.InteropServices;
using NetVips;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>A part of the infrared photograph as a camera that moves along the painting takes it: none quite where, as large or as bright as the others.</summary>
/// <param name="File">Its file.</param>
/// <param name="Column">Place in its row, from 0.</param>
/// <param name="Row">Row, from 0.</param>
/// <param name="ToWhole">From its pixels to the whole photograph's.</param>
/// <param name="Factor">What its values were multiplied by.</param>
/// <param name="Offset">What was then added to them.</param>
internal sealed record InfraredTile(string File, int Column, int Row, HomographyMap ToWhole, double Factor, double Offset)
{
    public const int Columns = 8, Rows = 5;

    private const double Overlap = 0.2, FullScale = 65535;

    /// <summary>A tile's columns and rows.</summary>
    public static (int Width, int Height) SizeIn(PyramidFile whole) =>
        ((int)(whole.Width / (Columns * (1 - Overlap) + Overlap)), (int)(whole.Height / (Rows * (1 - Overlap) + Overlap)));

    /// <summary>By chance: each tile is up to so far from where it should be (of its sides), turned (degrees), larger or smaller, brighter or darker, lifted.</summary>
    private const double Aside = 0.02, Turned = 1.5, Larger = 0.02, Brighter = 0.15, Lifted = 0.02;

    /// <summary>Share of the values that is lost in a tile's corners.</summary>
    private const double Vignette = 0.03;

    /// <summary>Takes all tiles, row by row.</summary>
    /// <param name="whole">The whole photograph's pyramid, grey.</param>
    /// <param name="pixelsPerInch">What their tags say, as those of the whole.</param>
    /// <param name="folder">Where to write them.</param>
    public static IReadOnlyList<InfraredTile> TakeAll(PyramidFile whole, double pixelsPerInch, string folder)
    {
        var (w, h) = SizeIn(whole);
        var dice = new Random(1);
        double About(double most) => most * (2 * dice.NextDouble() - 1);
        var tiles = new List<InfraredTile>();
        for (var row = 0; row < Rows; row++)
            for (var column = 0; column < Columns; column++)
            {
                var (scale, turn) = (1 + About(Larger), About(Turned) * Math.PI / 180);
                var (c, s) = (scale * Math.Cos(turn), scale * Math.Sin(turn));
                var (x, y) = ((column * (1 - Overlap) + 0.5 + About(Aside)) * w, (row * (1 - Overlap) + 0.5 + About(Aside)) * h);
                var map = new HomographyMap([c, -s, x - (c * w - s * h) / 2, s, c, y - (s * w + c * h) / 2, 0, 0, 1]);
                var tile = new InfraredTile(Path.Combine(folder, $"IR_tile{row + 1}{column + 1}.tif"), column, row, map, 1 + About(Brighter), FullScale * About(Lifted));
                tile.Take(whole, w, h, pixelsPerInch);
                tiles.Add(tile);
            }
        return tiles;
    }

    private void Take(PyramidFile whole, int width, int height, double pixelsPerInch)
    {
        var onTile = new HomographyMap(new Homography(ToWhole.PixelToPlane).Inverse().Coefficients);
        var seen = PlaneResampler.Window(whole, onTile, new PlaneGrid(new Box(0, 0, width, height), 1), 0, 0, width, height)[0];
        var values = new ushort[width * height];
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x++)
                values[y * width + x] = Recorded(seen[x, y], (2 * x + 1.0) / width - 1, (2 * y + 1.0) / height - 1);
        using var image = Image.NewFromMemoryCopy(MemoryMarshal.AsBytes(values.AsSpan()).ToArray(), width, height, 1, Enums.BandFormat.Ushort);
        using var tagged = image.Copy(interpretation: Enums.Interpretation.Grey16, xres: pixelsPerInch / 25.4, yres: pixelsPerInch / 25.4);
        tagged.Tiffsave(File);
    }

    /// <summary>What is recorded at a place, -1 to 1 from edge to edge; black beyond the whole.</summary>
    private ushort Recorded(float seen, double x, double y) => float.IsNaN(seen) ? (ushort)0
        : (ushort)Math.Clamp(Math.Round((Factor * seen + Offset) * (1 - Vignette * (x * x + y * y) / 2)), 0, FullScale);
}
