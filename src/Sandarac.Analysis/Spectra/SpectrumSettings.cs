using Sandarac.Analysis.Spectra.Lines;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Spectra;

/// <summary>A line that a person knows in a spectrum, for its calibration.</summary>
/// <param name="Name">"Fe Ka", "Pb Lb", or an energy in keV: "6.4".</param>
/// <param name="Channel">The channel of its middle, from 0.</param>
public sealed record KnownLine(string Name, double Channel)
{
    /// <summary>Its energy, keV.</summary>
    /// <exception cref="InputProblem">No such line.</exception>
    public double Kev => (double.TryParse(Name, System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out var kev) && kev is > 0.1 and < 200 ? kev : XrayLine.Energy(Name))
        ?? throw new InputProblem("unknown-line", "--calibrate", $"\"{Name}\" is no line of the table.", "Name element and line, such as Fe Ka, Pb La or Ba Lb1, or give its energy in keV.");

    /// <summary>"Fe Ka=640" as a known line.</summary>
    /// <exception cref="InputProblem">It is written otherwise.</exception>
    public static KnownLine Parse(string text) => text.Split('=') is [var name, var channel] && double.TryParse(channel, System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out var at) && double.IsFinite(at)
        ? new KnownLine(name.Trim(), at) : throw new InputProblem("calibration", "--calibrate", $"\"{text}\" is no line and channel.", "Write LINE=CHANNEL, such as \"Fe Ka=640\".");
}

/// <summary>What a person knows of how a spectrum was measured. What is left out is estimated or assumed, and said.</summary>
public sealed record SpectrumSettings
{
    /// <summary>Lines known in this spectrum, two or more; none: the file's scale, else one that is proposed.</summary>
    public IReadOnlyList<KnownLine> Calibration { get; init; } = [];

    /// <summary>Symbol of the tube's anode, "Rh"; null when unknown.</summary>
    public string? Anode { get; init; }

    /// <summary>The tube's voltage, kV; null: the file's, else where the counts end.</summary>
    public double? TubeKv { get; init; }

    /// <summary>Energy of a beam of one energy, keV, for a synchrotron or a monochromator; null for a tube.</summary>
    public double? BeamKev { get; init; }

    /// <summary>The detector's full width at half maximum at manganese Ka, eV; null: estimated from the peaks.</summary>
    public double? FwhmEv { get; init; }

    /// <summary>Least significance of a peak, in standard deviations.</summary>
    public double LeastSignificance { get; init; } = 5;

    /// <summary>Half-window of the background's clipping in full widths at half maximum of a line.</summary>
    public double BackgroundWindow { get; init; } = 2.5;

    /// <summary>These settings, when they can be.</summary>
    /// <exception cref="InputProblem">One is out of range.</exception>
    public SpectrumSettings Checked()
    {
        if (Anode is { } a && !UsualElements.Anodes.Contains(a)) throw new InputProblem("anode", "--anode", $"\"{a}\" is no usual metal of an anode.", $"Give one of {string.Join(", ", UsualElements.Anodes)}; the tube's data sheet names it.");
        In("--kv", TubeKv, 5, 200);
        In("--beam", BeamKev, 2, 200);
        In("--fwhm", FwhmEv, 60, 600);
        In("--least-significance", LeastSignificance, 3, 20);
        In("--background-window", BackgroundWindow, 1, 10);
        if (Calibration.Count == 1) throw new InputProblem("calibration", "--calibrate", "One line does not make a scale.", "Give two or more lines with their channels.");
        return this;
    }

    private static void In(string name, double? value, double least, double most)
    {
        if (value is { } v && !(v >= least && v <= most)) throw new InputProblem("range", name, FormattableString.Invariant($"{v} is out of range."), FormattableString.Invariant($"Give {least} to {most}."));
    }
}
