using System.Globalization;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>How far an alignment through point pairs may be trusted: only pairs that the map was not fitted to can say. The thresholds are common practice, no source.</summary>
public static class PairsJudgement
{
    /// <summary>Largest distance of a left-out pair, pixels of the photograph: a person who points twice at one spot stays within a few.</summary>
    public const double MostLeftOut = 5;

    /// <summary>Least share of the photograph that the rectangle about the pairs covers: beyond them nothing checks the map.</summary>
    public const double LeastCovered = 0.25;

    /// <summary>The verdict, and why in words.</summary>
    /// <param name="fit">The map through the pairs.</param>
    /// <param name="pairs">The pairs it was fitted to.</param>
    /// <param name="width">Columns of the photograph.</param>
    /// <param name="height">Rows.</param>
    public static (PairVerdict Verdict, string Reason) Judge(PointPairsFit fit, IReadOnlyList<PointPair> pairs, int width, int height)
    {
        Point2[] used = [.. pairs.Where(p => p.Used).Select(p => p.Pixel)];
        var said = $"{used.Length} point pairs were set by hand";
        if (fit.HeldOut(pairs) is not { } held) return (PairVerdict.Uncertain, $"{said}, as many as the model needs: nothing checks them.");
        var farthest = held.Max / fit.Map.ScaleAt(new Point2(width / 2.0, height / 2.0));
        said += string.Create(CultureInfo.InvariantCulture, $"; left out, each lies within {farthest:0.0} pixels");
        if (farthest > MostLeftOut) return (PairVerdict.Uncertain, said + string.Create(CultureInfo.InvariantCulture, $": at most {MostLeftOut:0} are asked for."));
        var covered = (used.Max(p => p.X) - used.Min(p => p.X)) / width * (used.Max(p => p.Y) - used.Min(p => p.Y)) / height;
        return covered < LeastCovered
            ? (PairVerdict.Uncertain, said + string.Create(CultureInfo.InvariantCulture, $". They enclose {100 * covered:0} % of the photograph, of which at least {100 * LeastCovered:0} % is asked for: beyond them nothing checks the map."))
            : (PairVerdict.Aligned, said + ".");
    }
}
