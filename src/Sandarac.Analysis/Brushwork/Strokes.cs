using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>What tells strokes from one another.</summary>
/// <param name="ColourStep">Colour difference per mm (CIE 1976) that separates two strokes.</param>
/// <param name="SmallestMm2">Smallest stroke, mm2.</param>
/// <param name="NeighbourhoodMm">Radius within which strokes are neighbours, mm.</param>
internal sealed record StrokeSettings(double ColourStep, double SmallestMm2, double NeighbourhoodMm)
{
    /// <summary>Strokes this near in direction are alike, degrees.</summary>
    public const double AlikeDegrees = 20;
}

/// <summary>Finds strokes as objects: basins of the colour's steepness after it was evened out along the brush's pull; those that are elongated along their furrows are strokes.</summary>
internal static class Strokes
{
    /// <summary>How far colour is evened out along the pull, and the scale of its steepness, mm.</summary>
    private const double AlongMm = 1.5, SteepnessMm = 0.4;

    /// <summary>Steps this many times the separating one are as steep as any.</summary>
    private const double Highest = 40;

    /// <summary>The strokes, by their first pixels, with their neighbours counted.</summary>
    /// <param name="surface">The surface.</param>
    /// <param name="field">Directions.</param>
    /// <param name="texture">Height without long waves, um.</param>
    /// <param name="relief">The same without the shortest waves too.</param>
    /// <param name="settings">What tells strokes from one another.</param>
    /// <param name="threads">Threads at most.</param>
    public static IReadOnlyList<BrushStroke> Of(Surface surface, DirectionField field, Plane texture, Plane relief, StrokeSettings settings, ParallelOptions threads)
    {
        var steepness = Steepness(surface, field, threads);
        var (labels, count) = Basins.Of(steepness, Highest * settings.ColourStep, settings.ColourStep, (int)Math.Ceiling(settings.SmallestMm2 / (surface.Mm * surface.Mm)));
        var measure = new StrokeMeasure(field, texture, relief, surface.Mm);
        var pieces = Gathered(labels, count);
        var strokes = new BrushStroke?[count];
        Parallel.For(0, count, threads, k => strokes[k] = pieces[k].Count * surface.Mm * surface.Mm < settings.SmallestMm2 ? null : measure.Of(pieces[k]));
        return WithNeighbours([.. strokes.OfType<BrushStroke>()], settings.NeighbourhoodMm);
    }

    /// <summary>Colour difference per mm after smoothing along the pull.</summary>
    private static Plane Steepness(Surface surface, DirectionField field, ParallelOptions threads)
    {
        var even = new AlongSmoothing(field, Math.Max(1, (int)Math.Round(AlongMm / surface.Mm))).Of(surface.Colour, threads);
        var result = new Plane(surface.Width, surface.Rows);
        foreach (var band in even)
        {
            var smooth = GaussianMean.Of(band, SteepnessMm / surface.Mm, threads);
            Parallel.For(0, result.Height, threads, y => AddSquares(smooth, y, (float)(1 / surface.Mm), result));
        }
        for (var i = 0; i < result.Data.Length; i++) result.Data[i] = MathF.Sqrt(result.Data[i]);
        return result;
    }

    private static void AddSquares(Plane plane, int y, float perMm, Plane sum)
    {
        var above = plane.Row(Math.Max(0, y - 1));
        var below = plane.Row(Math.Min(plane.Height - 1, y + 1));
        var row = plane.Row(y);
        var to = sum.Row(y);
        for (var x = 0; x < row.Length; x++)
        {
            var (dx, dy) = (0.5f * perMm * (row[Math.Min(x + 1, row.Length - 1)] - row[Math.Max(x - 1, 0)]), 0.5f * perMm * (below[x] - above[x]));
            to[x] += dx * dx + dy * dy;
        }
    }

    private static List<int>[] Gathered(int[] labels, int count)
    {
        List<int>[] pieces = [.. Enumerable.Range(0, count).Select(_ => new List<int>())];
        for (var i = 0; i < labels.Length; i++)
            if (labels[i] > 0) pieces[labels[i] - 1].Add(i);
        return pieces;
    }

    private static IReadOnlyList<BrushStroke> WithNeighbours(IReadOnlyList<BrushStroke> strokes, double radius)
    {
        var tree = new STRtree<BrushStroke>();
        foreach (var stroke in strokes) tree.Insert(new Envelope(stroke.Middle), stroke);
        return [.. strokes.Select(stroke =>
        {
            var box = new Envelope(stroke.Middle);
            box.ExpandBy(radius);
            var near = tree.Query(box).Where(o => o != stroke && o.Middle.Distance(stroke.Middle) <= radius).ToList();
            return stroke with { Neighbours = near.Count, NeighboursAlike = near.Count(o => Axial.Between(o.Angle, stroke.Angle) <= StrokeSettings.AlikeDegrees * Math.PI / 180) };
        })];
    }
}
