using System.Globalization;
using NetTopologySuite.Geometries;
using NetTopologySuite.Simplify;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Lines;

/// <summary>Says of a traced line where it lies and how dark it is.</summary>
internal static class LineWords
{
    /// <summary>The line on the plane, simplified by at most a quarter of a pixel.</summary>
    /// <param name="line">The line, pixels.</param>
    /// <param name="mm">Millimetres of a pixel.</param>
    public static Geometry Geometry(TracedLine line, double mm) =>
        DouglasPeuckerSimplifier.Simplify(GeometryFactory.Default.CreateLineString([.. line.Points.Select(p => new Coordinate(mm * p.X, mm * p.Y))]), mm / 4);

    /// <summary>Median of depths in natural logarithms, as per cent darker.</summary>
    public static double Darker(IEnumerable<float> depths) => 100 * (1 - Math.Exp(-Robust.Median(depths.Select(d => (double)d))));

    /// <summary>"5 % darker there", "no darker there".</summary>
    public static string There(double darker) => darker < 0.5 ? "no darker there" : string.Create(CultureInfo.InvariantCulture, $"{darker:0} % darker there");
}
