using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Imaging.Warping;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>A part of a photograph as another camera might have taken it: turned, seen from behind, larger or smaller, a little aslant.</summary>
/// <param name="Map">From the photograph's pixels to its own.</param>
/// <param name="Width">Columns.</param>
/// <param name="Height">Rows.</param>
/// <param name="Said">What was done, in words.</param>
internal sealed record HarshPose(HomographyMap Map, int Width, int Height, string Said)
{
    private const double LeastShare = 0.3, MostScale = 5;

    /// <summary>Corners move by up to this share of the sides.</summary>
    private const double Aslant = 0.02;

    /// <summary>By chance: 30 to 100 % of the area, a fifth to five times as large, any turn or a quarter turn.</summary>
    /// <param name="size">Columns and rows of the photograph.</param>
    /// <param name="mayMirror">Whether it may be seen from behind.</param>
    /// <param name="dice">Chance.</param>
    public static HarshPose Throw((int Width, int Height) size, bool mayMirror, Random dice)
    {
        double Between(double from, double to) => from + (to - from) * dice.NextDouble();
        var share = Between(LeastShare, 1);
        var scale = Math.Exp(Between(-Math.Log(MostScale), Math.Log(MostScale)));
        var turn = dice.Next(2) == 0 ? 90.0 * dice.Next(4) : Between(-180, 180);
        var hand = mayMirror && dice.Next(2) == 0 ? -1 : 1;
        var (w, h) = (Math.Sqrt(share) * size.Width, Math.Sqrt(share) * size.Height);
        var (left, top) = (Between(0, size.Width - w), Between(0, size.Height - h));
        Point2[] corners = [new(left, top), new(left + w, top), new(left + w, top + h), new(left, top + h)];
        var (c, s) = (scale * Math.Cos(turn * Math.PI / 180), scale * Math.Sin(turn * Math.PI / 180));
        Point2[] seen = [.. corners.Select(p => new Point2(hand * (p.X + Between(-Aslant, Aslant) * w), p.Y + Between(-Aslant, Aslant) * h)).Select(p => new Point2(c * p.X - s * p.Y, s * p.X + c * p.Y))];
        var (x, y) = (seen.Min(p => p.X), seen.Min(p => p.Y));
        var map = new HomographyMap(Homography.Fit(corners, [.. seen.Select(p => new Point2(p.X - x, p.Y - y))]).Coefficients);
        return new HarshPose(map, (int)Math.Ceiling(seen.Max(p => p.X) - x), (int)Math.Ceiling(seen.Max(p => p.Y) - y),
            $"{100 * share:0} %, {(hand < 0 ? "mirrored, " : "")}turned {turn:0}, x {scale:0.00}");
    }

    /// <summary>Shorter side, pixels.</summary>
    public int ShortSide => Math.Min(Width, Height);

    /// <summary>Takes it.</summary>
    /// <param name="photograph">The photograph's file.</param>
    /// <param name="target">The file to make.</param>
    public void Take(string photograph, string target)
    {
        var pyramid = target + ".pyramid";
        try
        {
            using (var file = ImageFile.Open(photograph)) PyramidFile.Write(file, pyramid);
            using var source = PyramidFile.Open(pyramid);
            PlaneResampler.Write(source, Map, new PlaneGrid(new Box(0, 0, Width, Height), 1), target, null, null, CancellationToken.None);
        }
        finally
        {
            File.Delete(pyramid);
        }
    }

    /// <summary>The points that it shows, of those of the photograph.</summary>
    public IReadOnlyList<(Point2 Moving, Point2 Fixed)> Points(IReadOnlyList<(Point2 Moving, Point2 Fixed)> ofPhotograph) =>
        [.. ofPhotograph.Select(p => (Moving: Map.ToPlane(p.Moving), p.Fixed)).Where(p => p.Moving is { X: >= 0, Y: >= 0 } m && m.X <= Width && m.Y <= Height)];
}
