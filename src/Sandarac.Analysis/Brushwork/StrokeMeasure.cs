using NetTopologySuite.Geometries;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>Measures a piece as a stroke.</summary>
/// <param name="field">Directions.</param>
/// <param name="texture">Height without long waves, um.</param>
/// <param name="relief">The same without the shortest waves too, of which Sq is told.</param>
/// <param name="mm">Size of a pixel, mm.</param>
internal sealed class StrokeMeasure(DirectionField field, Plane texture, Plane relief, double mm)
{
    /// <summary>A stroke's pieces along its axis are about this many pixels long.</summary>
    private const int Station = 4;

    /// <summary>A stroke is at least so many times as long as broad (common practice, no source).</summary>
    private const double LeastElongation = 2;

    /// <summary>Share of the box about its curved axis that a stroke fills at least: what is ragged or branched is not one stroke.</summary>
    private const double LeastFilled = 0.5;

    /// <summary>Furrows of one stroke agree at least so far, even in a half circle (common practice, no source).</summary>
    private const double LeastAgreement = 0.5;

    /// <summary>The stroke; null when the piece is not elongated along its own furrows, or too ragged to be one.</summary>
    /// <param name="pixels">The piece.</param>
    public BrushStroke? Of(IReadOnlyList<int> pixels)
    {
        var (angle, agreement) = Axial.Mean(pixels.Select(i => (double)field.Angle.Data[i]));
        if (!(agreement >= LeastAgreement)) return null;
        var stations = Stations(pixels, angle);
        if (stations.Count < 3) return null;
        var line = stations.Select(s => s.Middle).ToList();
        var length = Length(line) + Station * mm;
        var (breadth, spread) = MeanAndSpread([.. stations.Select(s => s.Filled)]);
        var extent = stations.Average(s => s.Extent);
        if (length < LeastElongation * breadth || breadth < LeastFilled * extent) return null;
        return new BrushStroke(pixels, line, length, breadth, spread / breadth, Math.Min(1, (line[0].Distance(line[^1]) + Station * mm) / length), angle, agreement, mm * FurrowSpacing.Of(pixels, texture, angle), Sq(pixels));
    }

    /// <summary>Pieces across the direction: their middle, how broad they are as filled, and from side to side.</summary>
    private List<(Coordinate Middle, double Filled, double Extent)> Stations(IReadOnlyList<int> pixels, double angle)
    {
        var (cos, sin, width) = (Math.Cos(angle), Math.Sin(angle), field.Angle.Width);
        var places = pixels.Select(i => (X: i % width + 0.5, Y: i / width + 0.5)).Select(p => (Along: p.X * cos + p.Y * sin, Across: -p.X * sin + p.Y * cos)).ToList();
        var start = places.Min(p => p.Along);
        var stations = new List<(Coordinate, double, double)>();
        foreach (var station in places.GroupBy(p => (int)((p.Along - start) / Station)).OrderBy(g => g.Key))
        {
            var (count, middle) = (0, 0.0);
            var (low, high) = (double.MaxValue, double.MinValue);
            foreach (var (_, across) in station) (count, middle, low, high) = (count + 1, middle + across, Math.Min(low, across), Math.Max(high, across));
            var (along, aside) = (start + (station.Key + 0.5) * Station, middle / count);
            stations.Add((new Coordinate(mm * (along * cos - aside * sin), mm * (along * sin + aside * cos)), mm * count / Station, mm * (high - low + 1)));
        }
        // The rounded ends are no measure of breadth or direction.
        return stations.Count > 4 ? stations.GetRange(1, stations.Count - 2) : stations;
    }

    private double Sq(IReadOnlyList<int> pixels)
    {
        var (sum, count) = (0.0, 0);
        foreach (var i in pixels)
            if (float.IsFinite(relief.Data[i])) (sum, count) = (sum + relief.Data[i] * (double)relief.Data[i], count + 1);
        return count == 0 ? double.NaN : Math.Sqrt(sum / count);
    }

    private static double Length(List<Coordinate> line) => line.Zip(line.Skip(1), (a, b) => a.Distance(b)).Sum();

    private static (double Mean, double Spread) MeanAndSpread(double[] values)
    {
        var mean = values.Average();
        return (mean, Math.Sqrt(values.Average(v => (v - mean) * (v - mean))));
    }
}
