using NetTopologySuite.Geometries;
using NetTopologySuite.LinearReferencing;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>What a plane holds along a line drawn over a pull of the brush, at even steps of length.</summary>
/// <param name="StepMm">Distance of two places, mm.</param>
/// <param name="Values">Means across the line's breadth, in the plane's unit; NaN where less than half has data.</param>
internal sealed record Pull(double StepMm, double[] Values)
{
    /// <summary>Fewest places that say anything.</summary>
    public const int Fewest = 20;

    /// <summary>Reads a plane along a line.</summary>
    /// <param name="plane">Values; pixel middles have half numbers.</param>
    /// <param name="line">The line, mm on the plane.</param>
    /// <param name="mm">Size of a pixel, mm.</param>
    /// <param name="breadth">Over how broad a band values are averaged across the line, mm.</param>
    public static Pull Along(Plane plane, LineString line, double mm, double breadth)
    {
        var (indexed, length) = (new LengthIndexedLine(line), line.Length);
        var count = (int)(length / mm) + 1;
        var beside = Math.Max(0, (int)(breadth / 2 / mm));
        var values = new double[count];
        for (var k = 0; k < count; k++)
        {
            var (sum, there) = (0.0, 0);
            for (var a = -beside; a <= beside; a++)
            {
                var place = indexed.ExtractPoint(k * mm, a * mm);
                if (Between(plane, place.X / mm - 0.5, place.Y / mm - 0.5) is var v && double.IsFinite(v)) (sum, there) = (sum + v, there + 1);
            }
            values[k] = 2 * there < 2 * beside + 1 ? double.NaN : sum / there;
        }
        return new Pull(mm, values);
    }

    /// <summary>Places with data.</summary>
    public int Count => Values.Count(double.IsFinite);

    /// <summary>Whether enough of it has data: at least <see cref="Fewest"/> places, and four fifths of all.</summary>
    public bool SaysAnything => Count >= Fewest && 5 * Count >= 4 * Values.Length;

    private static double Between(Plane plane, double x, double y) => Lines.LinePoints.Between(plane, x, y);
}
