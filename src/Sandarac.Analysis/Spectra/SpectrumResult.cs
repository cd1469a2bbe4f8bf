using Sandarac.Analysis.Spectra.Calibration;
using Sandarac.Analysis.Spectra.Elements;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Spectra;

/// <summary>A peak.</summary>
/// <param name="Kev">Its middle, keV.</param>
/// <param name="UncertaintyKev">Half-width of the 95 % interval, keV: counting, and how far the scale's lines lie off it; without such lines counting alone.</param>
/// <param name="Counts">Counts above the background.</param>
/// <param name="CountsUncertainty">Half-width of the 95 % interval of that from counting.</param>
/// <param name="Significance">Standard deviations above what is beside it, under Poisson counting.</param>
/// <param name="Lines">What it consists of, the strongest first; empty when nothing explains it.</param>
public sealed record SpectrumPeak(double Kev, double UncertaintyKev, double Counts, double CountsUncertainty, double Significance, IReadOnlyList<string> Lines);

/// <summary>A value with where it comes from.</summary>
/// <param name="Value">The value.</param>
/// <param name="Origin">"stated by the file", "given", "estimated from ...".</param>
public sealed record Stated(double Value, string Origin);

/// <summary>What a spectrum shows.</summary>
/// <param name="Version">Version of the analysis: it rises whenever the same file and settings would give other numbers.</param>
/// <param name="Title">The spectrum's.</param>
/// <param name="Calibration">Its energy scale.</param>
/// <param name="FwhmEv">Full width at half maximum at manganese Ka, eV.</param>
/// <param name="LimitKev">The greatest energy that excites, keV.</param>
/// <param name="Counts">Counts of each channel.</param>
/// <param name="Background">Background of each channel, counts.</param>
/// <param name="Model">Background and lines of each channel, counts.</param>
/// <param name="Peaks">Peaks from low energies to high.</param>
/// <param name="Elements">Elements, the surest first.</param>
/// <param name="Settings">What was given.</param>
/// <param name="Warnings">What whoever uses it must know.</param>
public sealed record SpectrumResult(int Version, string Title, EnergyCalibration Calibration, Stated FwhmEv, Stated LimitKev, IReadOnlyList<double> Counts, IReadOnlyList<double> Background, IReadOnlyList<double> Model,
    IReadOnlyList<SpectrumPeak> Peaks, IReadOnlyList<ElementFound> Elements, SpectrumSettings Settings, IReadOnlyList<Warning> Warnings)
{
    /// <summary>The caution that stands beside every spectrum.</summary>
    public static string Caution => "XRF instruments are X-ray sources: licensed use only; local rules and the radiation officer decide. Spectra show elements, not materials, of all layers within reach at once.";
}
