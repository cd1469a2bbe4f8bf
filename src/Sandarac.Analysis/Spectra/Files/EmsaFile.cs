using Sandarac.Imaging;

namespace Sandarac.Analysis.Spectra.Files;

/// <summary>The EMSA/MAS spectral data file, ISO 22029:2012 (R. F. Egerton et al., Proc. 49th EMSA (1991) 526; keywords from memory): keywords with #, data as Y or XY. OFFSET is the first channel's energy.</summary>
internal static class EmsaFile
{
    /// <summary>Keywords without which the numbers mean nothing, and those that the standard wants besides.</summary>
    private static readonly string[] Needed = ["NPOINTS", "NCOLUMNS", "XUNITS", "YUNITS", "DATATYPE", "XPERCHAN", "OFFSET"], Wanted = ["VERSION", "TITLE", "DATE", "TIME", "OWNER"];

    public static Spectrum Parse(string[] lines, string name)
    {
        var keys = new Dictionary<string, (string Value, int Line)>(StringComparer.OrdinalIgnoreCase);
        var at = ReadKeys(lines, keys, name);
        var text = new SpectrumText(name);
        if (!keys["FORMAT"].Value.Contains("EMSA", StringComparison.OrdinalIgnoreCase)) throw Problem(name, "emsa-format", $"line {keys["FORMAT"].Line} says {SpectrumText.Shown(keys["FORMAT"].Value)}, not EMSA/MAS.", "Export the spectrum as EMSA (ISO 22029).");
        if (Needed.Where(k => !keys.ContainsKey(k)).ToList() is { Count: > 0 } missing) throw Problem(name, "emsa-keyword", $"#{string.Join(", #", missing)} is missing; the standard requires it.", "Export the spectrum again, or write the missing line.");
        double Value(string key) => text.Number(keys[key].Value, keys[key].Line);
        double? Maybe(string key) => keys.ContainsKey(key) ? Value(key) : null;
        var points = Value("NPOINTS") is >= Spectrum.FewestChannels and <= Spectrum.MostChannels and var n && n == Math.Floor(n) ? (int)n
            : throw Problem(name, "emsa-points", $"line {keys["NPOINTS"].Line} says {SpectrumText.Shown(keys["NPOINTS"].Value)} points; a spectrum has {Spectrum.FewestChannels} to {Spectrum.MostChannels}.", "Give one spectrum, whole.");
        var unit = Unit(name, keys["XUNITS"]);
        var scale = new EnergyScale(unit * Value("OFFSET"), unit * Value("XPERCHAN"));
        var counts = keys["DATATYPE"].Value.ToUpperInvariant() switch
        {
            "Y" => Enough(Values(lines, at, text), points, name).Select(v => text.Count(v.Text, v.Line)).ToList(),
            "XY" => Pairs(Enough(Values(lines, at, text), 2 * points, name), scale, unit, text, name),
            var other => throw Problem(name, "emsa-datatype", $"line {keys["DATATYPE"].Line} says {SpectrumText.Shown(other)}; data are Y or XY.", "Export the spectrum again."),
        };
        return text.Made(keys.GetValueOrDefault("TITLE").Value, counts, scale, Maybe("LIVETIME"), Maybe("BEAMKV") is > 0 and var kv ? kv : null, Warnings(lines, keys));
    }

    private static int ReadKeys(string[] lines, Dictionary<string, (string Value, int Line)> keys, string name)
    {
        for (var i = 0; i < lines.Length; i++)
        {
            if (string.IsNullOrWhiteSpace(lines[i])) continue;
            if (!lines[i].StartsWith('#')) throw Problem(name, "emsa-header", $"line {i + 1} stands before #SPECTRUM and begins with no #: {SpectrumText.Shown(lines[i])}.", "Export the spectrum again.");
            // "#BEAMKV   -kV: 40.0": the unit between keyword and colon says nothing that the standard leaves open.
            var (key, value) = lines[i].IndexOf(':', StringComparison.Ordinal) is >= 0 and var colon ? (lines[i][1..colon], lines[i][(colon + 1)..].Trim()) : (lines[i][1..], "");
            key = key.Split([' ', '-'], 2)[0].Trim();
            if (key.Equals("SPECTRUM", StringComparison.OrdinalIgnoreCase)) return i + 1;
            keys.TryAdd(key, (value, i + 1));
        }
        throw Problem(name, "emsa-header", "#SPECTRUM, after which the data stand, is missing.", "The file ends early: copy it again, or export the spectrum again.");
    }

    private static double Unit(string name, (string Value, int Line) unit) => unit.Value.ToUpperInvariant() switch
    {
        "KEV" => 1,
        "EV" => 0.001,
        _ => throw Problem(name, "emsa-unit", $"line {unit.Line} gives the unit {SpectrumText.Shown(unit.Value)}; an X-ray spectrum has eV or keV.", "Export a spectrum over energy."),
    };

    private static IEnumerable<(string Text, int Line)> Values(string[] lines, int from, SpectrumText text)
    {
        for (var i = from; i < lines.Length && !lines[i].StartsWith("#ENDOFDATA", StringComparison.OrdinalIgnoreCase); i++)
            if (!lines[i].StartsWith('#'))
                foreach (var value in lines[i].Split([',', ' ', '\t'], StringSplitOptions.RemoveEmptyEntries)) yield return (value, i + 1);
    }

    private static List<(string Text, int Line)> Enough(IEnumerable<(string Text, int Line)> values, int wanted, string name)
    {
        var read = values.Take(wanted + 1).ToList();
        return read.Count == wanted ? read : read.Count < wanted
            ? throw Problem(name, "spectrum-cut-off", $"the data end after {read.Count} of {wanted} numbers.", "The file ends early: copy it again.")
            : throw Problem(name, "emsa-points", $"there are more data than the {wanted} numbers that #NPOINTS states.", "Export the spectrum again.");
    }

    private static List<double> Pairs(List<(string Text, int Line)> values, EnergyScale scale, double unit, SpectrumText text, string name)
    {
        for (var i = 0; i < values.Count; i += 2)
        {
            var channel = scale.Channel(unit * text.Number(values[i].Text, values[i].Line));
            if (!(Math.Abs(channel - i / 2) <= 0.5))
                throw Problem(name, "emsa-axis", $"line {values[i].Line}: {values[i].Text} is not where #OFFSET and #XPERCHAN put channel {i / 2}.", "Export the spectrum with an even scale, or correct #OFFSET and #XPERCHAN.");
        }
        return [.. values.Where((_, i) => i % 2 == 1).Select(v => text.Count(v.Text, v.Line))];
    }

    private static IEnumerable<Warning> Warnings(string[] lines, Dictionary<string, (string Value, int Line)> keys)
    {
        if (Wanted.Where(k => !keys.ContainsKey(k)).ToList() is { Count: > 0 } missing) yield return new Warning("emsa-incomplete", $"The standard wants #{string.Join(", #", missing)} as well; the numbers do not depend on it.");
        if (!lines.Any(l => l.StartsWith("#ENDOFDATA", StringComparison.OrdinalIgnoreCase))) yield return new Warning("emsa-no-end", "#ENDOFDATA is missing, though all points are there.");
        if (!keys["YUNITS"].Value.Contains("COUNT", StringComparison.OrdinalIgnoreCase)) yield return new Warning("spectrum-not-counts", $"The unit of the values is {SpectrumText.Shown(keys["YUNITS"].Value)}: significance, which rests on counting, is not certain.");
    }

    private static InputProblem Problem(string name, string code, string message, string remedy) => new(code, name, $"{name}: {message}", remedy);
}
