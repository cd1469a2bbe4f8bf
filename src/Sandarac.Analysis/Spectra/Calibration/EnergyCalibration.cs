namespace Sandarac.Analysis.Spectra.Calibration;

/// <summary>Where an energy scale comes from.</summary>
public enum CalibrationOrigin
{
    /// <summary>The file states it.</summary>
    File,

    /// <summary>A person named lines.</summary>
    KnownLines,

    /// <summary>It was proposed from the peaks alone; a person must look whether the lines make sense.</summary>
    Proposed,
}

/// <summary>A line that a scale rests on, or is checked by.</summary>
/// <param name="Name">"Fe Ka".</param>
/// <param name="Channel">Where it was found.</param>
/// <param name="Kev">Energy by the table, keV.</param>
/// <param name="ResidualEv">Energy by the scale minus that, eV.</param>
public sealed record CalibrationLine(string Name, double Channel, double Kev, double ResidualEv);

/// <summary>An energy scale with what it rests on.</summary>
/// <param name="Scale">The scale.</param>
/// <param name="Origin">Where it comes from.</param>
/// <param name="OffsetUncertaintyKev">Half-width of the offset's 95 % interval, keV; null when two lines or none tell nothing of it.</param>
/// <param name="StepUncertaintyKev">Half-width of the step's 95 % interval, keV; null likewise.</param>
/// <param name="Lines">The lines with their residuals.</param>
public sealed record EnergyCalibration(EnergyScale Scale, CalibrationOrigin Origin, double? OffsetUncertaintyKev, double? StepUncertaintyKev, IReadOnlyList<CalibrationLine> Lines)
{
    /// <summary>Root mean square of the residuals, eV; null without lines.</summary>
    public double? ResidualEv => Lines.Count == 0 ? null : Math.Sqrt(Lines.Average(l => l.ResidualEv * l.ResidualEv));

    /// <summary>The straight line through places by weighted least squares.</summary>
    /// <param name="places">Name, channel, keV, and weight: one over the variance of the channel.</param>
    /// <param name="origin">Where it comes from.</param>
    /// <returns>Null when the places lie on one channel.</returns>
    internal static EnergyCalibration? Of(IReadOnlyList<(string Name, double Channel, double Kev, double Weight)> places, CalibrationOrigin origin)
    {
        if (places.Count < 2 || places.Max(p => p.Channel) - places.Min(p => p.Channel) < 1) return null;
        var weight = places.Sum(p => p.Weight);
        var (channel, kev) = (places.Sum(p => p.Weight * p.Channel) / weight, places.Sum(p => p.Weight * p.Kev) / weight);
        var spread = places.Sum(p => p.Weight * Math.Pow(p.Channel - channel, 2));
        var step = places.Sum(p => p.Weight * (p.Channel - channel) * (p.Kev - kev)) / spread;
        var scale = new EnergyScale(kev - step * channel, step);
        CalibrationLine[] lines = [.. places.Select(p => new CalibrationLine(p.Name, p.Channel, p.Kev, 1000 * (scale.At(p.Channel) - p.Kev)))];
        if (places.Count == 2) return new EnergyCalibration(scale, origin, null, null, lines);
        // The residuals' own spread, by the weights: counting alone would promise more than a table's energies and a detector's straightness hold.
        var variance = places.Zip(lines, (p, l) => p.Weight * Math.Pow(l.ResidualEv / 1000, 2)).Sum() / (places.Count - 2);
        var t = MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, places.Count - 2, 0.975);
        return new EnergyCalibration(scale, origin, t * Math.Sqrt(variance * (1 / weight + channel * channel / spread)), t * Math.Sqrt(variance / spread), lines);
    }
}
