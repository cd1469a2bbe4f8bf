using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>An image's structure over a whole part of the target: where patches lie close, each pixel is resampled once and not once for every patch.</summary>
/// <param name="image">The image.</param>
/// <param name="map">Where it lies on the target.</param>
/// <param name="grid">What is laid out, the margin of the structure included.</param>
/// <param name="options">Number of threads and cancellation.</param>
internal sealed class FieldSheet(PairImage image, PlaneMap map, PlaneGrid grid, ParallelOptions options)
{
    private const int TileSide = 256;

    private static readonly int Margin = StructureField.Margin(PatchMatcher.Taps);

    private Plane[]? _bands;
    private (StructureKind Kind, StructureField Changes)? _last;

    /// <summary>Whether squares in an area are to be had from it.</summary>
    public bool Serves(PlaneMap asked, PlaneGrid area) => ReferenceEquals(asked, map) && area.MmPerPixel == grid.MmPerPixel
        && area.ExtentMm.Left >= grid.ExtentMm.Left && area.ExtentMm.Top >= grid.ExtentMm.Top && area.ExtentMm.Right <= grid.ExtentMm.Right && area.ExtentMm.Bottom <= grid.ExtentMm.Bottom;

    /// <summary>Squares of one kind of structure; their corners must lie on the grid.</summary>
    public FieldAt Of(StructureKind kind)
    {
        var bands = _bands ??= Bands();
        // One kind at a time: they are asked for one after the other, and all would fill the memory.
        if (_last?.Kind != kind) _last = (kind, Changes(bands, kind));
        var changes = _last.Value.Changes;
        return (middle, side) =>
        {
            var (left, top) = (Corner(middle.X - grid.ExtentMm.Left, side), Corner(middle.Y - grid.ExtentMm.Top, side));
            return IsMostlyMissing(bands[0], left - Margin, top - Margin, side + 2 * Margin) ? null
                : StructureField.FromParts(Cut(changes.Cos, left, top, side, side), Cut(changes.Sin, left, top, side, side)).Normalised(null);
        };
    }

    private static bool IsMostlyMissing(Plane plane, int left, int top, int side)
    {
        var missing = 0;
        for (var y = top; y < top + side; y++) missing += FieldWindow.Missing(plane.Row(y).Slice(left, side));
        return missing > side * side / 2;
    }

    private int Corner(double fromEdge, int side) => (int)Math.Round(fromEdge / grid.MmPerPixel) - side / 2;

    private Plane[] Bands()
    {
        var bands = Enumerable.Range(0, image.Colours).Select(_ => new Plane(grid.Width, grid.Height)).ToArray();
        ByTiles(0, (left, top, width, height) =>
        {
            var tile = PlaneResampler.RoughWindow(image.File, map, grid, left, top, width, height);
            for (var b = 0; b < bands.Length; b++) Paste(tile[b], bands[b], left, top);
        });
        return bands;
    }

    /// <summary>As large as the sheet; what the margin takes stays zero.</summary>
    private StructureField Changes(Plane[] bands, StructureKind kind)
    {
        var dark = kind == StructureKind.Colours ? StructureField.Dark(bands) : 0;
        var (cos, sin) = (new Plane(grid.Width, grid.Height), new Plane(grid.Width, grid.Height));
        ByTiles(Margin, (left, top, width, height) =>
        {
            Plane[] wide = [.. bands.Select(b => Cut(b, left - Margin, top - Margin, width + 2 * Margin, height + 2 * Margin))];
            var changes = StructureField.Changes(kind == StructureKind.Colours ? StructureField.Shares(wide, dark) : wide, PatchMatcher.Taps, kind);
            Paste(changes.Cos, cos, left, top);
            Paste(changes.Sin, sin, left, top);
        });
        return StructureField.FromParts(cos, sin);
    }

    private void ByTiles(int border, Action<int, int, int, int> work)
    {
        var (columns, rows) = ((grid.Width - 2 * border + TileSide - 1) / TileSide, (grid.Height - 2 * border + TileSide - 1) / TileSide);
        Parallel.For(0, columns * rows, options, i =>
        {
            var (left, top) = (border + i % columns * TileSide, border + i / columns * TileSide);
            work(left, top, Math.Min(TileSide, grid.Width - border - left), Math.Min(TileSide, grid.Height - border - top));
        });
    }

    private static Plane Cut(Plane from, int left, int top, int width, int height)
    {
        var cut = new Plane(width, height);
        for (var y = 0; y < height; y++) from.Row(top + y).Slice(left, width).CopyTo(cut.Row(y));
        return cut;
    }

    private static void Paste(Plane tile, Plane to, int left, int top)
    {
        for (var y = 0; y < tile.Height; y++) tile.Row(y).CopyTo(to.Row(top + y)[left..]);
    }
}
