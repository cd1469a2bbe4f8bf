using Sandarac.Analysis.Spectra.Fitting;

namespace Sandarac.Analysis.Spectra.Elements;

/// <summary>Names what a peak consists of.</summary>
internal static class PeakNames
{
    /// <summary>What charge that was not collected whole is called.</summary>
    public const string Tails = "tails of stronger lines";

    /// <summary>Least share of the lines' counts at a peak's top that is named.</summary>
    private const double Named = 0.15;

    /// <summary>What has counts at a channel, the strongest first: "Fe Ka", "Rh Ka Compton", "pulses piled up".</summary>
    public static IReadOnlyList<string> Of(ElementSearch search, double channel)
    {
        var (at, kev) = ((int)Math.Round(channel), search.Axis.Scale.At(channel));
        var there = search.Model.Components.Select((c, i) => (Component: c, Counts: search.Fit.Amounts[i] * c.At(at))).Where(x => x.Component.Owner != Component.Ground && x.Counts > 0).ToList();
        var all = there.Sum(x => x.Counts);
        return [.. there.Select(x => (Name: Name(x.Component, kev), x.Counts)).GroupBy(x => x.Name, x => x.Counts).Select(g => (g.Key, Counts: g.Sum())).Where(g => g.Counts > Named * all).OrderByDescending(g => g.Counts).Select(g => g.Key)];
    }

    /// <summary>The line of a column nearest to an energy, without the numbers of what the detector does not part.</summary>
    public static string Name(Component component, double kev) => component.Owner == Component.Tail ? Tails : component.Lines.Count == 0 ? "pulses piled up" : Plain(Nearest(component, kev));

    /// <summary>"Fe Ka1 escape" as "Fe Ka escape".</summary>
    public static string Plain(string line) => string.Join(' ', line.Split(' ').Select((word, i) => i == 1 ? word.TrimEnd([.. "0123456789"]) : word));

    /// <summary>The line with the most counts there, near lines being stronger by their nearness.</summary>
    private static string Nearest(Component component, double kev) => component.Lines.MaxBy(l => Math.Log(l.Counts) - 0.5 * Math.Pow((l.Kev - kev) / 0.06, 2)).Name;
}
