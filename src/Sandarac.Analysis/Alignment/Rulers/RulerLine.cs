using Sandarac.Analysis.Numbers;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Rulers;

/// <summary>A line along which ripples lie that may be a ruler's ticks.</summary>
/// <param name="Origin">A point of it near its middle, pixels.</param>
/// <param name="X">Unit vector along it.</param>
/// <param name="Y">Unit vector along it.</param>
/// <param name="From">Where the ripples begin, pixels along it from the origin.</param>
/// <param name="To">Where they end.</param>
/// <param name="Frequency">Cycles per pixel at the origin.</param>
/// <param name="Slope">Change of the frequency per pixel.</param>
/// <param name="Skew">How far a tick runs along the line for each pixel across it: 0 when it stands at a right angle.</param>
internal sealed record RulerLine(Point2 Origin, double X, double Y, double From, double To, double Frequency, double Slope, double Skew = 0)
{
    /// <summary>Share of its length by which a line is followed beyond the ripples at each end.</summary>
    private const double Beyond = 0.25;

    /// <summary>The pixel so far along a tick's foot and so far across.</summary>
    public Point2 At(double along, double across)
    {
        along += Skew * across;
        return new Point2(Origin.X + X * along - Y * across, Origin.Y + Y * along + X * across);
    }

    /// <summary>Cycles per pixel there.</summary>
    public double FrequencyAt(double along) => Frequency + Slope * along;

    /// <summary>Cycles from the origin to there.</summary>
    public double Cycles(double along) => along * (Frequency + Slope * along / 2);

    /// <summary>Lines through ripples that agree, those with the longest run first.</summary>
    /// <param name="ripples">Ripples of one picture.</param>
    /// <param name="most">Lines kept.</param>
    public static IReadOnlyList<RulerLine> Through(IReadOnlyList<Ripple> ripples, int most)
    {
        var waiting = ripples.OrderByDescending(r => r.Strength).ThenBy(r => r.At.Y).ThenBy(r => r.At.X).ToList();
        List<(RulerLine Line, int Places)> lines = [];
        for (var tries = 0; waiting.Count > 0 && tries < 3 * most; tries++)
        {
            var seed = waiting[0];
            var members = waiting.Where(r => Agree(seed, r)).ToHashSet();
            waiting.RemoveAll(members.Contains);
            if (Fit(seed, [.. members]) is { } line) lines.Add(line);
        }
        return [.. lines.OrderByDescending(l => l.Places).Take(most).Select(l => l.Line)];
    }

    /// <summary>Whether two ripples may belong to one ruler: nearly one frequency and direction, and the second not beside the first.</summary>
    private static bool Agree(Ripple seed, Ripple other)
    {
        var f = seed.Frequency;
        var (x, y) = (seed.X / f, seed.Y / f);
        // A ripple upright in the picture may have either sign.
        var sign = other.X * x + other.Y * y < 0 ? -1 : 1;
        var (along, across) = (sign * (other.X * x + other.Y * y) - f, other.Y * x - other.X * y);
        if (Math.Abs(along) > 0.1 * f || Math.Abs(across) > 0.1 * f + 0.01) return false;
        var (dx, dy) = (other.At.X - seed.At.X, other.At.Y - seed.At.Y);
        return Math.Abs(dy * x - dx * y) <= 1.25 * Ripples.Step + 0.1 * Math.Abs(dx * x + dy * y);
    }

    private static (RulerLine, int)? Fit(Ripple seed, IReadOnlyList<Ripple> members)
    {
        var places = members.Select(m => Math.Round(((m.At.X - seed.At.X) * seed.X + (m.At.Y - seed.At.Y) * seed.Y) / seed.Frequency / Ripples.Step)).Distinct().Count();
        if (places < 2) return null;
        var line = IdealLine.Fit([.. members.Select(m => m.At)], [.. members.Select(m => Math.Log(m.Strength))]);
        var (x, y) = (line.NormalY, -line.NormalX);
        if (x * seed.X + y * seed.Y < 0) (x, y) = (-x, -y);
        var middle = new Point2(members.Average(m => m.At.X), members.Average(m => m.At.Y));
        // Two or three squares that lie beside one another say nothing of the direction: the seed's own frequency does.
        if (Math.Abs(x * seed.Y - y * seed.X) > 0.3 * seed.Frequency) (x, y) = (seed.X / seed.Frequency, seed.Y / seed.Frequency);
        double[] along = [.. members.Select(m => (m.At.X - middle.X) * x + (m.At.Y - middle.Y) * y)];
        double[] frequency = [.. members.Select(m => Math.Abs(m.X * x + m.Y * y))];
        var median = Robust.Median(frequency);
        var (sxx, sxy) = (along.Sum(a => a * a), along.Zip(frequency, (a, f) => a * (f - median)).Sum());
        var slope = places < 6 ? 0 : Math.Clamp(sxy / sxx, -0.2 * median / along.Max(), 0.2 * median / along.Max());
        // Where perspective has changed the frequency too far to be taken in, the ruler goes on.
        var beyond = Ripples.Side / 2.0 + Beyond * (along.Max() - along.Min());
        return (new RulerLine(middle, x, y, along.Min() - beyond, along.Max() + beyond, median, slope), places);
    }
}
