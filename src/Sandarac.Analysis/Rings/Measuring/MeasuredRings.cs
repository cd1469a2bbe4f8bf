using System.Globalization;
using NetTopologySuite.Geometries;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>Turns boundaries into widths, figures and candidates.</summary>
internal static class MeasuredRings
{
    /// <summary>Kind of the zones that are proposed.</summary>
    public const string BoundaryKind = "ring-boundary";

    /// <summary>Sharper boundaries than this share speak for the stated direction, fewer than one less it against.</summary>
    private const double Doubtful = 0.6;

    /// <summary>Figures and candidates.</summary>
    /// <param name="line">The line, from the oldest ring.</param>
    /// <param name="boundaries">In their order.</param>
    /// <param name="half">Half the band, pixels.</param>
    /// <param name="mm">Millimetres a pixel, the cut's angle included.</param>
    public static Outcome Tell(RingLine line, IReadOnlyList<RingBoundary> boundaries, double half, double mm)
    {
        var widths = boundaries.Zip(boundaries.Skip(1), (a, b) => Width(a, b, mm)).ToList();
        var (first, last) = (boundaries[0], boundaries[^1]);
        double[] leans = [.. boundaries.Select(b => Math.Atan(b.Slope) * 180 / Math.PI)];
        var (lean, sharper) = (leans.Average(), boundaries.Average(b => b.IsSharper ? 1.0 : 0));
        return new Outcome
        {
            Figures =
            [
                new("rings", widths.Count, null, "counted"),
                new("mean-width", widths.Average(w => w.Value), Math.Sqrt(first.Uncertainty * first.Uncertainty + last.Uncertainty * last.Uncertainty) * mm / widths.Count),
                .. widths.Select((w, i) => new Figure("ring-width", w.Value, w.Uncertainty, null, Name("ring", i))),
                .. boundaries.Select((b, i) => new Figure("boundary-x", line.At(b.Along, 0).X, Part(b, line.To.X - line.From.X, line), null, Name("boundary", i))),
                .. boundaries.Select((b, i) => new Figure("boundary-y", line.At(b.Along, 0).Y, Part(b, line.To.Y - line.From.Y, line), null, Name("boundary", i))),
                new("lean", lean, 1.96 * Math.Sqrt(leans.Average(l => (l - lean) * (l - lean)))),
                new("sharper", sharper, null, "a share that was counted"),
            ],
            Candidates = [.. boundaries.Select((b, i) => new Candidate(Across(line, b, half), BoundaryKind, b.Confidence,
                string.Create(CultureInfo.InvariantCulture, $"{Name("boundary", i)}: a step of {100 * b.Step:0.0} % of full scale, seen in {100 * b.Confidence:0} % of the band")))],
            Warnings = [.. Warnings(sharper)],
        };
    }

    /// <summary>Distance of two boundaries across them, in mm, with the half-width of its 95 % interval.</summary>
    internal static (double Value, double Uncertainty) Width(RingBoundary a, RingBoundary b, double mm)
    {
        var across = mm * Math.Cos(Math.Atan((a.Slope + b.Slope) / 2));
        return ((b.Along - a.Along) * across, Math.Sqrt(a.Uncertainty * a.Uncertainty + b.Uncertainty * b.Uncertainty) * across);
    }

    private static IEnumerable<Warning> Warnings(double sharper)
    {
        if (sharper < 1 - Doubtful) yield return new Warning("rings-reversed", "Most boundaries are sharper on the side of the older ring: the line may run inward, or the latewood may be the other tone.");
        else if (sharper < Doubtful) yield return new Warning("rings-not-sharp", "Light and dark give way to each other alike on both sides: these may not be growth rings, or the photograph is not sharp enough.");
    }

    private static LineString Across(RingLine line, RingBoundary b, double half)
    {
        var (from, to) = (line.At(b.Along - b.Slope * half, -half), line.At(b.Along + b.Slope * half, half));
        return new LineString([new Coordinate(from.X, from.Y), new Coordinate(to.X, to.Y)]);
    }

    private static double Part(RingBoundary b, double extent, RingLine line) => b.Uncertainty * Math.Abs(extent) / line.Length;

    private static string Name(string what, int index) => string.Create(CultureInfo.InvariantCulture, $"{what} {index + 1}");
}
