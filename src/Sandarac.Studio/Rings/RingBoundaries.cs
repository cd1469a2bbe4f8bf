using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Rings;

/// <summary>Boundaries of a series as a person corrects them. Widths follow: across boundaries that lean, a ring is narrower than along the line by as much as the rings that were measured there.</summary>
public static class RingBoundaries
{
    /// <summary>A series with other boundaries.</summary>
    /// <param name="content">The series, measured on a photograph.</param>
    /// <param name="boundariesMm">All boundaries, mm along the line; in any order.</param>
    /// <exception cref="InputProblem">The series came in a file; fewer than two boundaries; two in one place.</exception>
    public static RingSeriesContent Corrected(RingSeriesContent content, IEnumerable<double> boundariesMm)
    {
        if (content.BoundariesMm.Count == 0) throw new InputProblem("ring-boundaries", content.Name, $"{content.Name} was not measured on a photograph.", "Correct the file and import it again.");
        double[] all = [.. boundariesMm.Order()];
        if (all.Length < 2 || all.Any(b => !double.IsFinite(b)) || all.Zip(all.Skip(1)).Any(p => p.Second - p.First < 1e-6))
            throw new InputProblem("ring-boundaries", content.Name, "Fewer than two boundaries are left, or two lie in one place.", "Give each boundary once, in mm along the line.");
        return content with { BoundariesMm = all, WidthsMm = [.. all.Zip(all.Skip(1), (a, b) => Math.Round((b - a) * Narrowing(content, (a + b) / 2), 4))] };
    }

    /// <summary>Width across over distance along, of the ring that is there, or of the nearest.</summary>
    private static double Narrowing(RingSeriesContent content, double at)
    {
        var after = content.BoundariesMm.TakeWhile(b => b <= at).Count();
        var ring = Math.Clamp(after - 1, 0, content.WidthsMm.Count - 1);
        return content.WidthsMm[ring] / (content.BoundariesMm[ring + 1] - content.BoundariesMm[ring]);
    }
}
