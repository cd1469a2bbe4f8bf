using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>The pass over the photographs: tile by tile light, normals and albedo, handed on as they come; slopes and confidence are kept for integration.</summary>
/// <param name="Right">Rise to the right.</param>
/// <param name="Down">Rise downwards.</param>
/// <param name="Confidence">Confidence, 0 to 1.</param>
/// <param name="Clipped">For each photograph the share of its pixels that is clipped.</param>
/// <param name="Frames">For each photograph how it fits to the others.</param>
internal sealed record ReliefPass(Plane Right, Plane Down, Plane Confidence, IReadOnlyList<double> Clipped, IReadOnlyList<FrameShift> Frames)
{
    /// <summary>Side of the tiles: fixed, because sums are gathered in them.</summary>
    private const int TileSize = 512;

    /// <summary>Runs over all tiles.</summary>
    /// <param name="set">The photographs.</param>
    /// <param name="context">The run.</param>
    /// <param name="each">Takes each tile's surface as it comes, on several threads.</param>
    public static ReliefPass Over(RakingSet set, RunContext context, Action<Tile, SurfaceNormals> each)
    {
        var (facts, n) = (set.Images[0].Image.Facts, set.Images.Count);
        var pass = new ReliefPass(new(facts.Width, facts.Height), new(facts.Width, facts.Height), new(facts.Width, facts.Height), [], []);
        var tiles = TiledRun.Map(set.Images, TileSize, 0, (tile, windows) =>
        {
            var frames = set.Frames.Select((frame, k) => frame.Of(windows[k], tile.Left, tile.Top)).ToArray();
            var light = frames.Select(f => f.Light).ToArray();
            var surface = PhotometricStereo.Solve(light, set.Lamps, tile.Left, tile.Top);
            var (right, down) = surface.Slopes();
            Put(right, pass.Right, tile);
            Put(down, pass.Down, tile);
            Put(surface.Confidence, pass.Confidence, tile);
            each(tile, surface);
            return (Clipped: frames.Select(f => f.Clipped).ToArray(), Fit: light.Select((l, k) => FrameShift.Of(l, surface, set.Lamps, k, tile.Left, tile.Top)).ToArray());
        }, context);
        var pixels = (double)facts.Width * facts.Height;
        return pass with
        {
            Clipped = [.. Enumerable.Range(0, n).Select(k => tiles.Sum(t => t.Clipped[k]) / pixels)],
            Frames = [.. Enumerable.Range(0, n).Select(k => tiles.Aggregate(default(FrameShift), (sum, t) => sum + t.Fit[k]))],
        };
    }

    /// <summary>Puts a tile's window in its place.</summary>
    public static void Put(Plane window, Plane whole, Tile tile)
    {
        for (var y = 0; y < window.Height; y++) window.Row(y).CopyTo(whole.Row(tile.Top + y)[tile.Left..]);
    }
}
