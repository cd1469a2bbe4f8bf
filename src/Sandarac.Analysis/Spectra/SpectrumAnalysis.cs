using Sandarac.Analysis.Numbers;
using Sandarac.Analysis.Spectra.Calibration;
using Sandarac.Analysis.Spectra.Elements;
using Sandarac.Analysis.Spectra.Fitting;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Spectra;

/// <summary>
/// From counts to elements: scale, width of lines, background, peaks, then all lines of all usual elements at once by least squares without negative amounts, and for each element the question whether a line of it stands by itself.
/// It says which elements the spectrum needs and how sure that is; it measures no amounts. Limits: a silicon detector; lines from 1.2 keV, so that sodium and lighter elements are never found; in air nothing below about silicon is seen, and nothing of organic matter.
/// </summary>
public static class SpectrumAnalysis
{
    /// <summary>Rises whenever the same file and settings would give other numbers.</summary>
    public const int Version = 2;

    /// <summary>Lines below are not looked for, keV: there the L lines of iron to zinc, the electronics' noise and what air leaves lie together.</summary>
    internal const double LeastKev = 1.2;

    /// <summary>Width to begin with, eV at manganese Ka, and bounds of what is believed.</summary>
    private const double UsualFwhm = 150, LeastFwhm = 100, MostFwhm = 400;

    /// <summary>Fewest channels above that, and the highest energy at which a spectrum may begin, keV: above it no usual element has its strongest lines.</summary>
    private const int FewestFitted = 32;

    private const double MostFirstKev = 30;

    /// <summary>How far what excites may go beyond a range that is full of counts, as a factor. Ours, no source.</summary>
    internal const double BeyondEnd = 1.6;

    /// <summary>A correction of the scale that is worth a warning, eV.</summary>
    private const double WorthSaying = 20;

    /// <summary>Analyses a spectrum.</summary>
    /// <exception cref="InputProblem">A setting is out of range, or no scale can be found.</exception>
    public static SpectrumResult Run(Spectrum spectrum, SpectrumSettings settings)
    {
        settings.Checked();
        double[] counts = [.. spectrum.Counts];
        List<Warning> warnings = [.. spectrum.Warnings];
        var (calibration, width) = Scale(spectrum, counts, settings, warnings);
        if (calibration.Scale.Channel(LeastKev) > counts.Length - FewestFitted || calibration.Scale.At(0) > MostFirstKev)
            throw new InputProblem("spectrum-energies", spectrum.Title, FormattableString.Invariant($"The spectrum runs from {calibration.Scale.At(0):0.0} to {calibration.Scale.At(counts.Length - 1):0.0} keV, where there are no lines to look for."), "Give two lines that you know with --calibrate.");
        if (calibration.Scale.KevPerChannel > MostFwhm / 1000)
            throw new InputProblem("spectrum-coarse", spectrum.Title, FormattableString.Invariant($"A channel is {calibration.Scale.KevPerChannel:0.##} keV wide, wider than any line."), "See whether the energies are in keV, or give two lines that you know with --calibrate.");
        var limit = settings.TubeKv is { } given ? new Stated(given, "given") : settings.BeamKev is { } beam ? new Stated(beam + 0.01, "the beam's energy, given") : spectrum.TubeKv is { } kv ? new Stated(kv, "stated by the file") : null;
        var resolution = Resolution.OfStated(settings.FwhmEv ?? width);
        if (settings.FwhmEv is null) resolution = Widths(counts, Axis(counts, calibration.Scale, resolution, limit?.Value), settings) ?? resolution;
        var given0 = calibration;
        var state = Fit(counts, settings, calibration, resolution, limit?.Value);
        for (var round = 0; round < 2; round++)
        {
            calibration = ScaleCheck.Corrected(state.Search, calibration, state.Background, state.Peaks);
            if (settings.FwhmEv is null) resolution = Narrowed(state.Search, calibration.Scale, counts, limit?.Value);
            state = Fit(counts, settings, calibration, resolution, limit?.Value);
        }
        warnings.AddRange(Warnings(state, settings, given0, calibration));
        var axis = state.Search.Axis;
        return new SpectrumResult(Version, spectrum.Title, calibration, new Stated(resolution.FwhmEv(Resolution.StatedAtKev), settings.FwhmEv is null ? "estimated from the lines" : "given"),
            limit ?? new Stated(axis.LimitKev, axis.LimitKev > axis.ToKev + 1 ? "not known: the range is full of counts to its end, and no edge is ruled out below this" : "estimated from where the counts end"), counts, state.Search.Model.Sum(state.Search.Fit.Amounts, c => c.Owner == Component.Ground), state.Search.Model.Sum(state.Search.Fit.Amounts, _ => true),
            [.. state.Peaks.Select(p => new SpectrumPeak(axis.Scale.At(p.Channel), 1.96 * Math.Sqrt(Math.Pow(p.ChannelSigma * axis.Scale.KevPerChannel, 2) + Math.Pow((calibration.ResidualEv ?? 0) / 1000, 2)), p.Area, 1.96 * p.AreaSigma, p.Significance, PeakNames.Of(state.Search, p.Channel)))],
            new ElementVerdicts(state.Search, settings).All(), settings, warnings);
    }

