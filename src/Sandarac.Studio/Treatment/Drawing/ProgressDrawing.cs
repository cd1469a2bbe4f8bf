using System.Globalization;
using System.Text;
using System.Xml.Linq;
using Sandarac.Analysis.Declaring;
using Sandarac.Studio.Plans.Drawing;

namespace Sandarac.Studio.Treatment.Drawing;

/// <summary>Draws how much of a step was done at the end of each day: stairs, for nothing is known between two entries, with the 95 % interval of each day. SVG in millimetres, in black and grey.</summary>
public static class ProgressDrawing
{
    private const double Width = 160, Height = 58, Left = 13, Right = 26, Top = 5, Bottom = 11, Size = 2.6, Radius = 0.9;

    /// <summary>Least distance of two dates, mm.</summary>
    private const double DateMm = 19;

    /// <summary>Draws a step's days.</summary>
    /// <param name="progress">It; at least one day.</param>
    public static string Svg(StepProgress progress)
    {
        var days = progress.Days;
        var (first, last) = (days[0].Day.DayNumber - 1, days[^1].Day.DayNumber);
        double X(DateOnly day) => Left + (Width - Left - Right) * (day.DayNumber - first) / Math.Max(1, last - first);
        return Ink.Sheet(Width, Height, $"{progress.Step.Content.Name}: {Said(days[^1])}", Ink.Rectangle(0, 0, Width, Height, Ink.White, "none", 0), Grid(), Dates([.. days.Select(d => d.Day)], X),
            Ink.Path(Stairs(days, X), Ink.Black, 0.5), days.Select(d => Mark(d, X(d.Day))), Ink.Words(Said(days[^1]), X(days[^1].Day) + 2, Y(days[^1].Share) + 0.9, Size, 600)).ToString(SaveOptions.DisableFormatting);
    }

    private static double Y(double share) => Height - Bottom - (Height - Top - Bottom) * share;

    private static IEnumerable<XElement?> Grid() => new[] { 0, 0.25, 0.5, 0.75, 1 }.SelectMany(s => new[]
    {
        Ink.Path($"M{Ink.Text(Left)} {Ink.Text(Y(s))}H{Ink.Text(Width - Right)}", Ink.Quiet, s == 0 ? 0.3 : 0.1), Ink.Words(string.Create(CultureInfo.InvariantCulture, $"{100 * s:0} %"), Left - 1.5, Y(s) + 0.9, Size, anchor: "end", fill: Ink.Quiet),
    });

    /// <summary>The last day always; of the others those that have room.</summary>
    private static IEnumerable<XElement?> Dates(IReadOnlyList<DateOnly> days, Func<DateOnly, double> x)
    {
        var free = double.PositiveInfinity;
        foreach (var day in days.Reverse())
        {
            yield return Ink.Path($"M{Ink.Text(x(day))} {Ink.Text(Y(0))}v1.2", Ink.Quiet, 0.2);
            if (free - x(day) < DateMm || x(day) < Left + DateMm / 2 && days.Count > 1) continue;
            free = x(day);
            yield return Ink.Words(day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), free, Y(0) + 5, Size, anchor: "middle", fill: Ink.Quiet);
        }
    }

    private static string Stairs(IReadOnlyList<DayProgress> days, Func<DateOnly, double> x)
    {
        var path = new StringBuilder($"M{Ink.Text(Left)} {Ink.Text(Y(0))}");
        foreach (var day in days) path.Append(CultureInfo.InvariantCulture, $"H{Ink.Text(x(day.Day))}V{Ink.Text(Y(day.Share))}");
        return path.ToString();
    }

    private static XElement Mark(DayProgress day, double x)
    {
        var off = day.ShareUncertainty ?? 0;
        var (low, high) = (Y(Math.Max(0, day.Share - off)), Y(Math.Min(1, day.Share + off)));
        return Ink.Element("g", off > 0 ? Ink.Path($"M{Ink.Text(x - 0.8)} {Ink.Text(low)}h1.6M{Ink.Text(x)} {Ink.Text(low)}V{Ink.Text(high)}M{Ink.Text(x - 0.8)} {Ink.Text(high)}h1.6", Ink.Black, 0.2) : null, Ink.Circle(x, Y(day.Share), Radius, Ink.White, Ink.Black, 0.4));
    }

    private static string Said(DayProgress day) => Rounding.Rounded(day.Percent, 100 * day.ShareUncertainty) is var (share, off) && off is not null ? $"{share} \u00b1 {off} %" : $"{share} %";
}
