using Sandarac.Analysis.Spectra.Elements;
using Sandarac.Analysis.Spectra.Lines;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Spectra.Calibration;

/// <summary>
/// Proposes an energy scale from peaks alone: pairs of strong peaks are taken for pairs of strong lines, each scale that follows is held against the whole spectrum and moved to where it fits best, and one is told only when it is unique.
/// A scale's cost is the sum of weighted squares that all usual elements leave, and as much for each element that it needs as an element must be worth anywhere here: a wrong scale finds a line near any peak, but not the element's other lines.
/// </summary>
internal static class ScaleSearch
{
    /// <summary>Widths at manganese Ka, eV: without any noise a line would be 117 eV wide. Ours, no source.</summary>
    public const double LeastFwhm = 121, MostFwhm = 260;

    /// <summary>How far from 0 keV channel 0 may lie, what is usual (one standard deviation), and how far a spectrum reaches at least, keV. Ours, no source.</summary>
    private const double MostOffset = 0.4, UsualOffset = 0.1, LeastEnd = 8;

    private const double GridKev = 0.005, Unusual = 0.01;

    /// <summary>Peaks that are tried in pairs, peaks that are matched quickly; scales that are fitted, and of those moved to where they fit best, in so many steps at most.</summary>
    private const int Tried = 4, Matched = 14, Fitted = 300, Moved = 20, MostSteps = 6;

    /// <summary>Two scales are different when they differ by more than this at a peak, keV.</summary>
    private const double Different = 0.08;

    /// <summary>What an element costs: the square of five standard deviations.</summary>
    private const double ElementCost = 25;

    /// <summary>By how much the next scale must cost more, in what a bin of the best one costs on the average; where that is above the second figure, nothing explains the spectrum well, and the next must cost twice as much. How often scales
    /// so told are right is measured, see docs/spectra.md.</summary>
    private const double Margin = 150, MostReduced = 6;

    /// <summary>The scale that the peaks suggest.</summary>
    /// <param name="counts">Counts.</param>
    /// <param name="settings">The anode or the beam, when they are known.</param>
    /// <param name="limitKev">The greatest energy that excites; null when unknown.</param>
    /// <exception cref="InputProblem">The anode is not known, there are too few peaks, or nothing explains them ("no-scale"), or more than one scale explains them ("scale-ambiguous").</exception>
    public static TriedScale Propose(double[] counts, SpectrumSettings settings, double? limitKev)
    {
        if (settings.Anode is null && settings.BeamKev is null) throw Untold("no-scale", "the anode is not known, whose scattered lines would be taken for the painting's.", "Give the anode's metal (--anode), or two or more lines that you know: --calibrate \"Fe Ka=CHANNEL\" \"Pb La=CHANNEL\".");
        var sigma = Math.Max(1.2, HalfHeightWidth(counts) / Resolution.FwhmPerSigma);
        var background = Snip.Background(Snip.Smoothed(counts, _ => (int)(sigma / 2)), _ => (int)(6 * sigma));
        var peaks = Peaks(counts, background, sigma);
        if (peaks.Count < 2) throw Untold("no-scale", "it has too few peaks to suggest any.");
        var coarse = new CoarseSpectrum(counts, background, sigma, settings, limitKev);
        var ranked = Ranked(coarse, Distinct(Proposals(peaks, settings.Anode, counts.Length).OrderByDescending(p => Agreement(p.Scale, peaks)), p => p, peaks).Take(Fitted), peaks);
        if (ranked.Count == 0) throw Untold("no-scale", "no pair of usual lines explains its peaks.");
        var rivals = ranked.Skip(1).TakeWhile(r => Cost(r, peaks) - Cost(ranked[0], peaks) < Needed(ranked[0], peaks)).ToList();
        if (rivals.Count > 0) throw Untold("scale-ambiguous", $"more than one scale explains its peaks, among them {string.Join("; or ", rivals.Take(2).Prepend(ranked[0]).Select(r => Words(r, peaks)))}.");
        return ranked[0].Tried;
    }

    private static InputProblem Untold(string code, string why, string remedy = "Give two or more lines that you know: --calibrate \"Fe Ka=CHANNEL\" \"Pb La=CHANNEL\".") => new(code, "--calibrate", $"The file states no energies, and {why}", remedy);

    /// <summary>Scales at their best, the one that explains most first, without those that are the same.</summary>
    private static List<ScaleFit> Ranked(CoarseSpectrum coarse, IEnumerable<TriedScale> tried, List<FittedPeak> peaks)
    {
        var fitted = tried.AsParallel().AsOrdered().Select(t => coarse.Fit(t, null)).ToList().OrderBy(f => Cost(f, peaks)).Take(Moved);
        var moved = fitted.AsParallel().AsOrdered().Select(f => AtBest(coarse, f, peaks)).Where(f => Math.Abs(f.Tried.Scale.OffsetKev) < MostOffset).ToList();
        return [.. Distinct(moved.OrderBy(f => Cost(f, peaks)), f => f.Tried, peaks)];
    }

    private static double Needed(ScaleFit best, List<FittedPeak> peaks) => Math.Max(1, best.Squares / best.Bins) is var reduced && reduced > MostReduced ? Cost(best, peaks) : Margin * reduced;

    private static ScaleFit AtBest(CoarseSpectrum coarse, ScaleFit fit, List<FittedPeak> peaks)
    {
        fit = coarse.Fit(coarse.Nearer(fit), fit);
        for (var step = 0; step < MostSteps && coarse.Fit(coarse.Nearer(fit), fit) is var next && Cost(next, peaks) < Cost(fit, peaks) - 1; step++) fit = next;
        return fit;
    }

