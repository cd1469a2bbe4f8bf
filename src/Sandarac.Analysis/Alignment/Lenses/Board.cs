using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Lenses;

/// <summary>The inner corners of a chessboard, each with its column and row, counted from any corner of the board and in any direction.</summary>
/// <param name="Places">Column and row, and where the corner is seen, pixels.</param>
internal sealed record Board(IReadOnlyList<(int Column, int Row, Point2 At)> Places)
{
    /// <summary>Fewest corners that make a board.</summary>
    public const int Fewest = 16;

    /// <summary>Corners from which a board is grown.</summary>
    private const int Seeds = 12;

    /// <summary>How far a corner may lie from where its neighbours say, as a share of the square's side.</summary>
    private const double Reach = 0.25;

    /// <summary>The largest board among corners; null when there is none of three columns and three rows.</summary>
    public static Board? Of(IReadOnlyList<BoardCorner> corners)
    {
        Board? best = null;
        foreach (var seed in corners.Take(Seeds))
            if (Grow(corners, seed) is { } board && board.Places.Count > (best?.Places.Count ?? Fewest - 1)) best = board;
        return best;
    }

    private static Board? Grow(IReadOnlyList<BoardCorner> corners, BoardCorner seed)
    {
        var near = corners.Where(c => c != seed && Opposite(seed, c)).OrderBy(c => c.At.DistanceTo(seed.At)).Take(8).ToList();
        if (near.Count < 2) return null;
        var first = Minus(near[0].At, seed.At);
        if (near.Select(c => Minus(c.At, seed.At)).Where(v => Math.Abs(Cross(first, v)) > 0.7 * MapFit.Length(first) * MapFit.Length(v)).Cast<Point2?>().FirstOrDefault() is not { } second) return null;
        Dictionary<(int C, int R), BoardCorner> found = new() { [(0, 0)] = seed };
        var waiting = new Queue<(int C, int R)>([(0, 0)]);
        while (waiting.TryDequeue(out var at))
            foreach (var (dc, dr) in (ReadOnlySpan<(int, int)>)[(1, 0), (-1, 0), (0, 1), (0, -1)])
            {
                (int, int) next = (at.C + dc, at.R + dr);
                if (found.ContainsKey(next)) continue;
                var step = Step(found, at, dc, dr) ?? (dc != 0 ? new Point2(dc * first.X, dc * first.Y) : new Point2(dr * second.X, dr * second.Y));
                Point2 guess = new(found[at].At.X + step.X, found[at].At.Y + step.Y);
                var corner = corners.MinBy(c => c.At.DistanceTo(guess))!;
                if (corner.At.DistanceTo(guess) > Reach * MapFit.Length(step) || !Opposite(found[at], corner) || found.ContainsValue(corner)) continue;
                found[next] = corner;
                waiting.Enqueue(next);
            }
        return found.Keys.Select(k => k.C).Distinct().Count() < 3 || found.Keys.Select(k => k.R).Distinct().Count() < 3 ? null
            : new Board([.. found.OrderBy(f => f.Key.R).ThenBy(f => f.Key.C).Select(f => (f.Key.C, f.Key.R, f.Value.At))]);
    }

    /// <summary>The step that was made to here from the other side, or beside here; null when neither is known.</summary>
    private static Point2? Step(Dictionary<(int C, int R), BoardCorner> found, (int C, int R) at, int dc, int dr)
    {
        if (found.TryGetValue((at.C - dc, at.R - dr), out var behind)) return Minus(found[at].At, behind.At);
        foreach (var side in (ReadOnlySpan<int>)[1, -1])
            if (found.TryGetValue((at.C + side * dr, at.R + side * dc), out var beside) && found.TryGetValue((at.C + side * dr + dc, at.R + side * dc + dr), out var ahead)) return Minus(ahead.At, beside.At);
        return null;
    }

    private static bool Opposite(BoardCorner a, BoardCorner b) => a.Along * b.Along + a.Across * b.Across < 0;

    private static Point2 Minus(Point2 a, Point2 b) => new(a.X - b.X, a.Y - b.Y);

    private static double Cross(Point2 a, Point2 b) => a.X * b.Y - a.Y * b.X;
}
