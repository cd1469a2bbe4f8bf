using Sandarac.Analysis.Spectra.Fitting;

namespace Sandarac.Analysis.Spectra.Elements;

/// <summary>Asks of each line of an element whether it stands by itself.</summary>
internal sealed class OwnLines(ElementSearch search)
{
    /// <summary>Lines nearer than this, full widths at half maximum, are one to the detector.</summary>
    private const double Together = 1.1;

    /// <summary>The middle of a line: so many standard deviations to each side, where the line's share of what is there is greatest.</summary>
    private const double Middle = 1.4;

    /// <summary>How much stronger another's line may be than the fit has it, and the background: one standard deviation. Ours, no source; Kb to Ka differs by so much between matrices.</summary>
    private const double OthersDoubt = 0.15, GroundDoubt = 0.02;

    /// <summary>What a detector's tails leave below a stronger line, as a share of its counts: one standard deviation, and how far they reach, keV. Ours, no source.</summary>
    private const double TailDoubt = 2e-4, TailReach = 2;

    /// <summary>Counts of a line over those expected from the others within which they are in proportion.</summary>
    private const double Least = 0.5, Most = 2;

    /// <summary>The search's filter gives away part of the counts: a line that is just significant has so much of it there.</summary>
    private const double StandsOut = 0.7;

    private readonly double[] _ground = search.Model.Sum(search.Fit.Amounts, c => c.Owner == Component.Ground);

    /// <summary>An element's lines, the strongest first.</summary>
    /// <param name="element">Its symbol.</param>
    /// <param name="least">Least significance.</param>
    public IReadOnlyList<ElementLine> Of(string element, double least)
    {
        var all = search.Model.Sum(search.Fit.Amounts, c => c.Owner is not Component.Ground);
        return [.. Clusters(element).Select(c => Line(element, c, all, least)).Where(l => l.Expected >= 1).OrderByDescending(l => l.Expected)];
    }

    /// <summary>What else has counts at an energy: the strongest two; null when the line is clear of others.</summary>
    public string? Others(string element, double kev)
    {
        var names = PeakNames.Of(search, search.Axis.Scale.Channel(kev)).Where(n => !n.StartsWith($"{element} ", StringComparison.Ordinal) || n.EndsWith("Compton", StringComparison.Ordinal)).Take(2).ToList();
        return names.Count == 0 ? null : string.Join(" and ", names);
    }

    private ElementLine Line(string element, (string Name, double Kev, Component Own) cluster, double[] all, double least)
    {
        var (at, half) = (search.Axis.Scale.Channel(cluster.Kev), Middle * search.Axis.Resolution.SigmaKev(cluster.Kev) / search.Axis.Scale.KevPerChannel);
        var (expected, under, ground, net, variance) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (var c = Math.Max(0, (int)Math.Round(at - half)); c <= Math.Min(all.Length - 1, (int)Math.Round(at + half)); c++)
        {
            var others = all[c] - cluster.Own.At(c);
            (expected, under, ground, net, variance) = (expected + cluster.Own.At(c), under + others, ground + _ground[c], net + search.Model.Counts[c] - _ground[c] - others, variance + search.Model.Variance[c]);
        }
        var sigma = Math.Sqrt(variance + Math.Pow(OthersDoubt * under, 2) + Math.Pow(GroundDoubt * ground, 2) + Math.Pow(TailDoubt * Above(all, at), 2));
        var isOwn = net >= least * sigma && Stands(at, all, cluster.Own) >= StandsOut * least && (1 + OthersDoubt) * under <= net && net >= Least * expected && net <= Most * expected;
        return new ElementLine(cluster.Name, cluster.Kev, net, expected, sigma, isOwn, under > 0.2 * Math.Max(net, expected) ? Others(element, cluster.Kev) : null);
    }

    /// <summary>Significance of a peak there once all other lines are taken off, by the search's filter: unlike counts above the background it asks for a peak's shape.</summary>
    private double Stands(double at, double[] all, Component own)
    {
        var channel = (int)Math.Round(at);
        var left = (double[])search.Model.Counts.Clone();
        Rows.Add(left, -1, all);
        Rows.Add(left.AsSpan(own.From, own.Shape.Length), 1, own.Shape);
        return PeakSearch.Answer(left, search.Model.Variance, channel, search.Axis.Sigma(channel));
    }

    /// <summary>Counts of all lines within the reach of their tails above a channel.</summary>
    private double Above(double[] all, double at) => Enumerable.Range((int)at, Math.Max(0, Math.Min(all.Length - (int)at, (int)(TailReach / search.Axis.Scale.KevPerChannel)))).Sum(c => all[c]);

    /// <summary>Lines that the detector does not part, by the strongest among them, with their counts.</summary>
    private IEnumerable<(string Name, double Kev, Component Own)> Clusters(string element)
    {
        var lines = Enumerable.Range(0, search.Model.Components.Count).Where(i => search.Model.Components[i].Owner == element && !search.Model.Components[i].Part.Contains("escape", StringComparison.Ordinal))
            .SelectMany(i => search.Model.Components[i].Lines.Select(l => (l.Name, l.Kev, Counts: l.Counts * search.Fit.Amounts[i]))).OrderByDescending(l => l.Counts).ToList();
        while (lines.Count > 0 && lines[0].Counts > 0)
        {
            var first = lines[0];
            var near = lines.Where(l => Math.Abs(l.Kev - first.Kev) < Together * search.Axis.Resolution.FwhmEv(first.Kev) / 1000).ToList();
            yield return (PeakNames.Plain(first.Name).Split(' ')[1], near.Sum(l => l.Kev * l.Counts) / near.Sum(l => l.Counts), Component.OfLines(element, first.Name, near, search.Axis));
            lines.RemoveAll(near.Contains);
        }
    }
}