    /// <summary>A peak below the lines that are looked for needs an explanation as an element does.</summary>
    private static double Cost(ScaleFit fit, List<FittedPeak> peaks) =>
        fit.Squares + ElementCost * (fit.Elements + peaks.Count(p => fit.Tried.Scale.At(p.Channel) < SpectrumAnalysis.LeastKev)) + Math.Pow(fit.Tried.Scale.OffsetKev / UsualOffset, 2);

    /// <summary>A scale with what it takes the two largest peaks for.</summary>
    private static string Words(ScaleFit fit, List<FittedPeak> peaks)
    {
        string Line(FittedPeak p)
        {
            var (kev, axis) = (fit.Tried.Scale.At(p.Channel), fit.Model.Axis);
            var strongest = fit.Fit.Positive.MaxBy(i => fit.Fit.Amounts[i] * fit.Model.Components[i].At((int)Math.Round(axis.Scale.Channel(kev))));
            return FormattableString.Invariant($"{PeakNames.Name(fit.Model.Components[strongest], kev)}={p.Channel:0.#}");
        }
        return FormattableString.Invariant($"{1000 * fit.Tried.Scale.KevPerChannel:0.00} eV a channel from {fit.Tried.Scale.OffsetKev:0.00} keV ({string.Join(", ", peaks.Take(2).Select(Line))})");
    }

    /// <summary>Peaks with widths of their own, the largest first; the search begins with the width of the highest.</summary>
    private static List<FittedPeak> Peaks(double[] counts, double[] background, double sigma) =>
        [.. PeakFit.Of(counts, background, PeakSearch.Find(counts, [.. counts.Select(c => Math.Max(1, c))], _ => sigma, 6), _ => sigma, true).Where(p => p.Channel > 3 * sigma).OrderByDescending(p => p.Area)];

    /// <summary>Full width at half height of the highest peak, channels; what lies in the first hundredth is the electronics' noise.</summary>
    private static int HalfHeightWidth(double[] counts)
    {
        var smooth = Snip.Smoothed(counts, _ => 1);
        var first = counts.Length / 100;
        var top = Enumerable.Range(first, counts.Length - first).MaxBy(c => smooth[c]);
        var (low, high) = (top, top);
        while (low > first && smooth[low] > smooth[top] / 2) low--;
        while (high < counts.Length - 1 && smooth[high] > smooth[top] / 2) high++;
        return high - low;
    }

    private static IEnumerable<TriedScale> Proposals(List<FittedPeak> peaks, string? anode, int channels)
    {
        var elements = anode is null ? UsualElements.Usual : UsualElements.Usual.Append(anode);
        var lines = elements.SelectMany(e => ((string[])["Ka", "Kb", "La", "Lb"]).Select(l => XrayLine.Energy($"{e} {l}"))).Where(kev => kev is > 1.4 and < 35).Select(kev => kev!.Value).Distinct().ToList();
        foreach (var (low, high) in from a in peaks.Take(Tried) from b in peaks.Take(2 * Tried) where a.Channel != b.Channel select a.Channel < b.Channel ? (a, b) : (b, a))
            foreach (var first in lines)
                foreach (var second in lines.Where(l => l > first + 0.2))
                {
                    var step = (second - first) / (high.Channel - low.Channel);
                    var fwhm = Resolution.OfMeasured(1000 * Resolution.FwhmPerSigma * low.Width * step, first).FwhmEv(Resolution.StatedAtKev);
                    var scale = new EnergyScale(first - step * low.Channel, step);
                    if (step is > 0.002 and < 0.1 && Math.Abs(scale.OffsetKev) < MostOffset && scale.At(channels) > LeastEnd && fwhm is > LeastFwhm and < MostFwhm) yield return new TriedScale(scale, fwhm);
                }
    }

    /// <summary>The share of the peaks that lies on usual lines, less what would by chance, for at low energies lines are so many that anything lies on one; less by as much as the offset is unusual.</summary>
    private static double Agreement(EnergyScale scale, List<FittedPeak> peaks) => peaks.Take(Matched).Sum(p => Math.Sqrt(p.Area) / peaks.Take(Matched).Sum(q => Math.Sqrt(q.Area)) * OnLine.Value[Math.Clamp((int)(scale.At(p.Channel) / GridKev), 0, OnLine.Value.Length - 1)]) - Unusual * Math.Pow(scale.OffsetKev / UsualOffset, 2);

    private static readonly Lazy<double[]> OnLine = new(() =>
    {
        double[] strong = [.. XrayLine.All.Where(l => UsualElements.Usual.Contains(l.Element) && l.Relative > 0.1).Select(l => l.Kev)];
        double[] near = [.. Enumerable.Range(0, (int)(40 / GridKev)).Select(i => strong.Max(l => Math.Exp(-0.5 * Math.Pow((l - i * GridKev) / 0.02, 2))))];
        return [.. near.Zip(Snip.Smoothed(near, _ => (int)(0.4 / GridKev)), (n, chance) => n - chance)];
    });

    /// <summary>Those that differ from all before them.</summary>
    private static IEnumerable<T> Distinct<T>(IEnumerable<T> ranked, Func<T, TriedScale> of, List<FittedPeak> peaks)
    {
        List<EnergyScale> seen = [];
        foreach (var next in ranked)
        {
            if (seen.Exists(s => peaks.Take(Matched).All(p => Math.Abs(s.At(p.Channel) - of(next).Scale.At(p.Channel)) <= Different))) continue;
            seen.Add(of(next).Scale);
            yield return next;
        }
    }
}
