using Sandarac.Analysis.Spectra;

namespace Sandarac.Analysis.Tests.Spectra;

/// <summary>A drawn spectrum of one to eight elements that states no energies, with its true scale: 10 to 45 keV in 1024, 2048 or 4096 channels, channel 0 within 0.15 keV, 125 to 190 eV, 30 000 to 2 000 000 counts.</summary>
internal sealed record UnscaledSpectrum(PaintSpectrum Paint, Spectrum Spectrum, EnergyScale Truth, double Total, int Elements)
{
    public static UnscaledSpectrum Of(int seed)
    {
        var (random, elements) = (new Random(seed), 1 + seed % 8);
        var paint = PaintSpectrum.Mixed(random, elements);
        var channels = 1024 << random.Next(3);
        var end = seed % 2 == 0 ? 10 + 10 * random.NextDouble() : 20 + 25 * random.NextDouble();
        var truth = new EnergyScale(0.3 * random.NextDouble() - 0.15, end / channels);
        var total = Math.Pow(10, 4.5 + 1.8 * random.NextDouble());
        return new UnscaledSpectrum(paint, paint.Draw(seed, total, 125 + 65 * random.NextDouble(), truth, states: false, channels: channels), truth, total, elements);
    }

    /// <summary>Whether a scale has every line of 200 counts or more within 50 eV, a third of a line's width.</summary>
    public bool IsRight(EnergyScale scale) => Paint.Lines.Where(l => l.Element is not ("tube" or "continuum") && l.Kev > 1.7 && l.Share * Total > 200 && Truth.Channel(l.Kev) < Spectrum.Counts.Count).All(l => Math.Abs(scale.At(Truth.Channel(l.Kev)) - l.Kev) < 0.05);
}
