namespace Sandarac.Analysis.Spectra.Fitting;

/// <summary>One column of a spectrum's model: a shape over channels whose amount the fit finds.</summary>
/// <param name="Owner">An element's symbol, or <see cref="Tube"/>, <see cref="PileUp"/>, <see cref="Tail"/>, <see cref="Ground"/>.</param>
/// <param name="Part">Group of lines (Ka, L3, M), shell (K, L), "escape", or what the owner has.</param>
/// <param name="From">First channel.</param>
/// <param name="Shape">Counts of each channel from there on for an amount of 1.</param>
/// <param name="Lines">The lines in it: name, keV, counts for an amount of 1.</param>
internal sealed record Component(string Owner, string Part, int From, double[] Shape, IReadOnlyList<(string Name, double Kev, double Counts)> Lines)
{
    /// <summary>The tube's own lines, scattered.</summary>
    public const string Tube = "tube";

    /// <summary>Two quanta counted as one.</summary>
    public const string PileUp = "pile-up";

    /// <summary>Charge that the detector did not collect whole.</summary>
    public const string Tail = "tail";

    /// <summary>The background's own freedom.</summary>
    public const string Ground = "background";

    /// <summary>Whether it belongs to an element.</summary>
    public bool IsElement => Owner is not (Tube or PileUp or Tail or Ground);

    /// <summary>Its value at a channel, for an amount of 1.</summary>
    public double At(int channel) => channel >= From && channel < From + Shape.Length ? Shape[channel - From] : 0;

    /// <summary>Gaussian lines, as wide as the detector makes them.</summary>
    /// <param name="owner">Owner.</param>
    /// <param name="part">Part.</param>
    /// <param name="lines">Name, keV and counts for an amount of 1.</param>
    /// <param name="axis">The channels.</param>
    /// <param name="broadening">Standard deviation added to the detector's, as a share of the energy.</param>
    public static Component OfLines(string owner, string part, IReadOnlyList<(string Name, double Kev, double Counts)> lines, ChannelAxis axis, double broadening = 0)
    {
        double Sigma(double kev) => Math.Sqrt(Math.Pow(axis.Resolution.SigmaKev(kev), 2) + Math.Pow(broadening * kev, 2)) / axis.Scale.KevPerChannel;
        // Beyond four standard deviations a line of a million counts is below a hundredth of one.
        var reach = lines.Select(l => (At: axis.Scale.Channel(l.Kev), Sigma: Sigma(l.Kev), l.Counts)).ToList();
        var from = Math.Clamp((int)Math.Floor(reach.Min(r => r.At - 4.5 * r.Sigma)), 0, axis.Count - 1);
        var to = Math.Clamp((int)Math.Ceiling(reach.Max(r => r.At + 4.5 * r.Sigma)), from, axis.Count - 1);
        var shape = new double[to - from + 1];
        foreach (var (at, sigma, counts) in reach)
            for (var c = Math.Max(from, (int)(at - 4.5 * sigma)); c <= Math.Min(to, (int)(at + 4.5 * sigma) + 1); c++)
                shape[c - from] += counts / (sigma * Math.Sqrt(2 * Math.PI)) * Math.Exp(-0.5 * Math.Pow((c - at) / sigma, 2));
        return new Component(owner, part, from, shape, lines);
    }
}

/// <summary>The channels of a spectrum as a fit needs them.</summary>
/// <param name="Count">How many.</param>
/// <param name="Scale">Their energies.</param>
/// <param name="Resolution">The detector's.</param>
/// <param name="FromKev">Least energy that is fitted.</param>
/// <param name="ToKev">Greatest energy that is fitted.</param>
/// <param name="LimitKev">Greatest energy of what excites: edges above it give no lines.</param>
internal sealed record ChannelAxis(int Count, EnergyScale Scale, Resolution Resolution, double FromKev, double ToKev, double LimitKev)
{
    /// <summary>Standard deviation of a line at a channel, channels.</summary>
    public double Sigma(int channel) => Math.Max(0.7, Resolution.SigmaKev(Math.Max(0.3, Scale.At(channel))) / Scale.KevPerChannel);

    /// <summary>First and last channel that are fitted.</summary>
    public (int From, int To) Fitted => (Math.Clamp((int)Math.Ceiling(Scale.Channel(FromKev)), 0, Count - 1), Math.Clamp((int)Math.Floor(Scale.Channel(ToKev)), 0, Count - 1));
}
