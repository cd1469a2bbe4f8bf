using System.Numerics;
using Plane = Sandarac.Imaging.Plane;

namespace Sandarac.Analysis.Alignment.Rulers;

/// <summary>A Gaussian window along a strip.</summary>
/// <param name="First">Its first column.</param>
/// <param name="Weights">Weights, which sum to 1.</param>
/// <param name="Wave">The same, each turned back by the line's phase there.</param>
internal sealed record RippleWindow(int First, double[] Weights, Complex[] Wave);

/// <summary>The picture around a ruler's line, straightened: columns along the line, rows across it, one pixel apart; ticks stand upright.</summary>
internal sealed class RulerStrip
{
    private readonly Plane _values;

    private RulerStrip(RulerLine line, Plane values, double from, int half) => (Line, _values, From, Half) = (line, values, from, half);

    /// <summary>The line.</summary>
    public RulerLine Line { get; }

    /// <summary>Place of the first column along the line.</summary>
    public double From { get; }

    /// <summary>Rows on either side of the line's own.</summary>
    public int Half { get; }

    /// <summary>Columns.</summary>
    public int Length => _values.Width;

    /// <summary>Reads the strip with bilinear interpolation; beyond the picture its border goes on.</summary>
    public static RulerStrip Read(Plane picture, RulerLine line, int half, double margin)
    {
        var from = line.From - margin;
        var values = new Plane((int)Math.Ceiling(line.To + margin - from), 2 * half + 1);
        for (var row = 0; row < values.Height; row++)
            for (var column = 0; column < values.Width; column++)
            {
                var p = line.At(from + column, row - half);
                values[column, row] = Sample(picture, p.X - 0.5, p.Y - 0.5);
            }
        return new RulerStrip(line, values, from, half);
    }

    /// <summary>A row so many pixels across the line.</summary>
    public ReadOnlySpan<float> Row(int across) => _values.Row(across + Half);

    /// <summary>Mean of the rows from <paramref name="first"/> to <paramref name="last"/>.</summary>
    public float[] Profile(int first, int last)
    {
        var sum = new double[Length];
        for (var row = first; row <= last; row++)
        {
            var values = Row(row);
            for (var i = 0; i < sum.Length; i++) sum[i] += values[i];
        }
        return [.. sum.Select(s => (float)(s / (last - first + 1)))];
    }

    /// <summary>A window on the line's ripple around a place, for <see cref="Through"/>.</summary>
    /// <param name="at">Middle of the window, pixels along the line.</param>
    /// <param name="sigma">Standard deviation of the Gaussian, pixels.</param>
    public RippleWindow Window(double at, double sigma)
    {
        var first = Math.Max(0, (int)Math.Ceiling(at - From - 4 * sigma));
        var count = Math.Max(0, Math.Min(Length - 1, (int)(at - From + 4 * sigma)) - first + 1);
        double[] weights = [.. Enumerable.Range(first, count).Select(i => Math.Exp(-(From + i - at) * (From + i - at) / (2 * sigma * sigma)))];
        var sum = weights.Sum();
        return new RippleWindow(first, [.. weights.Select(w => w / sum)], [.. weights.Select((w, i) => Complex.FromPolarCoordinates(w / sum, -2 * Math.PI * Line.Cycles(From + first + i)))]);
    }

    /// <summary>The line's ripple through a window: half its amplitude, and its phase against <see cref="RulerLine.Cycles"/>.</summary>
    /// <param name="values">A row or profile of this strip.</param>
    /// <param name="window">A window of this strip.</param>
    public static Complex Through(RippleWindow window, ReadOnlySpan<float> values)
    {
        var mean = 0.0;
        for (var i = 0; i < window.Weights.Length; i++) mean += window.Weights[i] * values[window.First + i];
        var (re, im) = (0.0, 0.0);
        for (var i = 0; i < window.Weights.Length; i++)
        {
            var value = values[window.First + i] - mean;
            (re, im) = (re + window.Wave[i].Real * value, im + window.Wave[i].Imaginary * value);
        }
        return new Complex(re, im);
    }

    /// <summary>A value of a row or profile between columns.</summary>
    public double Value(ReadOnlySpan<float> values, double along)
    {
        var at = Math.Clamp(along - From, 0, values.Length - 1);
        var i = Math.Min((int)at, values.Length - 2);
        return values[i] + (at - i) * (values[i + 1] - values[i]);
    }

    private static float Sample(Plane picture, double x, double y)
    {
        (x, y) = (Math.Clamp(x, 0, picture.Width - 1), Math.Clamp(y, 0, picture.Height - 1));
        var (i, j) = (Math.Min((int)x, picture.Width - 2), Math.Min((int)y, picture.Height - 2));
        var (s, t) = ((float)(x - i), (float)(y - j));
        var upper = picture[i, j] + s * (picture[i + 1, j] - picture[i, j]);
        var lower = picture[i, j + 1] + s * (picture[i + 1, j + 1] - picture[i, j + 1]);
        return upper + t * (lower - upper);
    }
}
