using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Unexplained;

/// <summary>One connected part whose pixels lie below a limit.</summary>
/// <param name="Pixels">Its pixels, row by row: indices into the plane.</param>
internal sealed record DarkPart(IReadOnlyList<int> Pixels);

/// <summary>Finds connected parts of a plane that lie below a limit.</summary>
internal static class DarkParts
{
    /// <summary>Parts of at least so many pixels that hang together by their sides, largest first. Threads of less than three pixels are cut off first
    /// (a morphological opening, 3 x 3): register that is off by a pixel leaves such along every edge.</summary>
    public static IReadOnlyList<DarkPart> Of(Plane plane, float limit, int fewest)
    {
        var below = Opened([.. plane.Data.Select(v => v < limit)], plane.Width, plane.Height);
        return [.. ConnectedParts.Of(below, plane.Width).Where(p => p.Count >= fewest).Select(p => new DarkPart(p)).OrderByDescending(p => p.Pixels.Count).ThenBy(p => p.Pixels[0])];
    }

    /// <summary>The pixels of parts, and three pixels about them: a border is neither one nor the other.</summary>
    public static bool[] WithBorders(IReadOnlyList<DarkPart> parts, Plane plane)
    {
        var mask = new bool[plane.Data.Length];
        foreach (var i in parts.SelectMany(p => p.Pixels)) mask[i] = true;
        for (var k = 0; k < 3; k++) mask = Passed(mask, plane.Width, plane.Height, false);
        return mask;
    }

    private static bool[] Opened(bool[] mask, int width, int height) => Passed(Passed(mask, width, height, true), width, height, false);

    /// <summary>Keeps a pixel when all (or any) of the nine about it are set; beyond the border is unset.</summary>
    private static bool[] Passed(bool[] mask, int width, int height, bool all)
    {
        var result = new bool[mask.Length];
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x++)
            {
                var set = 0;
                for (var v = Math.Max(0, y - 1); v <= Math.Min(height - 1, y + 1); v++)
                    for (var u = Math.Max(0, x - 1); u <= Math.Min(width - 1, x + 1); u++) set += mask[v * width + u] ? 1 : 0;
                result[y * width + x] = all ? set == 9 : set > 0;
            }
        return result;
    }
}
