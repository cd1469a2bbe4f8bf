using System.Text;
using NetTopologySuite.Geometries.Utilities;
using NetTopologySuite.Geometries;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Places;

namespace Sandarac.Studio.Plans.Drawing;

/// <summary>A hatch over an area as lines that end at its border: no pattern fill, which printers and PDF writers turn into pixels. All areas of a sheet share one lattice, so that neighbours join.</summary>
internal static class HatchLines
{
    /// <summary>The two pens' paths.</summary>
    /// <param name="hatch">The hatch.</param>
    /// <param name="area">Valid polygons, mm on the sheet.</param>
    public static (string Fine, string Bold) Over(Hatch hatch, Geometry area)
    {
        if (area.IsEmpty || hatch.Strokes.Count == 0) return ("", "");
        var (fine, bold, turned) = (new StringBuilder(), new StringBuilder(), new Turned(hatch.AngleDeg));
        // Part by part: a term's zones may lie far from each other, with nothing to hatch between.
        foreach (var part in CoveredArea.Parts(area).OfType<Polygon>())
        {
            // Along the hatch's own directions lines are level, and meet little of the border.
            var own = (Polygon)turned.FromSheet(part);
            var clip = new AreaClip(own);
            foreach (var stroke in hatch.Strokes)
                foreach (var line in Repeated(hatch, stroke, own.EnvelopeInternal))
                    foreach (var inside in clip.Inside(line)) Ink.Append(stroke.IsBold ? bold : fine, [.. inside.Select(turned.ToSheet)], closed: false);
        }
        return (fine.ToString(), bold.ToString());
    }

    /// <summary>The stroke in every cell that may touch a box; strokes that go on from cell to cell as one line.</summary>
    private static IEnumerable<Coordinate[]> Repeated(Hatch hatch, HatchStroke stroke, Envelope box)
    {
        var (w, h, first, last) = (hatch.WidthMm, hatch.HeightMm, stroke.Points[0], stroke.Points[^1]);
        var (right, down) = (first.X == 0 && last.X == w && first.Y == last.Y, first.Y == 0 && last.Y == h && first.X == last.X);
        var (left, top, columns, rows) = ((int)Math.Floor(box.MinX / w) - 1, (int)Math.Floor(box.MinY / h) - 1, (int)Math.Ceiling(box.MaxX / w) + 1, (int)Math.Ceiling(box.MaxY / h) + 1);
        if (right) for (var row = top; row < rows; row++) yield return Chain(stroke, left, columns, i => (i * w, row * h));
        else if (down) for (var column = left; column < columns; column++) yield return Chain(stroke, top, rows, i => (column * w, i * h));
        else
            for (var row = top; row < rows; row++)
                for (var column = left; column < columns; column++) yield return Chain(stroke, column, column + 1, i => (i * w, row * h));
    }

    private static Coordinate[] Chain(HatchStroke stroke, int from, int to, Func<int, (double X, double Y)> cell)
    {
        // Two points draw a straight line however many cells it passes.
        var straight = stroke.Points.Count == 2 && to - from > 1;
        var steps = straight ? [from, to - 1] : Enumerable.Range(from, to - from).ToArray();
        return [.. steps.SelectMany((i, k) => (straight ? [k == 0 ? stroke.Points[0] : stroke.Points[1]] : k == 0 ? stroke.Points : stroke.Points.Skip(1)).Select(p => new Coordinate(cell(i).X + p.X, cell(i).Y + p.Y)))];
    }

    /// <summary>The hatch's own directions, and the sheet's; y down in both.</summary>
    private sealed class Turned(double angleDeg)
    {
        private readonly double _cos = Math.Cos(angleDeg * Math.PI / 180);
        private readonly double _sin = Math.Sin(angleDeg * Math.PI / 180);

        public Coordinate ToSheet(Coordinate p) => new(p.X * _cos + p.Y * _sin, p.Y * _cos - p.X * _sin);

        public Geometry FromSheet(Geometry area) => new AffineTransformation(_cos, -_sin, 0, _sin, _cos, 0).Transform(area);
    }
}
