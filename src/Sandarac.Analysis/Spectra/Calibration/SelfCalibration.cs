using Sandarac.Analysis.Spectra.Fitting;
using Sandarac.Analysis.Spectra.Lines;

namespace Sandarac.Analysis.Spectra.Calibration;

/// <summary>Proposes an energy scale from peaks alone: pairs of strong peaks are taken for pairs of strong lines; widths must be those of a silicon detector, the first channel must lie near 0 keV, and usual elements must explain the whole
/// spectrum best.</summary>
internal static class SelfCalibration
{
    /// <summary>How far from 0 keV channel 0 may lie, and what is usual (one standard deviation), keV; widths at manganese Ka, eV: without any noise a line would be 117 eV wide. Ours, no source.</summary>
    private const double MostOffset = 0.4, UsualOffset = 0.1, LeastFwhm = 121, MostFwhm = 260;

    private const double GridKev = 0.005;

    /// <summary>Peaks that are tried in pairs, peaks that are matched quickly, and proposals that are fitted whole.</summary>
    private const int Tried = 4, Matched = 14, Fitted = 60;

    /// <summary>Two proposals are different when they differ by more than this at the ends of the peaks, keV; the second is nearly as good when its sum of squares is no more than so many times that of the first.</summary>
    private const double Different = 0.08, NearlyAsGood = 2;

    /// <summary>The best scale, its detector's width at manganese Ka in eV, and whether another one is nearly as good; null when there is none.</summary>
    public static (EnergyScale Scale, double FwhmEv, bool IsAmbiguous)? Propose(double[] counts)
    {
        var peaks = Peaks(counts);
        if (peaks.Count < 2) return null;
        var proposals = Proposals(peaks).OrderByDescending(p => Agreement(p.Scale, peaks)).ToList();
        List<(EnergyScale Scale, double FwhmEv)> distinct = [];
        foreach (var p in proposals)
            if (distinct.Count < Fitted && distinct.TrueForAll(d => Differ(d.Scale, p.Scale, peaks))) distinct.Add(p);
        var ranked = distinct.Select(p => (p.Scale, p.FwhmEv, Misfit: Misfit(counts, p.Scale, p.FwhmEv))).OrderBy(p => p.Misfit).ToList();
        return ranked.Count == 0 ? null : (ranked[0].Scale, ranked[0].FwhmEv, ranked.Count > 1 && ranked[1].Misfit < NearlyAsGood * ranked[0].Misfit);
    }

    /// <summary>Peaks with widths of their own, the largest first; the search begins with the width of the highest.</summary>
    private static List<FittedPeak> Peaks(double[] counts)
    {
        double[] variance = [.. counts.Select(c => Math.Max(1, c))];
        var sigma = Math.Max(1.2, HalfHeightWidth(counts) / Resolution.FwhmPerSigma);
        var background = Snip.Background(Snip.Smoothed(counts, _ => (int)(sigma / 2)), _ => (int)(6 * sigma));
        return [.. PeakFit.Of(counts, background, PeakSearch.Find(counts, variance, _ => sigma, 6), _ => sigma, true).Where(p => p.Channel > 3 * sigma).OrderByDescending(p => p.Area)];
    }

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

    private static IEnumerable<(EnergyScale Scale, double FwhmEv)> Proposals(List<FittedPeak> peaks)
    {
        var lines = UsualElements.Usual.SelectMany(e => ((string[])["Ka", "La", "Lb"]).Select(l => (Name: l, Kev: XrayLine.Energy($"{e} {l}")))).Where(l => l.Kev is > 1.7 and < 35).Select(l => l.Kev!.Value).Distinct().ToList();
        foreach (var (low, high) in from a in peaks.Take(Tried) from b in peaks.Take(2 * Tried) where a.Channel != b.Channel select a.Channel < b.Channel ? (a, b) : (b, a))
            foreach (var first in lines)
                foreach (var second in lines.Where(l => l > first + 0.2))
                {
                    var step = (second - first) / (high.Channel - low.Channel);
                    var fwhm = Resolution.OfMeasured(1000 * Resolution.FwhmPerSigma * low.Width * step, first).FwhmEv(Resolution.StatedAtKev);
                    if (step is > 0.002 and < 0.1 && Math.Abs(first - step * low.Channel) < MostOffset && fwhm is > LeastFwhm and < MostFwhm) yield return (new EnergyScale(first - step * low.Channel, step), fwhm);
                }
    }

    /// <summary>How much of the peaks lies on usual lines, less what would by chance: at low energies lines are so many that anything lies on one.</summary>
    private static double Agreement(EnergyScale scale, List<FittedPeak> peaks) => peaks.Take(Matched).Sum(p => Math.Sqrt(p.Area) * OnLine.Value[Math.Clamp((int)(scale.At(p.Channel) / GridKev), 0, OnLine.Value.Length - 1)]);

    private static readonly Lazy<double[]> OnLine = new(() =>
    {
        double[] strong = [.. XrayLine.All.Where(l => UsualElements.Usual.Contains(l.Element) && l.Relative > 0.1).Select(l => l.Kev)];
        double[] near = [.. Enumerable.Range(0, (int)(40 / GridKev)).Select(i => strong.Max(l => Math.Exp(-0.5 * Math.Pow((l - i * GridKev) / 0.02, 2))))];
        return [.. near.Zip(Snip.Smoothed(near, _ => (int)(0.4 / GridKev)), (n, chance) => n - chance)];
    });

    private static bool Differ(EnergyScale a, EnergyScale b, List<FittedPeak> peaks) => peaks.Take(Matched).Any(p => Math.Abs(a.At(p.Channel) - b.At(p.Channel)) > Different);

    private static double Misfit(double[] counts, EnergyScale scale, double fwhmEv)
    {
        var axis = SpectrumAnalysis.Axis(counts, scale, Resolution.OfStated(fwhmEv), null);
        var background = SpectrumAnalysis.Background(counts, axis, new SpectrumSettings().BackgroundWindow);
        var (model, fit) = LineModel.Fit([.. LineShapes.Grounds(background, axis), LineShapes.PiledUp(counts, axis), .. UsualElements.Usual.SelectMany(e => LineShapes.Shells(e, axis))], counts, axis, 1);
        var sum = model.Sum(fit.Amounts, _ => true);
        return Enumerable.Range(0, counts.Length).Sum(c => Math.Pow(counts[c] - sum[c], 2) / Math.Max(1, counts[c])) + Math.Pow(scale.OffsetKev / UsualOffset, 2);
    }
}
