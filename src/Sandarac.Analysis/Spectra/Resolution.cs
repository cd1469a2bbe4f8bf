namespace Sandarac.Analysis.Spectra;

/// <summary>Width of a line in a silicon detector: electronic noise and Fano's statistics of charge, FWHM^2 = noise^2 + 8 ln 2 F w E.</summary>
/// <param name="NoiseEv">Full width at half maximum of the noise alone, eV.</param>
/// <param name="Fano">Fano factor of silicon.</param>
public sealed record Resolution(double NoiseEv, double Fano = Resolution.SiliconFano)
{
    /// <summary>Fano factor of silicon, and energy for one pair of charges at working temperature, eV. From memory: G. F. Knoll, Radiation Detection and Measurement; published Fano factors run from 0.11 to 0.12.</summary>
    public const double SiliconFano = 0.115, PairEv = 3.65;

    /// <summary>Full width at half maximum over standard deviation.</summary>
    public const double FwhmPerSigma = 2.3548200450309493;

    /// <summary>Energy at which a detector's resolution is stated: manganese Ka, keV.</summary>
    public const double StatedAtKev = 5.895;

    /// <summary>The resolution with this full width at half maximum, eV, at manganese Ka.</summary>
    public static Resolution OfStated(double fwhmEv) => OfMeasured(fwhmEv, StatedAtKev);

    /// <summary>The resolution with this full width at half maximum, eV, at an energy in keV; at least 1 eV of noise.</summary>
    public static Resolution OfMeasured(double fwhmEv, double kev) => new(Math.Sqrt(Math.Max(1, fwhmEv * fwhmEv - FanoEv2(SiliconFano, kev))));

    /// <summary>Full width at half maximum, eV, at an energy in keV.</summary>
    public double FwhmEv(double kev) => Math.Sqrt(NoiseEv * NoiseEv + FanoEv2(Fano, Math.Max(0, kev)));

    /// <summary>Standard deviation, keV, at an energy in keV.</summary>
    public double SigmaKev(double kev) => FwhmEv(kev) / FwhmPerSigma / 1000;

    private static double FanoEv2(double fano, double kev) => FwhmPerSigma * FwhmPerSigma * fano * PairEv * kev * 1000;
}
