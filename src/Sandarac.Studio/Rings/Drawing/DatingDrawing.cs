using Sandarac.Analysis.Rings.Dating;

namespace Sandarac.Studio.Rings.Drawing;

/// <summary>What the eye must judge of a dating: t at every position, and the two curves at one of them.</summary>
public static class DatingDrawing
{
    private const double Width = 860, Height = 260;
    private const string Ink = "#1c1c1c", Grey = "#8a8a8a";

    /// <summary>t against the year of the last ring, with the threshold and the best position.</summary>
    public static string Positions(ReferenceVerdict verdict)
    {
        var (matches, top) = (verdict.Matches, Math.Max(ReferenceVerdict.LeastT + 1, verdict.Best?.T * 1.15 ?? 0));
        var years = matches.Count > 0 ? (matches.Min(m => m.EndYear) - 1.0, matches.Max(m => m.EndYear) + 1.0) : (verdict.Reference.FirstYear, verdict.Reference.LastYear);
        var chart = new Chart(Width, Height, years, (0, top), "year of the last ring", "t");
        chart.Spikes(matches.Where(m => m.T > 0).OrderBy(m => m.EndYear).Select(m => ((double)m.EndYear, m.T)), Grey, matches.Count > 400 ? 0.8 : 1.4);
        chart.Level(ReferenceVerdict.LeastT, FormattableString.Invariant($"t = {ReferenceVerdict.LeastT}"));
        if (verdict.Best is { } best)
        {
            chart.Spikes([(best.EndYear, best.T)], Ink, 2.5);
            chart.Mark(best.EndYear, best.T, FormattableString.Invariant($"{best.EndYear}: t {best.T:0.0}{(verdict.Proposes is null ? ", not proposed" : "")}"));
        }
        return chart.ToSvg(FormattableString.Invariant($"t of each of {matches.Count} positions against {verdict.Reference.Name}; the highest is {verdict.Best?.T ?? 0:0.0}."));
    }

    /// <summary>Transformed values of sample and reference over one another at a position.</summary>
    public static string Curves(DatingResult dating, ReferenceVerdict verdict, CrossMatch at)
    {
        var sample = RingTransform.Of(dating.Sample.Widths, dating.Settings.Transform);
        var first = at.EndYear - sample.Length + 1;
        double Reference(int year) => year >= verdict.Reference.FirstYear && year <= verdict.Reference.LastYear ? verdict.Reference.Values[year - verdict.Reference.FirstYear] : double.NaN;
        (double Year, double Sample, double Reference)[] years = [.. sample.Select((v, i) => ((double)first + i, v, Reference(first + i)))];
        double[] all = [.. years.SelectMany(y => new[] { y.Sample, y.Reference }).Where(double.IsFinite)];
        if (all.Length == 0) all = [0, 1];
        var chart = new Chart(Width, Height, (first, at.EndYear), (all.Min(), all.Max()), "year", dating.Settings.Transform == RingTransformKind.BailliePilcher ? "ln(100 w / mean of 5 years)" : "100 log10(w / year before)");
        chart.Curve(years.Select(y => (y.Year, y.Reference)), Grey, 3);
        chart.Curve(years.Select(y => (y.Year, y.Sample)), Ink, 1.2);
        return chart.ToSvg(FormattableString.Invariant($"{dating.Sample.Id} (thin, black) over {verdict.Reference.Name} (broad, grey), its last ring in {at.EndYear}."));
    }
}
