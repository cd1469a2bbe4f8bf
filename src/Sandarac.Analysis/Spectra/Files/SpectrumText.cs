using System.Globalization;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Spectra.Files;

/// <summary>What every kind of file is held to: numbers, how many of them, and counts.</summary>
/// <param name="name">The file's name.</param>
internal sealed class SpectrumText(string name)
{
    /// <summary>A number on a line, from 1.</summary>
    public double Number(string text, int line) => double.TryParse(text.Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
        ? double.IsFinite(value) ? value : throw new InputProblem("spectrum-number", name, $"{name}, line {line}: {Shown(text)} is not a finite number.", "Export the spectrum again.")
        : throw new InputProblem("spectrum-number", name, $"{name}, line {line}: {Shown(text)} is not a number.", "Put notes on lines that begin with #, or export the spectrum again.");

    /// <summary>More than a million counts a second make in ten days, and few enough to be squared and summed.</summary>
    private const double MostCounts = 1e12;

    /// <summary>A channel's counts on a line, from 1.</summary>
    public double Count(string text, int line) => Number(text, line) is >= 0 and var count
        ? count <= MostCounts ? count : throw new InputProblem("spectrum-counts", name, $"{name}, line {line}: {Shown(text)} are more counts than a channel can have.", "Export the spectrum as counts.")
        : throw new InputProblem("spectrum-negative", name, $"{name}, line {line}: {Shown(text)} counts are less than none.", "Export the spectrum as measured, without its background taken off.");

    /// <summary>The spectrum, when it has as many channels as one has, and counts in them.</summary>
    public Spectrum Made(string? title, IReadOnlyList<double> counts, EnergyScale? scale, double? live, double? kv, IEnumerable<Warning> warnings)
    {
        if (counts.Count is < Spectrum.FewestChannels or > Spectrum.MostChannels)
            throw new InputProblem("spectrum-channels", name, $"{name} has {counts.Count} channels; a spectrum has {Spectrum.FewestChannels} to {Spectrum.MostChannels}.", "Give one spectrum, whole.");
        if (counts.All(c => c == 0)) throw new InputProblem("spectrum-no-counts", name, $"{name} has no counts in any channel.", "Measure again, or export another spectrum.");
        if (scale is { } s && !(s.KevPerChannel is > 0 and < 1 && double.IsFinite(s.OffsetKev) && Math.Abs(s.OffsetKev) < 1000))
            throw new InputProblem("spectrum-scale", name, FormattableString.Invariant($"{name}: {s.KevPerChannel:0.######} keV a channel from {s.OffsetKev:0.###} keV is no scale of an X-ray spectrum."), "Give two lines that you know with --calibrate, or correct the file's scale and unit.");
        Warning[] broken = counts.Any(c => c != Math.Floor(c)) ? [new Warning("spectrum-not-counts", "Some values are no whole numbers: they are no plain counts, and significance, which rests on counting, is not certain.")] : [];
        return new Spectrum(string.IsNullOrWhiteSpace(title) ? name : title.Trim(), counts, scale, live, kv, [.. warnings, .. broken]);
    }

    /// <summary>A piece of a file in a message, not longer than a line can hold.</summary>
    public static string Shown(string text) => $"\"{(text.Length > 40 ? $"{text[..40]}..." : text)}\"";
}
