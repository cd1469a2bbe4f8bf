using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Union;
using NetTopologySuite.Simplify;

namespace Sandarac.Analysis.Unexplained;

/// <summary>The outline of a part made of pixels.</summary>
internal static class PartOutline
{
    /// <summary>A polygon, holes included, in units of which a pixel has a number; simplified by at most half a pixel.</summary>
    /// <param name="part">The part.</param>
    /// <param name="width">Columns of the plane it lies in.</param>
    /// <param name="unit">Side of a pixel.</param>
    public static Geometry Of(DarkPart part, int width, double unit)
    {
        var rows = part.Pixels.GroupBy(i => i / width).SelectMany(row => Runs([.. row.Select(i => i % width)]).Select(run => Rectangle(run.From, row.Key, run.To + 1, row.Key + 1, unit)));
        return TopologyPreservingSimplifier.Simplify(UnaryUnionOp.Union([.. rows]), unit / 2);
    }

    private static IEnumerable<(int From, int To)> Runs(int[] columns)
    {
        var from = columns[0];
        for (var k = 1; k <= columns.Length; k++)
            if (k == columns.Length || columns[k] != columns[k - 1] + 1)
            {
                yield return (from, columns[k - 1]);
                if (k < columns.Length) from = columns[k];
            }
    }

    private static Polygon Rectangle(double left, double top, double right, double bottom, double unit) => GeometryFactory.Default.CreatePolygon(
        [new(left * unit, top * unit), new(right * unit, top * unit), new(right * unit, bottom * unit), new(left * unit, bottom * unit), new(left * unit, top * unit)]);
}
