using System.Numerics;
using Sandarac.Analysis.Alignment.Rulers;

namespace Sandarac.Analysis.Sections.Scales;

/// <summary>Places of the ticks along a profile.</summary>
/// <param name="Along">One for each step, pixels.</param>
/// <param name="Sign">1 for ticks lighter than what lies between them, -1 for darker ones.</param>
internal sealed record RulingTicks(double[] Along, int Sign)
{
    /// <summary>Fewest ticks that make a ruling. The bound is ours.</summary>
    public const int Fewest = 6;

    /// <summary>Share of the ticks of a row that must be there: at a multiple of a ruling's frequency every second is not.</summary>
    private const double LeastPresent = 0.8;

    /// <summary>A tick counts as longer when over the whole picture it has so many times its neighbours' contrast, as not longer when it has less than the second.</summary>
    private const double Longer = 1.1, NotLonger = 1.06;

    /// <summary>Follows them by local phase, as a share of the mean over one step so that uneven light does not shift them; null when there are too few.</summary>
    public static RulingTicks? Of((double From, double[] Values) profile, double frequency)
    {
        var values = Levelled(profile.Values, 1 / frequency);
        var (square, cube) = (values.Where(double.IsFinite).Sum(v => v * v), values.Where(double.IsFinite).Sum(v => v * v * v));
        if (square <= 0) return null;
        // Ticks are narrower than what lies between them.
        var sign = cube < 0 ? -1 : 1;
        double at(int i) => profile.From + i + 0.5;
        var all = Complex.Zero;
        for (var i = 0; i < values.Length; i++)
            if (double.IsFinite(values[i])) all += sign * values[i] * Complex.FromPolarCoordinates(1, -2 * Math.PI * frequency * at(i));
        var (first, last) = (Array.FindIndex(values, double.IsFinite), Array.FindLastIndex(values, double.IsFinite));
        var phase = all.Phase / (2 * Math.PI);
        List<(double Along, double Height)> ticks = [];
        // A tick nearer to an end than the next would be lacks a part of its surround, which shifts it.
        for (var n = Math.Ceiling(frequency * at(first) + phase + 1); n <= Math.Floor(frequency * at(last) + phase - 1); n++)
            ticks.Add(Place(values, profile.From, (n - phase) / frequency, frequency, sign));
        var (run, least) = (TickTrace.Present(ticks), ticks.Count == 0 ? 0 : TickTrace.LeastThere(ticks));
        if (run.Count(t => t.Height >= least) < LeastPresent * run.Count) return null;
        return run.Count < Fewest ? null : new RulingTicks([.. run.Select(t => t.Along)], sign);
    }

    /// <summary>Every which tick is longer than its neighbours: 2 or 5; null when neither is seen.</summary>
    /// <param name="whole">The profile over the whole picture.</param>
    public int? LongerEvery((double From, double[] Values) whole)
    {
        var step = (Along[^1] - Along[0]) / (Along.Length - 1);
        var values = Levelled(whole.Values, step);
        double[] contrast = [.. Along.Select(a => Sign * values[Math.Clamp((int)(a - whole.From), 0, values.Length - 1)])];
        double[] over = [.. Enumerable.Range(1, Math.Max(0, contrast.Length - 2)).Select(i => 2 * contrast[i] / (contrast[i - 1] + contrast[i + 1]))];
        foreach (var every in (int[])[5, 2])
            for (var r = 0; r < every; r++)
            {
                double[] longer = [.. over.Where((_, i) => i % every == r)], others = [.. over.Where((_, i) => i % every != r)];
                if (longer.Length >= 2 && longer.Min() >= Longer && others.Max() <= NotLonger) return every;
            }
        return null;
    }

    /// <summary>Over the mean of one step, less 1; NaN where that leaves the profile or is not positive.</summary>
    private static double[] Levelled(double[] values, double step)
    {
        var half = (int)Math.Round(step / 2);
        var sums = new double[values.Length + 1];
        for (var i = 0; i < values.Length; i++) sums[i + 1] = sums[i] + (double.IsNaN(values[i]) ? 0 : values[i]);
        var known = new int[values.Length + 1];
        for (var i = 0; i < values.Length; i++) known[i + 1] = known[i] + (double.IsNaN(values[i]) ? 0 : 1);
        return [.. values.Select((v, i) => i - half < 0 || i + half >= values.Length || known[i + half + 1] - known[i - half] < 2 * half + 1
            || sums[i + half + 1] - sums[i - half] <= 0 ? double.NaN : v / ((sums[i + half + 1] - sums[i - half]) / (2 * half + 1)) - 1)];
    }

    private static (double Along, double Height) Place(double[] values, double from, double near, double frequency, int sign)
    {
        var (step, height) = (1 / frequency, 0.0);
        for (var round = 0; round < 3; round++)
        {
            var (ripple, weights) = (Complex.Zero, 0.0);
            for (var i = Math.Max(0, (int)(near - step - from)); i < Math.Min(values.Length, near + step - from); i++)
            {
                var off = from + i + 0.5 - near;
                if (!double.IsFinite(values[i]) || Math.Abs(off) >= step) continue;
                var weight = Math.Pow(1 - off * off / (step * step), 2);
                ripple += weight * sign * values[i] * Complex.FromPolarCoordinates(1, -2 * Math.PI * frequency * off);
                weights += weight;
            }
            if (weights <= 0) return (near, 0);
            near -= ripple.Phase / (2 * Math.PI * frequency);
            height = ripple.Magnitude / weights;
        }
        return (near, height);
    }
}
