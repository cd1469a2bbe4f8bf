using System.Globalization;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Prepared;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Brushwork;

/// <summary>Strokes of a zone.</summary>
/// <param name="Name">What the zone is called.</param>
/// <param name="Strokes">Strokes whose middles lie in it.</param>
internal sealed record BrushZone(string Name, IReadOnlyList<BrushStroke> Strokes)
{
    /// <summary>Side of the places that are drawn whole when zones are compared, mm.</summary>
    private const double PlaceMm = 20;

    /// <summary>What is told of strokes, and in which unit.</summary>
    public static readonly IReadOnlyList<(string Name, string Words, string Unit, Func<BrushStroke, double> Value)> Descriptors =
    [
        ("stroke-length", "Length of strokes", "mm", s => s.LengthMm),
        ("stroke-breadth", "Breadth of strokes", "mm", s => s.BreadthMm),
        ("elongation", "Length over breadth", "1", s => s.Elongation),
        ("breadth-unevenness", "Unevenness of breadth", "1", s => s.BreadthUnevenness),
        ("straightness", "Straightness", "1", s => s.Straightness),
        ("furrow-spacing", "Distance of furrows", "mm", s => s.FurrowMm ?? double.NaN),
        ("stroke-relief", "Relief of strokes (Sq)", "um", s => s.SqUm),
        ("neighbours-alike", "Neighbours of like direction", "1", s => s.Neighbours > 0 ? (double)s.NeighboursAlike!.Value / s.Neighbours.Value : double.NaN),
    ];

    /// <summary>Everything, and each named zone, in the order in which they first come.</summary>
    public static IReadOnlyList<BrushZone> Of(IReadOnlyList<BrushStroke> strokes, IEnumerable<(string Name, Geometry Area)> areas) =>
    [
        new("everything", strokes),
        .. areas.GroupBy(a => a.Name).Select(g =>
        {
            IPreparedGeometry[] parts = [.. g.Select(a => PreparedGeometryFactory.Prepare(a.Area))];
            return new BrushZone(g.Key, [.. strokes.Where(s => parts.Any(p => p.Contains(new Point(s.Middle))))]);
        }),
    ];

    /// <summary>Medians of the descriptors, number and direction of the strokes.</summary>
    public IEnumerable<Figure> Figures()
    {
        yield return new("strokes", Strokes.Count, null, "counted: exact", Name);
        foreach (var (name, _, _, value) in Descriptors)
        {
            double[] values = [.. Strokes.Select(value).Where(double.IsFinite)];
            yield return values.Length < ZoneComparison.FewestStrokes
                ? new(name, null, null, "fewer than ten strokes tell it: no answer", Name)
                : new(name, Robust.Median(values), Robust.MedianUncertainty(values), string.Create(CultureInfo.InvariantCulture, $"median of {values.Length}; half of them between {Robust.Quantile(values, 0.25):0.##} and {Robust.Quantile(values, 0.75):0.##}"), Name);
        }
        var (angle, agreement) = Axial.Mean(Strokes.Select(s => s.Angle));
        yield return Strokes.Count < ZoneComparison.FewestStrokes
            ? new("stroke-direction", null, null, "fewer than ten strokes: no answer", Name)
            : new("stroke-direction", Axial.Degrees(angle), null, string.Create(CultureInfo.InvariantCulture, $"they spread by {180 / Math.PI * Axial.Spread(agreement):0} degrees (circular standard deviation), which is no uncertainty of the mean"), Name);
    }

    /// <summary>How this zone's strokes differ from another's.</summary>
    public IEnumerable<Figure> Against(BrushZone other) => Descriptors.Select(d =>
    {
        var subject = $"{Name} against {other.Name}: {char.ToLowerInvariant(d.Words[0])}{d.Words[1..]}";
        return ZoneComparison.Of(Placed(d.Value), other.Placed(d.Value)) is { } difference
            ? new Figure("difference", difference.Effect, Math.Max(difference.High - difference.Effect, difference.Effect - difference.Low),
                string.Create(CultureInfo.InvariantCulture, $"{difference.Low:0.00} to {difference.High:0.00}; medians {difference.MedianA:0.##} and {difference.MedianB:0.##} {(d.Unit == "1" ? "" : d.Unit)}").TrimEnd(), subject)
            : new Figure("difference", null, null, "a zone has fewer than ten strokes that tell it, or they lie in fewer than three places: no answer", subject);
    });

    private (double Value, int Place)[] Placed(Func<BrushStroke, double> value) =>
        [.. Strokes.Select(s => (value(s), (int)(s.Middle.X / PlaceMm) + 10000 * (int)(s.Middle.Y / PlaceMm))).Where(v => double.IsFinite(v.Item1))];
}
