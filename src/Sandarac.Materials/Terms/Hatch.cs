using System.Globalization;

namespace Sandarac.Materials.Terms;

/// <summary>A stroke of a hatch.</summary>
/// <param name="Points">Its corners, mm in the cell: x along the hatch's lines, y across them; at least two.</param>
/// <param name="IsBold">Whether it is drawn with the broad pen.</param>
public sealed record HatchStroke(IReadOnlyList<(double X, double Y)> Points, bool IsBold);

/// <summary>A pattern as a cell that repeats both ways, with the strokes in it; lengths are mm on the printed sheet. A stroke that leaves the cell is continued by the next one's.</summary>
/// <param name="AngleDeg">By how much the pattern is turned, anticlockwise as it is looked at.</param>
/// <param name="WidthMm">The cell along the lines.</param>
/// <param name="HeightMm">The cell across them.</param>
/// <param name="Strokes">Strokes; none for a zone that is left empty.</param>
public sealed record Hatch(double AngleDeg, double WidthMm, double HeightMm, IReadOnlyList<HatchStroke> Strokes)
{
    /// <summary>Breadth of the fine pen, mm: the least that prints evenly at 300 dots to the inch (common practice, no source).</summary>
    public const double FineMm = 0.22;

    /// <summary>Breadth of the broad pen, mm: far enough from the fine one to be told from it.</summary>
    public const double BoldMm = 0.5;

    /// <summary>Smallest and largest side of a cell, mm: below, lines run together in print; above, a zone of a centimetre shows none.</summary>
    private const double LeastMm = 0.8, MostMm = 8;

    /// <summary>Strokes that one cell may have; more would be a tint.</summary>
    private const int MostStrokes = 24;

    /// <summary>Reads a hatch.</summary>
    /// <param name="angleDeg">Degrees.</param>
    /// <param name="cell">"4x1.8": sides of the cell, mm.</param>
    /// <param name="fine">Strokes of the fine pen as an SVG path with the commands M, L, H, V, h and Z.</param>
    /// <param name="bold">Those of the broad pen.</param>
    /// <exception cref="FormatException">It cannot be read, or a side of the cell is below 0.8 or above 8 mm.</exception>
    public static Hatch Parse(double angleDeg, string cell, string fine, string bold)
    {
        if (!double.IsFinite(angleDeg) || Math.Abs(angleDeg) > 360) throw new FormatException($"{angleDeg} is no angle from -360 to 360 degrees.");
        if (cell.Split('x') is not [var w, var h]) throw new FormatException($"\"{cell}\" is no cell: give its sides in mm, \"4x1.8\".");
        var hatch = new Hatch(angleDeg, Number(w), Number(h), [.. HatchPath.Read(fine).Select(p => new HatchStroke(p, false)), .. HatchPath.Read(bold).Select(p => new HatchStroke(p, true))]);
        if (hatch.WidthMm is not (>= LeastMm and <= MostMm) || hatch.HeightMm is not (>= LeastMm and <= MostMm)) throw new FormatException($"The cell {cell} has a side below {Text(LeastMm)} or above {Text(MostMm)} mm.");
        if (hatch.Strokes.Count > MostStrokes) throw new FormatException($"A cell has at most {MostStrokes} strokes.");
        // One further cell each way is all that a drawing looks at.
        return hatch.Strokes.All(s => s.Points.All(p => p.X >= -hatch.WidthMm && p.X <= 2 * hatch.WidthMm && p.Y >= -hatch.HeightMm && p.Y <= 2 * hatch.HeightMm)) ? hatch
            : throw new FormatException("A stroke reaches further than into the next cell.");
    }

    internal static double Number(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : throw new FormatException($"\"{text}\" is no number.");

    private static string Text(double value) => value.ToString(CultureInfo.InvariantCulture);
}