    /// <summary>The channels, as far as there are counts and something excites.</summary>
    internal static ChannelAxis Axis(double[] counts, EnergyScale scale, Resolution resolution, double? limitKev)
    {
        var window = Math.Max(1, (int)(resolution.FwhmEv(6) / 1000 / scale.KevPerChannel));
        var sums = Snip.Smoothed(counts, _ => window);
        var last = Array.FindLastIndex(sums, s => s * (2 * window + 1) >= 8);
        var end = scale.At(counts.Length - 1 - 2 * window);
        // Counts that do not end before the channels do say only that what excites goes farther.
        var limit = limitKev ?? (scale.At(last) < end ? scale.At(last) : BeyondEnd * end);
        var first = Math.Max(LeastKev, scale.At(Array.FindIndex(sums, s => s > 0) + window));
        return new ChannelAxis(counts.Length, scale, resolution, first, Math.Max(first + 1, Math.Min(end, limit + 0.5)), limit);
    }

    /// <summary>The background by clipping.</summary>
    internal static double[] Background(double[] counts, ChannelAxis axis, double window)
    {
        double Fwhm(int c) => Resolution.FwhmPerSigma * axis.Sigma(c);
        return Snip.Background(Snip.Smoothed(counts, c => (int)(Fwhm(c) / 3)), c => (int)Math.Ceiling(window * Fwhm(c)));
    }

    private static (ElementSearch Search, double[] Background, IReadOnlyList<FittedPeak> Peaks) Fit(double[] counts, SpectrumSettings settings, EnergyCalibration calibration, Resolution resolution, double? limitKev)
    {
        var axis = Axis(counts, calibration.Scale, resolution, limitKev);
        var background = Background(counts, axis, settings.BackgroundWindow);
        var peaks = Peaks(counts, background, axis, settings.LeastSignificance, false);
        return (ElementSearch.Run(counts, background, axis, settings.Anode, settings.BeamKev, settings.LeastSignificance), background, peaks);
    }

    private static IReadOnlyList<FittedPeak> Peaks(double[] counts, double[] background, ChannelAxis axis, double least, bool freeWidth)
    {
        var (from, to) = axis.Fitted;
        var found = PeakSearch.Find(counts, [.. counts.Select(c => Math.Max(1, c))], axis.Sigma, least).Where(p => p.Channel >= from && p.Channel <= to).ToList();
        return PeakFit.Of(counts, background, found, axis.Sigma, freeWidth);
    }

