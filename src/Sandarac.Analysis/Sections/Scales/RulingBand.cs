using System.Numerics;
using Plane = Sandarac.Imaging.Plane;

namespace Sandarac.Analysis.Sections.Scales;

/// <summary>A picture seen along a ruling: u along it, v along its lines, pixels from the picture's middle.</summary>
internal sealed class RulingBand
{
    /// <summary>Bands across the picture in which the ripple's height is taken.</summary>
    private const int Bands = 96;

    /// <summary>Share of the fullest band's or column's pixels that one needs.</summary>
    private const double LeastFilled = 0.25;

    private readonly Plane _picture;
    private readonly double _x, _y, _mean;

    private RulingBand(Plane picture, double mean, double x, double y, double frequency) => (_picture, _mean, _x, _y, Frequency) = (picture, mean, x, y, frequency);

    /// <summary>Cycles per pixel along u.</summary>
    public double Frequency { get; }

    /// <summary>Turn of u against the rows, clockwise, degrees.</summary>
    public double Degrees => Math.Atan2(_y, _x) * 180 / Math.PI;

    /// <summary>From where to where along v the ripple has at least half of its greatest height.</summary>
    public (double From, double To) Lines { get; private set; }

    /// <summary>Along a peak's direction, set right by how the ripple's phase runs along the lines.</summary>
    public static RulingBand Along(Plane picture, RulingPeak peak)
    {
        var (f, mean) = (peak.Frequency, picture.Data.Average(v => (double)v));
        var band = new RulingBand(picture, mean, peak.X / f, peak.Y / f, f);
        for (var pass = 0; pass < 3; pass++)
        {
            var lean = band.Measure();
            var (c, s) = (Math.Cos(lean), Math.Sin(lean));
            band = new RulingBand(picture, mean, band._x * c - band._y * s, band._x * s + band._y * c, f) { Lines = band.Lines };
        }
        return band;
    }

    /// <summary>Mean over the lines for each pixel of u; NaN where too few of them lie in the picture.</summary>
    /// <param name="whole">Over the whole picture instead.</param>
    public (double From, double[] Values) Profile(bool whole = false)
    {
        var half = (Math.Abs(_x) * _picture.Width + Math.Abs(_y) * _picture.Height) / 2;
        var (sums, counts) = (new double[(int)Math.Ceiling(2 * half) + 1], new int[(int)Math.Ceiling(2 * half) + 1]);
        Each((u, v, value) =>
        {
            if (!whole && (v < Lines.From || v > Lines.To)) return;
            var i = (int)(u + half);
            (sums[i], counts[i]) = (sums[i] + value, counts[i] + 1);
        });
        var least = LeastFilled * counts.Max();
        return (-half, [.. sums.Select((s, i) => counts[i] > 0 && (whole || counts[i] >= least) ? s / counts[i] : double.NaN)]);
    }

    /// <summary>Finds the lines and says by what angle the lines lean against v.</summary>
    private double Measure()
    {
        var half = (Math.Abs(_y) * _picture.Width + Math.Abs(_x) * _picture.Height) / 2;
        var (ripple, weight, step) = (new Complex[Bands], new double[Bands], 2 * half / Bands);
        var (w, h) = (_picture.Width, _picture.Height);
        double[] Hann(int n) => [.. Enumerable.Range(0, n).Select(i => 0.5 - 0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / n))];
        var (across, down) = (Hann(w), Hann(h));
        for (var y = 0; y < h; y++)
        {
            var turn = Complex.FromPolarCoordinates(1, -2 * Math.PI * Frequency * _x);
            var wave = Complex.FromPolarCoordinates(1, -2 * Math.PI * Frequency * (_x * (0.5 - w / 2.0) + _y * (y + 0.5 - h / 2.0)));
            for (var x = 0; x < w; x++)
            {
                var (v, hann) = (-_y * (x + 0.5 - w / 2.0) + _x * (y + 0.5 - h / 2.0), across[x] * down[y]);
                var band = Math.Clamp((int)((v + half) / step), 0, Bands - 1);
                ripple[band] += wave * (hann * (_picture[x, y] - _mean));
                weight[band] += hann;
                wave *= turn;
            }
        }
        var least = LeastFilled * weight.Max();
        double[] heights = [.. ripple.Select((r, i) => weight[i] > least ? r.Magnitude / weight[i] : 0)];
        var best = Array.IndexOf(heights, heights.Max());
        var (first, last) = (best, best);
        while (first > 0 && heights[first - 1] >= heights[best] / 2) first--;
        while (last + 1 < Bands && heights[last + 1] >= heights[best] / 2) last++;
        Lines = (first * step - half, (last + 1) * step - half);
        var turning = Complex.Zero;
        for (var i = first; i < last; i++) turning += Complex.Conjugate(ripple[i]) * ripple[i + 1];
        return turning == Complex.Zero ? 0 : Math.Atan(turning.Phase / (2 * Math.PI * Frequency * step));
    }

    private void Each(Action<double, double, float> take)
    {
        var (w, h) = (_picture.Width, _picture.Height);
        for (var y = 0; y < h; y++)
            for (var x = 0; x < w; x++)
            {
                var (dx, dy) = (x + 0.5 - w / 2.0, y + 0.5 - h / 2.0);
                take(_x * dx + _y * dy, -_y * dx + _x * dy, _picture[x, y]);
            }
    }
}
