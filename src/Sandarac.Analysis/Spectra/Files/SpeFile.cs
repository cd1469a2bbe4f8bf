using Sandarac.Imaging;

namespace Sandarac.Analysis.Spectra.Files;

/// <summary>Text under section names with $, as counters of nuclear laboratories exchange it (.spe; from memory): $DATA: with its first and last channel, then counts; $MCA_CAL: with coefficients; $MEAS_TIM: with live and real time.</summary>
internal static class SpeFile
{
    public static Spectrum Parse(string[] lines, string name)
    {
        var text = new SpectrumText(name);
        var (counts, live, scale) = ((List<double>?)null, (double?)null, (EnergyScale?)null);
        foreach (var (section, values) in Sections(lines))
        {
            double At(int i) => i < values.Count ? text.Number(values[i].Text, values[i].Line) : throw Problem(name, $"{section} ends early.");
            if (section == "$DATA:") counts = Counts(values, text, name);
            else if (section == "$MEAS_TIM:") live = At(0);
            else if (section == "$MCA_CAL:" && At(0) == 2 && values.Count > 3) scale = new EnergyScale(Kev(values[3].Text, name) * At(1), Kev(values[3].Text, name) * At(2));
            else if (section == "$MCA_CAL:" && At(0) >= 2) throw new InputProblem("spe-calibration", name, $"{name}: the calibration under $MCA_CAL: is not a straight line with its unit.", "Give two lines that you know with --calibrate, and take $MCA_CAL: out of a copy.");
        }
        return text.Made(null, counts ?? throw Problem(name, "there is no $DATA:."), scale, live, null, []);
    }

    private static IEnumerable<(string Section, List<(string Text, int Line)> Values)> Sections(string[] lines)
    {
        var (section, values) = ("", new List<(string, int)>());
        for (var i = 0; i < lines.Length; i++)
            if (lines[i].StartsWith('$'))
            {
                if (section.Length > 0) yield return (section, values);
                (section, values) = (lines[i].Trim().ToUpperInvariant(), []);
            }
            else values.AddRange(lines[i].Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries).Select(v => (v, i + 1)));
        if (section.Length > 0) yield return (section, values);
    }

    private static List<double> Counts(List<(string Text, int Line)> values, SpectrumText text, string name)
    {
        if (values.Count < 2) throw Problem(name, "$DATA: does not say which channels follow.");
        var (first, last) = (text.Number(values[0].Text, values[0].Line), text.Number(values[1].Text, values[1].Line));
        if (first != 0 || last - first + 1 != values.Count - 2)
            throw new InputProblem("spectrum-cut-off", name, FormattableString.Invariant($"{name}: $DATA: states channels {first} to {last}, and {values.Count - 2} counts follow."), "The file ends early or begins late: copy it again.");
        return [.. values.Skip(2).Select(v => text.Count(v.Text, v.Line))];
    }

    private static double Kev(string unit, string name) => unit.ToUpperInvariant() switch { "KEV" => 1, "EV" => 0.001, _ => throw Problem(name, $"the unit {SpectrumText.Shown(unit)} under $MCA_CAL: is neither eV nor keV.") };

    private static InputProblem Problem(string name, string message) => new("spe-section", name, $"{name}: {message}", "Export the spectrum again.");
}
