using NetTopologySuite.Geometries;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;
using Sandarac.Studio.Storage;

namespace Sandarac.Studio.Places;

/// <summary>An image in its own pixels and the way from a place on the plane to them.</summary>
/// <param name="Layer">The layer that shows it.</param>
/// <param name="Pyramid">The image.</param>
/// <param name="ToPixel">From mm on the plane to pixels of the full level.</param>
internal sealed record PixelsOnPlane(Layer Layer, PyramidFacts Pyramid, Func<Point2, Point2> ToPixel)
{
    /// <summary>The pixel that holds a place; null when the image does not show it.</summary>
    public ValuesHere? At(PyramidPool pool, Point2 mm)
    {
        var p = ToPixel(mm);
        if (!(p.X >= 0 && p.Y >= 0 && p.X < Pyramid.Width && p.Y < Pyramid.Height)) return null;
        var (x, y) = ((int)p.X, (int)p.Y);
        var bands = pool.Read(Pyramid.Sha256, f => f.ReadWindow(0, x, y, 1, 1));
        return new ValuesHere(Layer.Id, Layer.Light, Layer.Label, new Point2(x, y), [.. bands.Select(b => float.IsNaN(b.Data[0]) ? (double?)null : b.Data[0])], Pyramid.Bands, Pyramid.Unit);
    }

    /// <summary>Mean and spread over a geometry on the plane; null when no pixel lies in it.</summary>
    public ValuesOverZone? Over(PyramidPool pool, Geometry geometry, CancellationToken cancellation)
    {
        var spans = PixelSpans.Of(geometry, ToPixel, Pyramid.Width, Pyramid.Height);
        if (spans.Count == 0) return null;
        var sums = pool.Read(Pyramid.Sha256, f =>
        {
            var totals = Pyramid.Bands.Select(_ => new Moments()).ToArray();
            foreach (var (y, x0, x1) in spans)
            {
                cancellation.ThrowIfCancellationRequested();
                Add(totals, f.ReadWindow(0, x0, y, x1 - x0, 1));
            }
            return totals;
        });
        return sums[0].Count == 0 ? null : new ValuesOverZone(Layer.Id, Layer.Light, Layer.Label, [.. sums.Select(s => s.Mean)], [.. sums.Select(s => s.StandardDeviation)],
            sums[0].Count, Pyramid.Bands, Pyramid.Unit);
    }

    private static void Add(Moments[] totals, Plane[] bands)
    {
        for (var b = 0; b < totals.Length; b++)
            foreach (var value in bands[b].Data)
                if (!float.IsNaN(value)) totals[b].Add(value);
    }

    /// <summary>Running mean and spread (Welford, Technometrics 4 (1962) 419): no loss of digits however many pixels there are.</summary>
    private sealed class Moments
    {
        private double _squares;

        public long Count { get; private set; }

        public double Mean { get; private set; }

        public double StandardDeviation => Count > 1 ? Math.Sqrt(_squares / (Count - 1)) : 0;

        public void Add(double value)
        {
            var delta = value - Mean;
            Mean += delta / ++Count;
            _squares += delta * (value - Mean);
        }
    }
}
