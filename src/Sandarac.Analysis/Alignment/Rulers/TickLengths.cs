namespace Sandarac.Analysis.Alignment.Rulers;

/// <summary>Whether every fifth tick is longer than the others and every tenth longer still, as on a ruler in millimetres.</summary>
internal static class TickLengths
{
    private const int Ten = 10;

    /// <summary>Least difference of a longer tick from all shorter ones, in standard errors of the difference. Some thousand rows are looked at.</summary>
    private const double LeastErrors = 5;

    /// <summary>The same, as a share of the ticks' own darkness: what is much fainter than a tick is none.</summary>
    private const double LeastShare = 0.2;

    /// <summary>Least number of rows, in ticks' distances, by which the fifth and the tenth are longer.</summary>
    private const double LeastLength = 0.6;

    /// <summary>Which of the trace's ticks is a tenth, 0 to 9, and how many standard errors the weaker of the two kinds stands out; null when lengths do not go by fives and tens.</summary>
    /// <param name="trace">The ticks.</param>
    /// <param name="light">Whether ticks are lighter than the ruler: they then stand half a step from where dark ones would.</param>
    public static (int Tenth, double Errors)? Of(TickTrace trace, bool light)
    {
        var along = light ? [.. trace.Along.Zip(trace.Along.Skip(1), (a, b) => (a + b) / 2)] : trace.Along;
        var distance = (along[^1] - along[0]) / (along.Length - 1);
        var band = Darkness(trace.Strip, along, distance, trace.First, trace.Last, light).Select(c => c.Mean).Average();
        if (band <= 0) return null;
        var rows = Enumerable.Range(-trace.Strip.Half, 2 * trace.Strip.Half + 1).Select(r => Darkness(trace.Strip, along, distance, r, r, light)).ToArray();
        var wanted = Math.Max(2, (int)Math.Round(LeastLength * distance));
        (int, double)? best = null;
        for (var tenth = 0; tenth < Ten; tenth++)
        {
            var errors = Math.Min(Run(rows, wanted, r => StandsOut(r, [tenth, (tenth + 5) % Ten], band)), Run(rows, wanted, r => StandsOut(r, [tenth], band)));
            if (errors >= LeastErrors && (best is null || errors > best.Value.Item2)) best = (tenth, errors);
        }
        return best;
    }

    /// <summary>Darkness of the first to tenth tick, repeated along the ruler: against the gaps on either side, mean and standard error.</summary>
    private static (double Mean, double Error)[] Darkness(RulerStrip strip, double[] along, double distance, int first, int last, bool light)
    {
        var profile = strip.Profile(first, last);
        var sign = light ? -1 : 1;
        double[] dark = [.. along.Select(a => sign * ((strip.Value(profile, a - distance / 2) + strip.Value(profile, a + distance / 2)) / 2 - strip.Value(profile, a)))];
        return [.. Enumerable.Range(0, Ten).Select(c =>
        {
            double[] values = [.. dark.Where((_, i) => i % Ten == c)];
            var mean = values.Average();
            return (mean, Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / Math.Max(1, values.Length - 1) / values.Length));
        })];
    }

    /// <summary>By how many standard errors the least of some ticks is darker than the darkest of the others; 0 when by too little.</summary>
    private static double StandsOut((double Mean, double Error)[] ticks, int[] longer, double band)
    {
        var least = longer.Select(i => ticks[i]).MinBy(t => t.Mean);
        var most = ticks.Where((_, i) => !longer.Contains(i)).MaxBy(t => t.Mean);
        var difference = least.Mean - most.Mean;
        return difference < LeastShare * band ? 0 : difference / Math.Sqrt(least.Error * least.Error + most.Error * most.Error + 1e-12 * band * band);
    }

    /// <summary>The greatest figure that so many neighbouring rows all reach.</summary>
    private static double Run((double, double)[][] rows, int wanted, Func<(double, double)[], double> errors)
    {
        double[] all = [.. rows.Select(errors)];
        return Enumerable.Range(0, Math.Max(0, all.Length - wanted + 1)).Select(i => all.AsSpan(i, wanted).ToArray().Min()).DefaultIfEmpty(0).Max();
    }
}
