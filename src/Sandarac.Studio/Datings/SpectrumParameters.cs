using System.Globalization;
using Sandarac.Analysis.Spectra;
using Sandarac.Imaging;

namespace Sandarac.Studio.Datings;

/// <summary>What a spectrum's analysis was told, as the record keeps it: names and values in words.</summary>
public static class SpectrumParameters
{
    private static readonly string[] Known = ["anode", "kv", "beam", "fwhm", "calibrate"];

    /// <summary>The settings that parameters mean.</summary>
    /// <exception cref="InputProblem">One is not known ("unknown-parameter"), is no number ("number") or is out of range.</exception>
    public static SpectrumSettings Read(IReadOnlyDictionary<string, string> parameters)
    {
        if (parameters.Keys.FirstOrDefault(k => !Known.Contains(k)) is { } other) throw new InputProblem("unknown-parameter", other, $"\"{other}\" is no parameter of the analysis.", $"It knows {string.Join(", ", Known)}.");
        if (parameters.FirstOrDefault(p => p.Value is null).Key is { } empty) throw new InputProblem("value-missing", empty, $"{empty} is null.", "Leave it out, or give a value.");
        double? Number(string name) => parameters.GetValueOrDefault(name, "").Trim() is not { Length: > 0 } text ? null
            : double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : throw new InputProblem("number", name, $"{name}: \"{text}\" is not a number.", "Enter digits, with a point.");
        return new SpectrumSettings
        {
            Anode = parameters.GetValueOrDefault("anode", "").Trim() is { Length: > 0 } anode ? anode : null, TubeKv = Number("kv"), BeamKev = Number("beam"), FwhmEv = Number("fwhm"),
            Calibration = [.. parameters.GetValueOrDefault("calibrate", "").Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(KnownLine.Parse)],
        }.Checked();
    }
}
