using Sandarac.Imaging;

namespace Sandarac.Analysis.Spectra;

/// <summary>An X-ray fluorescence spectrum as a file has it.</summary>
/// <param name="Title">What the file calls it; its name where it says nothing.</param>
/// <param name="Counts">Counts of each channel, 0 or more, as many as there are channels.</param>
/// <param name="Scale">The energy of channels as the file states it; null when it does not.</param>
/// <param name="LiveSeconds">Time for which the detector was ready, s; null when the file does not say.</param>
/// <param name="TubeKv">Voltage of the tube, kV; null when the file does not say.</param>
/// <param name="Warnings">What whoever uses it must know.</param>
public sealed record Spectrum(string Title, IReadOnlyList<double> Counts, EnergyScale? Scale, double? LiveSeconds, double? TubeKv, IReadOnlyList<Warning> Warnings)
{
    /// <summary>Fewest channels that are taken for a spectrum, and most: finer ones divide a line among hundreds.</summary>
    public const int FewestChannels = 64, MostChannels = 16384;
}

/// <summary>The energy of a channel: the first channel is number 0, its middle has the offset's energy.</summary>
/// <param name="OffsetKev">Energy of channel 0, keV.</param>
/// <param name="KevPerChannel">Step, keV; above 0.</param>
public sealed record EnergyScale(double OffsetKev, double KevPerChannel)
{
    /// <summary>Energy at a channel, which may lie between two, keV.</summary>
    public double At(double channel) => OffsetKev + channel * KevPerChannel;

    /// <summary>The channel, broken, of an energy in keV.</summary>
    public double Channel(double kev) => (kev - OffsetKev) / KevPerChannel;
}
