using System.Globalization;
using System.Numerics;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>Stretches of boundaries that are drawn by hand: there the line is what was drawn, and what is followed beside it gives way.</summary>
internal static class DrawnStretches
{
    /// <summary>Drawn lines that come nearer than this touch, pixels.</summary>
    private const double Touching = 0.5;

    /// <summary>Height of a line that rises along the strata.</summary>
    public static double At(Point2[] line, double u)
    {
        var after = Array.FindIndex(line, p => p.X >= u);
        if (after <= 0) return after == 0 ? line[0].Y : line[^1].Y;
        var (a, b) = (line[after - 1], line[after]);
        return a.Y + (u - a.X) / (b.X - a.X) * (b.Y - a.Y);
    }

    /// <summary>Heights at the middles of columns; NaN where nothing is drawn.</summary>
    public static double[] Columns(IReadOnlyList<Point2[]> stretches, int from, int count)
    {
        var heights = new double[count];
        Array.Fill(heights, double.NaN);
        foreach (var stretch in stretches)
            for (var i = Math.Max(0, (int)Math.Ceiling(stretch[0].X - from - 0.5)); i < count && from + i + 0.5 <= stretch[^1].X; i++) heights[i] = At(stretch, from + i + 0.5);
        return heights;
    }

    /// <summary>Lines from the top down brought into order: none lies above the one before it, and those that are free make way for those that are drawn.</summary>
    public static T[][] InOrder<T>(IReadOnlyList<T[]> lines, Func<int, int, bool> isDrawn) where T : INumber<T>
    {
        T[][] ordered = [.. lines.Select(l => (T[])l.Clone())];
        for (var k = 1; k < ordered.Length; k++)
            for (var i = 0; i < ordered[k].Length; i++)
            {
                if (!isDrawn(k, i)) ordered[k][i] = T.Max(ordered[k][i], ordered[k - 1][i]);
                else
                    for (var above = k - 1; above >= 0 && ordered[above][i] > ordered[k][i]; above--) ordered[above][i] = ordered[k][i];
            }
        return ordered;
    }

    /// <summary>Refuses drawn lines that cross one another.</summary>
    /// <exception cref="Imaging.InputProblem">"clicks".</exception>
    public static void RefuseCrossings(IReadOnlyList<double[]> drawn, Func<int, double, Point2> place)
    {
        for (var k = 0; k < drawn.Count; k++)
            for (var below = k + 1; below < drawn.Count; below++)
                for (var i = 0; i < drawn[k].Length; i++)
                    if (drawn[k][i] > drawn[below][i] + Touching) throw Crossing("Two drawn lines cross", place(i, drawn[k][i]));
    }

    /// <summary>The problem of lines that cross at a place, in units of so many pixels of the micrograph.</summary>
    public static Imaging.InputProblem Crossing(string what, Point2 at, int factor = 1) => Steering.Problem(string.Create(CultureInfo.InvariantCulture, $"{what} at {factor * at.X:0}, {factor * at.Y:0} px."), "Layers lie over one another: draw along one boundary, and take out or draw anew the one that is crossed.");
}
