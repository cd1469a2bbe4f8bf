using Sandarac.Imaging;

namespace Sandarac.Analysis.Alignment;

/// <summary>How strongly a picture changes from pixel to pixel along rows or columns, all bands together.</summary>
internal static class Changes
{
    /// <summary>Derivative of a Gaussian of standard deviation 1 pixel, at 0 to 3 pixels.</summary>
    private static readonly double[] Derivative = [0, 0.2420, 0.1080, 0.0133];

    /// <summary>Gaussian of standard deviation 1 pixel, at 0 to 3 pixels.</summary>
    private static readonly double[] Smooth = [0.3989, 0.2420, 0.0540, 0.0044];

    /// <summary>Size of the change along rows (<paramref name="along"/> false: columns), the root of the sum of squares over bands.</summary>
    public static Plane Of(Plane[] bands, bool along)
    {
        var energy = new Plane(bands[0].Width, bands[0].Height);
        foreach (var band in bands)
        {
            var change = along ? Columns(Rows(band, Derivative, -1), Smooth, 1) : Rows(Columns(band, Derivative, -1), Smooth, 1);
            for (var i = 0; i < energy.Data.Length; i++) energy.Data[i] += change.Data[i] * change.Data[i];
        }
        return energy.Select(MathF.Sqrt);
    }

    private static Plane Rows(Plane p, double[] taps, int parity)
    {
        var result = new Plane(p.Width, p.Height);
        for (var y = 0; y < p.Height; y++)
            for (var x = 0; x < p.Width; x++)
            {
                var sum = taps[0] * p[x, y];
                for (var k = 1; k < taps.Length; k++) sum += taps[k] * (p[Math.Min(p.Width - 1, x + k), y] + parity * p[Math.Max(0, x - k), y]);
                result[x, y] = (float)sum;
            }
        return result;
    }

    private static Plane Columns(Plane p, double[] taps, int parity)
    {
        var result = new Plane(p.Width, p.Height);
        for (var y = 0; y < p.Height; y++)
            for (var x = 0; x < p.Width; x++)
            {
                var sum = taps[0] * p[x, y];
                for (var k = 1; k < taps.Length; k++) sum += taps[k] * (p[x, Math.Min(p.Height - 1, y + k)] + parity * p[x, Math.Max(0, y - k)]);
                result[x, y] = (float)sum;
            }
        return result;
    }
}
