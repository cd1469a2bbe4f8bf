using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lines;

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
        var (infrared, visible) = (LineWords.Darker(line.Points.Select(p => p.Strength)), LineWords.Darker(line.Points.Select(p => p.Other)));
        var sure = line.Points.Count(p => p.Strength >= strong && p.Other < Nothing * p.Strength) / (double)line.Points.Count;
        var reason = string.Create(CultureInfo.InvariantCulture, $"A line {mm * line.Length:0} mm long, {infrared:0} % darker in infrared than beside it; in visible light {LineWords.There(visible)}. ")
            + "Consistent with drawing under the paint, and with a dark stroke below the surface.";
        return new Candidate(LineWords.Geometry(line, mm), "underdrawing", sure, reason);
    });
}
