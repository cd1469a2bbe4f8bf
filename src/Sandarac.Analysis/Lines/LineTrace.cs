using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Lines;

/// <summary>Points joined to a line, in order.</summary>
internal sealed record TracedLine(IReadOnlyList<LinePoint> Points)
{
    /// <summary>Length, pixels.</summary>
    public double Length => Points.Zip(Points.Skip(1), (a, b) => Math.Sqrt((b.X - a.X) * (b.X - a.X) + (b.Y - a.Y) * (b.Y - a.Y))).Sum();

    /// <summary>The line without the ends that averaging draws out: at the end of an even line half of the average is line, so ends below half of the line's median strength are cut off.</summary>
    public TracedLine Ended()
    {
        var half = Robust.Median(Points.Select(p => (double)p.Strength)) / 2;
        return new TracedLine([.. Points.SkipWhile(p => p.Strength < half).Reverse().SkipWhile(p => p.Strength < half).Reverse()]);
    }
}

/// <summary>Joins points to lines (after Steger, section 2.3): from the strongest on, both ways, to whichever point ahead is nearest in place and direction.</summary>
/// <param name="points">Points, weak ones too.</param>
/// <param name="width">Columns of the plane.</param>
/// <param name="gap">Farthest distance to the next point, pixels.</param>
internal sealed class LineTrace(IReadOnlyList<LinePoint> points, int width, double gap)
{
    /// <summary>Greatest turn from one point to the next, radians.</summary>
    private const double Turn = 0.4;

    private readonly Dictionary<int, int> _at = points.Select((p, k) => (p.Pixel, k)).ToDictionary();
    private readonly bool[] _used = new bool[points.Count];

    /// <summary>Lines that begin in a strong point (hysteresis after Canny, IEEE PAMI 8 (1986) 679) and are long enough; the strongest first.</summary>
    /// <param name="strong">Strength of a point in which a line may begin.</param>
    /// <param name="shortest">Least length, pixels.</param>
    public IReadOnlyList<TracedLine> Lines(double strong, double shortest)
    {
        var lines = new List<TracedLine>();
        foreach (var k in Enumerable.Range(0, points.Count).Where(k => points[k].Strength >= strong).OrderByDescending(k => points[k].Strength).ThenBy(k => k))
        {
            if (_used[k]) continue;
            Use(k);
            var (sin, cos) = Math.SinCos(points[k].Normal);
            var (ahead, back) = (Follow(k, -sin, cos), Follow(k, sin, -cos));
            var line = new TracedLine([.. back.AsEnumerable().Reverse(), points[k], .. ahead]);
            if (line.Length >= shortest) lines.Add(line);
        }
        return lines;
    }

    private List<LinePoint> Follow(int from, double dx, double dy)
    {
        var line = new List<LinePoint>();
        while (Next(from, dx, dy) is { } next)
        {
            Use(next);
            line.Add(points[next]);
            var (sin, cos) = Math.SinCos(points[next].Normal);
            (dx, dy) = -sin * dx + cos * dy >= 0 ? (-sin, cos) : (sin, -cos);
            from = next;
        }
        return line;
    }

    private int? Next(int from, double dx, double dy)
    {
        var (best, least, reach) = ((int?)null, double.MaxValue, (int)Math.Ceiling(gap));
        for (var v = -reach; v <= reach; v++)
            for (var u = -reach; u <= reach; u++)
                if (_at.TryGetValue(points[from].Pixel + v * width + u, out var k) && !_used[k] && Distance(points[from], points[k], dx, dy) is { } distance && distance < least) (best, least) = (k, distance);
        return best;
    }

    /// <summary>Pixels to a point ahead plus a pixel for each <see cref="Turn"/> of direction; null when it lies too far, aside or another way.</summary>
    private double? Distance(LinePoint a, LinePoint b, double dx, double dy)
    {
        var (x, y) = (b.X - a.X, b.Y - a.Y);
        var (along, aside, distance) = (x * dx + y * dy, Math.Abs(x * dy - y * dx), Math.Sqrt(x * x + y * y));
        var turn = Math.Abs(Math.IEEERemainder(b.Normal - a.Normal, Math.PI));
        return along > 0 && distance <= gap && aside <= 0.5 + Math.Tan(Turn) * along && turn <= Turn ? distance + turn / Turn : null;
    }

    /// <summary>Takes a point, and those that touch it: a line is one line.</summary>
    private void Use(int point)
    {
        for (var v = -1; v <= 1; v++)
            for (var u = -1; u <= 1; u++)
                if (_at.TryGetValue(points[point].Pixel + v * width + u, out var k)) _used[k] = true;
    }
}
