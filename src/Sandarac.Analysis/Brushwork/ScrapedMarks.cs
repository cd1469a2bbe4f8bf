using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lines;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>What is taken for a mark scraped into wet paint.</summary>
/// <param name="WidthMm">Breadth of the furrow.</param>
/// <param name="DepthUm">Least depth.</param>
/// <param name="ShortestMm">Least length.</param>
internal sealed record ScrapeSettings(double WidthMm, double DepthUm, double ShortestMm);

/// <summary>Short, sharp furrows that cross the brush's: candidates for paint scraped or scratched while wet. Furrows along the pull are the bristles' own.</summary>
internal static class ScrapedMarks
{
    /// <summary>A furrow crosses the brush's from this angle on, and where they have a direction at all (common practice, no source).</summary>
    private const double CrossingDegrees = 30, LeastCoherence = 0.3;

    /// <summary>Where the brush's direction is looked at on either side, mm: beyond the window of the field, so that the two sides are told apart. Along the rim of a stroke laid across, one side runs with the rim.</summary>
    private const double AsideMm = 3;

    /// <summary>A furrow has two banks: one may stand higher than the other by this share of the depth.</summary>
    private const double MostStep = 0.6;

    /// <summary>Part of a furrow that must cross.</summary>
    private const double LeastShare = 0.7;

    /// <summary>A furrow goes on at this share of the least depth.</summary>
    private const double Weak = 0.5;

    /// <summary>Furrows on a grid must be so many pixels broad.</summary>
    private const double Narrowest = 2;

    /// <summary>Candidates; null when such furrows are too narrow for the grid.</summary>
    /// <param name="texture">Height without long waves, um.</param>
    /// <param name="field">Direction of the brush about each place, at a scale well above the furrow's breadth.</param>
    /// <param name="settings">What is looked for.</param>
    /// <param name="mm">Size of a pixel, mm.</param>
    /// <param name="threads">Threads at most.</param>
    public static IReadOnlyList<Candidate>? Of(Plane texture, DirectionField field, ScrapeSettings settings, double mm, ParallelOptions threads)
    {
        var shape = new LineShape(settings.WidthMm / mm);
        if (shape.Width < Narrowest) return null;
        var furrows = LineField.Of(texture, shape, threads);
        var (margin, gap) = ((int)Math.Ceiling(3 * shape.Width), Math.Max(3, 1.5 * shape.Width));
        var points = new LinePoints(furrows, furrows.Derivatives, shape).Stronger((float)(Weak * settings.DepthUm), margin);
        return [.. new LineTrace([.. points], texture.Width, gap).Lines(settings.DepthUm, settings.ShortestMm / mm)
            .Select(l => l.Ended()).Where(l => l.Points.Count > 1 && mm * l.Length >= settings.ShortestMm)
            .Where(l => l.Points.Count(p => Crosses(p, field, AsideMm / mm)) >= LeastShare * l.Points.Count && HasTwoBanks(l, texture, shape.Width))
            .Select(l => Proposal(l, field, settings, mm))];
    }

    /// <summary>Whether the brush's furrows cross it, here and on both sides.</summary>
    private static bool Crosses(LinePoint point, DirectionField field, double aside)
    {
        var (sin, cos) = Math.SinCos(point.Normal);
        return new[] { -aside, 0, aside }.All(d => At(field, point.X + d * cos, point.Y + d * sin) is { } i && field.Coherence.Data[i] >= LeastCoherence && Crossing(point, field, i) >= CrossingDegrees);
    }

    private static int? At(DirectionField field, double x, double y) =>
        x >= 0 && y >= 0 && x < field.Angle.Width && y < field.Angle.Height ? (int)y * field.Angle.Width + (int)x : null;

    /// <summary>Angle between the furrow and the brush's at a pixel, degrees.</summary>
    private static double Crossing(LinePoint point, DirectionField field, int pixel) => 180 / Math.PI * Axial.Between(point.Normal + Math.PI / 2, field.Angle.Data[pixel]);

    /// <summary>Whether its banks stand about equally high: the foot of a step has one.</summary>
    private static bool HasTwoBanks(TracedLine line, Plane texture, double width)
    {
        double[] steps = [.. line.Points.Select(p =>
        {
            var (sin, cos) = Math.SinCos(p.Normal);
            float Bank(double d) => LinePoints.Between(texture, p.X + d * cos - 0.5, p.Y + d * sin - 0.5);
            return (double)(Bank(width) - Bank(-width));
        }).Where(double.IsFinite)];
        return steps.Length > 0 && Math.Abs(Robust.Median(steps)) <= MostStep * Robust.Median(line.Points.Select(p => (double)p.Strength));
    }

    private static Candidate Proposal(TracedLine line, DirectionField field, ScrapeSettings settings, double mm)
    {
        var (depth, angle) = (Robust.Median(line.Points.Select(p => (double)p.Strength)), Robust.Median(line.Points.Select(p => Crossing(p, field, p.Pixel))));
        var reason = string.Create(CultureInfo.InvariantCulture, $"A furrow {mm * line.Length:0.0} mm long and {depth:0} um deep that crosses the brush's at {angle:0} degrees. ")
            + "Consistent with paint scraped or scratched, and with a stroke laid across another, a scratch of a later time or a crack.";
        return new Candidate(LineWords.Geometry(line, mm), "scraped", Math.Clamp((depth - Weak * settings.DepthUm) / (2 * settings.DepthUm), 0, 1), reason);
    }
}
