using System.Globalization;
using System.Text;
using System.Xml.Linq;
using Sandarac.Analysis.Spectra;
using Sandarac.Studio.Plans.Drawing;

namespace Sandarac.Studio.Datings.Drawing;

/// <summary>Draws a spectrum as SVG in mm: counts on a logarithmic scale over energy, the background dashed, the model as a thin line, and what each peak consists of above it.</summary>
public static class SpectrumDrawing
{
    private const double Width = 230, Height = 120, Left = 14, Right = 4, Top = 34, Bottom = 12, Text = 2.7;

    /// <summary>Labels are written upright, so that they need so much room beside each other, mm.</summary>
    private const double LabelGap = 3.2;

    private sealed record Frame(double FirstKev, double LastKev, double LeastLog, double MostLog)
    {
        public double X(double kev) => Left + (kev - FirstKev) / (LastKev - FirstKev) * (Width - Left - Right);

        public double Y(double counts) => Height - Bottom - (Math.Log10(Math.Max(Math.Pow(10, LeastLog), counts)) - LeastLog) / (MostLog - LeastLog) * (Height - Bottom - Top);
    }

    /// <summary>The drawing.</summary>
    public static string Draw(SpectrumResult spectrum)
    {
        var (scale, counts) = (spectrum.Calibration.Scale, spectrum.Counts);
        var last = Math.Min(scale.At(counts.Count - 1), Math.Max(spectrum.LimitKev.Value, spectrum.Peaks.Select(p => p.Kev).DefaultIfEmpty(10).Max()) * 1.04);
        var frame = new Frame(Math.Max(0, scale.At(0)), last, -0.3, Math.Log10(Math.Max(10, counts.Max())) + 0.1);
        return Ink.Sheet(Width, Height, $"Spectrum {spectrum.Title}", Ink.Rectangle(0, 0, Width, Height, Ink.White, "none", 0), Rules(frame),
            Curve(frame, scale, spectrum.Background, Ink.Quiet, 0.3, [1.4, 0.9]), Curve(frame, scale, counts, Ink.Black, 0.3, null), Curve(frame, scale, spectrum.Model, "#8a8a8a", 0.25, null), Labels(frame, spectrum),
            Ink.Words("counts: black; model: grey; background: dashed", Width - Right, Height - 2, Text, 400, "end", Ink.Quiet)).ToString(SaveOptions.DisableFormatting);
    }

    private static IEnumerable<XElement?> Rules(Frame frame)
    {
        yield return Ink.Path($"M{Ink.Text(Left)} {Ink.Text(Top)}V{Ink.Text(Height - Bottom)}H{Ink.Text(Width - Right)}", Ink.Black, 0.25);
        var step = frame.LastKev - frame.FirstKev > 25 ? 5 : frame.LastKev - frame.FirstKev > 12 ? 2 : 1;
        for (var kev = (int)Math.Ceiling(frame.FirstKev / step) * step; kev <= frame.LastKev; kev += step)
        {
            yield return Ink.Path($"M{Ink.Text(frame.X(kev))} {Ink.Text(Height - Bottom)}v1.2", Ink.Black, 0.25);
            yield return Ink.Words(kev.ToString(CultureInfo.InvariantCulture), frame.X(kev), Height - Bottom + 4.4, Text, 400, "middle");
        }
        yield return Ink.Words("keV", Left + (Width - Left - Right) / 2, Height - 2, Text, 400, "middle");
        for (var power = 0; power <= frame.MostLog; power++)
        {
            yield return Ink.Path($"M{Ink.Text(Left)} {Ink.Text(frame.Y(Math.Pow(10, power)))}h-1.2", Ink.Black, 0.25);
            yield return Ink.Words(Math.Pow(10, power).ToString("#,0", CultureInfo.InvariantCulture).Replace(',', '\u2009'), Left - 1.8, frame.Y(Math.Pow(10, power)) + 0.9, Text, 400, "end");
        }
    }

    /// <summary>A step for each channel would be finer than the sheet: of the channels that share a hundredth of a millimetre the line goes through each.</summary>
    private static XElement? Curve(Frame frame, EnergyScale scale, IReadOnlyList<double> values, string stroke, double width, double[]? dashes)
    {
        var path = new StringBuilder();
        for (var c = 0; c < values.Count; c++)
            if (scale.At(c) is var kev && kev >= frame.FirstKev && kev <= frame.LastKev) path.Append(path.Length == 0 ? 'M' : 'L').Append(Ink.Text(frame.X(kev))).Append(' ').Append(Ink.Text(frame.Y(values[c])));
        return Ink.Path(path.ToString(), stroke, width, dashes);
    }

    /// <summary>The strongest peaks first; a weaker one whose label would touch goes without, and keeps its place in the table.</summary>
    private static IEnumerable<XElement?> Labels(Frame frame, SpectrumResult spectrum)
    {
        List<double> taken = [];
        foreach (var peak in spectrum.Peaks.Where(p => p.Kev <= frame.LastKev).OrderByDescending(p => p.Significance))
        {
            var x = frame.X(peak.Kev);
            if (taken.Exists(t => Math.Abs(t - x) < LabelGap)) continue;
            taken.Add(x);
            var top = frame.Y(spectrum.Counts[Math.Clamp((int)Math.Round(spectrum.Calibration.Scale.Channel(peak.Kev)), 0, spectrum.Counts.Count - 1)]);
            var words = Ink.Words(peak.Lines.Count == 0 ? "?" : string.Join(" + ", peak.Lines.Take(2)), 0, 0, Text);
            words.SetAttributeValue("transform", $"translate({Ink.Text(x + 0.9)} {Ink.Text(Math.Max(Top - 2, top - 1.5))}) rotate(-90)");
            yield return words;
        }
    }
}
