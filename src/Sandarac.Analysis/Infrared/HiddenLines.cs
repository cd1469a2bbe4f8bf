using System.Globalization;
using NetTopologySuite.Geometries;
using NetTopologySuite.Simplify;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lines;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Infrared;

/// <summary>Describes lines that infrared shows and visible light does not as candidates for underdrawing.</summary>
internal static class HiddenLines
{
    /// <summary>Share of a line's depth below which visible light shows nothing of it.</summary>
    private const double Nothing = 0.25;

    /// <summary>A proposal for each line.</summary>
    /// <param name="lines">The lines, pixels.</param>
    /// <param name="mm">Millimetres of a pixel.</param>
    /// <param name="strong">Depth in which a line may begin, natural logarithm.</param>
    public static IEnumerable<Candidate> Candidates(IReadOnlyList<TracedLine> lines, double mm, double strong) => lines.Select(line =>
    {
        var (infrared, visible) = (Darker(line.Points.Select(p => p.Strength)), Darker(line.Points.Select(p => p.Other)));
        var sure = line.Points.Count(p => p.Strength >= strong && p.Other < Nothing * p.Strength) / (double)line.Points.Count;
        var reason = string.Create(CultureInfo.InvariantCulture, $"A line {mm * line.Length:0} mm long, {infrared:0} % darker in infrared than beside it; in visible light {Words(visible)}. ")
            + "Consistent with drawing under the paint, and with a dark stroke below the surface.";
        return new Candidate(Geometry(line, mm), "underdrawing", sure, reason);
    });

    /// <summary>The line on the plane, simplified by at most a quarter of a pixel.</summary>
    private static Geometry Geometry(TracedLine line, double mm) =>
        DouglasPeuckerSimplifier.Simplify(GeometryFactory.Default.CreateLineString([.. line.Points.Select(p => new Coordinate(mm * p.X, mm * p.Y))]), mm / 4);

    /// <summary>Median depth, per cent.</summary>
    private static double Darker(IEnumerable<float> depths) => 100 * (1 - Math.Exp(-Robust.Median(depths.Select(d => (double)d))));

    private static string Words(double darker) => darker < 0.5 ? "no darker there" : string.Create(CultureInfo.InvariantCulture, $"{darker:0} % darker there");
}
