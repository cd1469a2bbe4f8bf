using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Rulers;

/// <summary>A ruler that was found.</summary>
/// <param name="Line">Its line, in pixels of the picture in which its ticks were followed.</param>
/// <param name="Fit">Where its ticks stand.</param>
/// <param name="Ticks">How many there are.</param>
/// <param name="Height">Height of its ripple, in the picture's values.</param>
/// <param name="Factor">Side of that picture's pixel in pixels of the photograph.</param>
/// <param name="Errors">How far longer ticks stand out, in standard errors; null when that was not asked.</param>
internal sealed record FoundRuler(RulerLine Line, TickFit Fit, int Ticks, double Height, int Factor, double? Errors)
{
    /// <summary>How much of it is seen: its length in the photograph times its height. Of a fine line's multiples the fundamental has the most.</summary>
    public double Evidence => Math.Abs(Fit.Distance(0)) * Ticks * Factor * Height;

    /// <summary>Place of a tick in the photograph, pixels; n is counted from the middle one.</summary>
    public Point2 At(double n)
    {
        var p = Line.At(Fit.Along(n), 0);
        return new Point2(p.X * Factor, p.Y * Factor);
    }
}

/// <summary>The search for a ruler: ripples in pictures of halved size, lines through them, ticks along each line, lengths of the ticks.</summary>
internal static class RulerSearch
{
    /// <summary>Lines tried in a picture.</summary>
    private const int MostLines = 24;

    /// <summary>A smaller picture places ticks less well: it counts when it shows so many times as much.</summary>
    private const double MuchMore = 1.1;

    /// <summary>Smallest picture looked at, shorter side in pixels.</summary>
    private const int Smallest = 2 * Ripples.Side;

    /// <summary>The ruler that is seen best; null when there is none.</summary>
    /// <param name="image">The photograph.</param>
    /// <param name="longestSide">Larger photographs are brought down to this.</param>
    /// <param name="near">Two points of the photograph between which its ticks lie; null to look everywhere.</param>
    /// <param name="checkLengths">Whether every fifth and tenth tick must be longer.</param>
    /// <param name="context">Hears of progress and cancels.</param>
    public static FoundRuler? Find(InputImage image, int longestSide, (Point2 From, Point2 To)? near, bool checkLengths, RunContext context)
    {
        var reduced = ReducedImage.Of(image, longestSide, context);
        var (picture, factor) = (reduced.Mean(), reduced.Factor);
        FoundRuler? best = null;
        for (; Math.Min(picture.Width, picture.Height) >= Smallest; (picture, factor) = (Halved(picture), 2 * factor))
        {
            var parallel = new ParallelOptions { MaxDegreeOfParallelism = context.Tiling.Threads, CancellationToken = context.Cancellation };
            var ripples = Ripples.Of(picture, parallel);
            if (near is { } line) ripples = [.. ripples.Where(r => IsNear(r, line.From, line.To, factor))];
            var lines = RulerLine.Through(ripples, MostLines);
            var rulers = new FoundRuler?[lines.Count];
            Parallel.For(0, lines.Count, parallel, i => rulers[i] = Ruler(picture, lines[i], factor, checkLengths));
            foreach (var ruler in rulers)
                if (ruler is not null && (best is null || ruler.Evidence > (ruler.Factor == best.Factor ? 1 : MuchMore) * best.Evidence)) best = ruler;
        }
        return best;
    }

    private static FoundRuler? Ruler(Plane picture, RulerLine line, int factor, bool checkLengths)
    {
        if (TickTrace.Follow(picture, line) is not { } trace) return null;
        double? errors = null;
        if (checkLengths)
        {
            // Ticks are dark on light far more often than light on dark; the one kind's gaps are the other's ticks.
            if ((TickLengths.Of(trace, light: false) ?? TickLengths.Of(trace, light: true)) is not { } lengths) return null;
            errors = lengths.Errors;
        }
        return new FoundRuler(trace.Strip.Line, TickFit.Of(trace.Along), trace.Along.Length, trace.Height, factor, errors);
    }

    private static bool IsNear(Ripple ripple, Point2 from, Point2 to, int factor)
    {
        var length = from.DistanceTo(to);
        var (x, y) = ((to.X - from.X) / length, (to.Y - from.Y) / length);
        var (dx, dy) = (ripple.At.X * factor - from.X, ripple.At.Y * factor - from.Y);
        var (along, across, reach) = (dx * x + dy * y, dy * x - dx * y, (double)Ripples.Side / 2 * factor);
        return along > -reach && along < length + reach && Math.Abs(across) <= reach && Math.Abs(ripple.X * y - ripple.Y * x) < 0.2 * ripple.Frequency;
    }

    private static Plane Halved(Plane picture)
    {
        var half = new Plane(picture.Width / 2, picture.Height / 2);
        for (var y = 0; y < half.Height; y++)
            for (var x = 0; x < half.Width; x++)
                half[x, y] = (picture[2 * x, 2 * y] + picture[2 * x + 1, 2 * y] + picture[2 * x, 2 * y + 1] + picture[2 * x + 1, 2 * y + 1]) / 4;
        return half;
    }
}