    private static (EnergyCalibration Calibration, double FwhmEv) Scale(Spectrum spectrum, double[] counts, SpectrumSettings settings, List<Warning> warnings)
    {
        if (settings.Calibration.Count > 1)
            return (EnergyCalibration.Of([.. settings.Calibration.Select(l => (l.Name, l.Channel, l.Kev, 1.0))], CalibrationOrigin.KnownLines) is { Scale.KevPerChannel: > 0 } known ? known
                : throw new InputProblem("calibration", "--calibrate", "These lines give no rising scale.", "Give two or more lines on different channels, the higher energy on the higher channel."), UsualFwhm);
        if (spectrum.Scale is { } scale) return (new EnergyCalibration(scale, CalibrationOrigin.File, null, null, []), UsualFwhm);
        var proposed = ScaleSearch.Propose(counts, settings, settings.TubeKv ?? settings.BeamKev + 0.01 ?? spectrum.TubeKv);
        warnings.Add(new Warning("scale-proposed", "The energy scale was proposed from the peaks alone; look whether its lines make sense, or give two lines that you know."));
        return (new EnergyCalibration(proposed.Scale, CalibrationOrigin.Proposed, null, null, []), proposed.FwhmEv);
    }

    /// <summary>The width from strong peaks with widths of their own: the median of the narrower half, for unresolved lines only widen.</summary>
    private static Resolution? Widths(double[] counts, ChannelAxis axis, SpectrumSettings settings)
    {
        var peaks = Peaks(counts, Background(counts, axis, settings.BackgroundWindow), axis, 15, true);
        var widths = peaks.Select(p => Resolution.OfMeasured(1000 * Resolution.FwhmPerSigma * p.Width * axis.Scale.KevPerChannel, axis.Scale.At(p.Channel)).FwhmEv(Resolution.StatedAtKev)).Where(w => w is > LeastFwhm and < MostFwhm).ToList();
        return widths.Count == 0 ? null : Resolution.OfStated(Robust.Quantile(widths, 0.25));
    }

    /// <summary>The noise that fits best, by a parabola through three.</summary>
    private static Resolution Narrowed(ElementSearch search, EnergyScale scale, double[] counts, double? limitKev)
    {
        var now = search.Axis.Resolution.FwhmEv(Resolution.StatedAtKev);
        double[] tried = [0.92 * now, now, 1.08 * now];
        var squares = tried.Select(fwhm => search.Misfit(Axis(counts, scale, Resolution.OfStated(fwhm), limitKev))).ToArray();
        var curve = squares[0] - 2 * squares[1] + squares[2];
        var step = curve > 0 ? Math.Clamp((squares[0] - squares[2]) / (2 * curve), -1, 1) : squares[0] < squares[2] ? -1 : 1;
        return Resolution.OfStated(Math.Clamp(now * (1 + 0.08 * step), LeastFwhm, MostFwhm));
    }

    private static IEnumerable<Warning> Warnings((ElementSearch Search, double[] Background, IReadOnlyList<FittedPeak> Peaks) state, SpectrumSettings settings, EnergyCalibration before, EnergyCalibration now)
    {
        if (settings.Anode is null && settings.BeamKev is null) yield return new Warning("anode-unknown", "The tube's anode is not known: its own lines, scattered, may be taken for the painting's. Give it; the data sheet names it.");
        var off = now.Lines.Select(l => 1000 * Math.Abs(before.Scale.At(l.Channel) - now.Scale.At(l.Channel))).DefaultIfEmpty(0).Max();
        if (off > WorthSaying) yield return new Warning("scale-corrected", FormattableString.Invariant($"The scale was corrected by up to {off:0} eV so that the lines found lie where the table has them."));
        var unexplained = state.Peaks.Where(p => PeakNames.Of(state.Search, p.Channel).Count == 0).Select(p => FormattableString.Invariant($"{state.Search.Axis.Scale.At(p.Channel):0.00}")).ToList();
        if (unexplained.Count > 0) yield return new Warning("peaks-unexplained", $"Nothing explains the peak{(unexplained.Count > 1 ? "s" : "")} at {string.Join(", ", unexplained)} keV: a rarer element, a diffraction peak, or the scale.");
    }
}
