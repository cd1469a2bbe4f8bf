using System.Numerics;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging.Geometry;
using Plane = Sandarac.Imaging.Plane;

namespace Sandarac.Analysis.Alignment.Rulers;

/// <summary>Ticks followed along a line.</summary>
/// <param name="Strip">The strip, its line laid through the shortest ticks, wide enough for the longest.</param>
/// <param name="First">First row of the band that all ticks share, pixels across the line.</param>
/// <param name="Last">Its last row.</param>
/// <param name="Along">Places of the ticks along the line, pixels, one for each step: dark ticks.</param>
/// <param name="Height">Half the usual amplitude of the ripple.</param>
internal sealed record TickTrace(RulerStrip Strip, int First, int Last, double[] Along, double Height)
{
    /// <summary>Fewest ticks that make a ruler: three times the ten in which lengths repeat.</summary>
    public const int Fewest = 30;

    /// <summary>Standard deviation of the window in which ticks are followed, and its step, in ticks.</summary>
    private const double Window = 4;

    /// <summary>Least height of the ripple, of what is usual on the ruler, for a tick that is there.</summary>
    private const double LeastHeight = 0.5;

    /// <summary>Rows looked at on either side of the band for longer ticks, in ticks' distances.</summary>
    private const double Reach = 20;

    /// <summary>Follows the ticks; null when they are not those of a straight ruler.</summary>
    public static TickTrace? Follow(Plane picture, RulerLine line)
    {
        for (var pass = 0; pass < 3; pass++)
        {
            if (Straightened(picture, line) is not { } better) return null;
            line = better;
        }
        var strip = RulerStrip.Read(picture, line, (int)Math.Min(400, Ripples.Step + Reach / line.Frequency), Window / line.Frequency);
        var (first, last) = Band(strip, Ripples.Step);
        var ticks = Present(Places(strip, strip.Profile(first, last)));
        return ticks.Count < Fewest ? null : new TickTrace(strip, first, last, [.. ticks.Select(t => t.Along)], Robust.Median(ticks.Select(t => t.Height)));
    }

    /// <summary>The line moved into the middle of the band of ticks, turned along it, ticks upright: by where across the line the ripple is strong.</summary>
    private static RulerLine? Straightened(Plane picture, RulerLine line)
    {
        var strip = RulerStrip.Read(picture, line, Ripples.Side, 0);
        var step = Window / line.Frequency;
        List<(double Along, double Across, double Weight)> middles = [];
        var turning = Complex.Zero;
        for (var at = strip.From + step / 2; at < strip.From + strip.Length; at += step)
        {
            var window = strip.Window(at, step);
            Complex[] ripple = [.. Enumerable.Range(-strip.Half, 2 * strip.Half + 1).Select(v => RulerStrip.Through(window, strip.Row(v)))];
            double[] power = [.. ripple.Select(c => c.Magnitude * c.Magnitude)];
            var most = power.Max();
            if (most <= 0) continue;
            for (var v = 0; v + 1 < ripple.Length; v++) turning += Complex.Conjugate(ripple[v]) * ripple[v + 1];
            var strong = Enumerable.Range(0, power.Length).Where(v => power[v] > most / 4).ToArray();
            middles.Add((at, strong.Average(v => v - strip.Half), most));
        }
        return middles.Count < 3 ? null : Relaid(line, middles, turning.Phase / (2 * Math.PI * line.Frequency));
    }

    private static RulerLine Relaid(RulerLine line, List<(double Along, double Across, double Weight)> middles, double skew)
    {
        var usual = Robust.Median(middles.Select(m => m.Weight));
        double[] weights = [.. middles.Select(m => Math.Min(1, m.Weight / usual))];
        var (offset, slope) = (0.0, 0.0);
        for (var i = 0; i < 5; i++)
        {
            (offset, slope) = Line(middles, weights);
            double[] off = [.. middles.Select(m => m.Across - offset - slope * m.Along)];
            var sigma = Math.Max(0.5, Robust.Sigma(off));
            weights = [.. middles.Select((m, k) => Math.Min(1, m.Weight / usual) * Robust.Biweight(off[k], sigma))];
        }
        // In the turned frame ticks lean by what the axis was turned and by what the phase says.
        var norm = Math.Sqrt(1 + slope * slope);
        var (x, y) = ((line.X - slope * line.Y) / norm, (line.Y + slope * line.X) / norm);
        return line with { Origin = new Point2(line.Origin.X - line.Y * offset, line.Origin.Y + line.X * offset), X = x, Y = y, Skew = line.Skew - skew + slope };
    }

    private static (double Offset, double Slope) Line(List<(double Along, double Across, double Weight)> points, double[] weights)
    {
        var w = weights.Sum();
        if (w <= 0) return (0, 0);
        var (x, y) = (points.Zip(weights, (p, v) => v * p.Along).Sum() / w, points.Zip(weights, (p, v) => v * p.Across).Sum() / w);
        var xx = points.Zip(weights, (p, v) => v * (p.Along - x) * (p.Along - x)).Sum();
        var slope = xx > 0 ? Math.Clamp(points.Zip(weights, (p, v) => v * (p.Along - x) * (p.Across - y)).Sum() / xx, -0.2, 0.2) : 0;
        return (y - slope * x, slope);
    }

    /// <summary>Rows around the line where the ripple has at least half its greatest height.</summary>
    private static (int First, int Last) Band(RulerStrip strip, int reach)
    {
        var step = Window / strip.Line.Frequency;
        var heights = new double[2 * reach + 1];
        for (var at = strip.From + step; at < strip.From + strip.Length - step; at += step)
        {
            var window = strip.Window(at, step);
            for (var row = -reach; row <= reach; row++) heights[row + reach] += RulerStrip.Through(window, strip.Row(row)).Magnitude;
        }
        var best = Array.IndexOf(heights, heights.Max());
        var (first, last) = (best, best);
        while (first > 0 && heights[first - 1] >= heights[best] / 2) first--;
        while (last + 1 < heights.Length && heights[last + 1] >= heights[best] / 2) last++;
        return (first - reach, last - reach);
    }

    /// <summary>Where dark ticks stand: the phase gives their numbers, a narrow window each one's place.</summary>
    private static List<(double Along, double Height)> Places(RulerStrip strip, float[] profile)
    {
        var numbered = Numbered(strip, profile);
        if (numbered.Count < 3) return [];
        List<(double Along, double Height)> ticks = [];
        for (var n = (int)Math.Ceiling(numbered[0].Number); n <= numbered[^1].Number; n++)
        {
            var k = Math.Clamp(numbered.FindIndex(p => p.Number > n), 1, numbered.Count - 1);
            var (a, b) = (numbered[k - 1], numbered[k]);
            var distance = (b.Along - a.Along) / (b.Number - a.Number);
            var near = a.Along + (n - a.Number) * distance;
            var ripple = RulerStrip.Through(strip.Window(near, distance), profile);
            var off = Math.IEEERemainder(strip.Line.Cycles(near) + ripple.Phase / (2 * Math.PI) - 0.5, 1);
            ticks.Add((near - off * distance, ripple.Magnitude));
        }
        return ticks;
    }

    /// <summary>Tick numbers along the line, from the unwrapped phase; whole numbers stand on dark ticks.</summary>
    private static List<(double Along, double Number)> Numbered(RulerStrip strip, float[] profile)
    {
        var step = Window / strip.Line.Frequency;
        List<(double Along, double Number)> numbered = [];
        var turned = 0.0;
        for (var at = strip.From; at < strip.From + strip.Length; at += step)
        {
            var phase = RulerStrip.Through(strip.Window(at, step), profile).Phase / (2 * Math.PI);
            turned += Math.IEEERemainder(phase - turned, 1);
            numbered.Add((at, strip.Line.Cycles(at) + turned - 0.5));
        }
        return numbered;
    }

    /// <summary>Height of the ripple from which on a tick is there.</summary>
    internal static double LeastThere(IEnumerable<(double Along, double Height)> ticks) => LeastHeight * Robust.Quantile(ticks.Select(t => t.Height), 0.75);

    /// <summary>The longest run of ticks that are there; one missing among them does not end it.</summary>
    internal static List<(double Along, double Height)> Present(List<(double Along, double Height)> ticks)
    {
        if (ticks.Count == 0) return [];
        var least = LeastThere(ticks);
        var (best, start, last) = ((From: 0, To: -1), -1, -1);
        for (var i = 0; i < ticks.Count; i++)
        {
            if (ticks[i].Height < least) continue;
            if (start < 0 || i - last > 2) start = i;
            last = i;
            if (last - start > best.To - best.From) best = (start, last);
        }
        return ticks[best.From..(best.To + 1)];
    }
}
