namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>Weights of a Gaussian and of its derivative, cut off at three standard deviations.</summary>
internal sealed record GaussianTaps(float[] Smooth, float[] Derivative)
{
    /// <summary>Samples on either side of the middle.</summary>
    public int Radius => Smooth.Length / 2;

    /// <summary>For a standard deviation in pixels: the smoothing sums to 1, the derivative gives 1 on a ramp of slope 1.</summary>
    public static GaussianTaps Of(double sigma)
    {
        var radius = (int)Math.Ceiling(3 * sigma);
        double[] weights = [.. Enumerable.Range(-radius, 2 * radius + 1).Select(i => Math.Exp(-0.5 * i * i / (sigma * sigma)))];
        var (sum, moment) = (weights.Sum(), weights.Select((w, i) => w * (i - radius) * (i - radius)).Sum());
        return new GaussianTaps([.. weights.Select(w => (float)(w / sum))], [.. weights.Select((w, i) => (float)(w * (i - radius) / moment))]);
    }

    /// <summary>Weighted sums along rows then columns, where all samples are there: the result is smaller by the radius on every side.</summary>
    public static Imaging.Plane Apply(Imaging.Plane plane, float[] alongRows, float[] alongColumns)
    {
        var (width, height) = (plane.Width - alongRows.Length + 1, plane.Height - alongColumns.Length + 1);
        var between = new Imaging.Plane(width, plane.Height);
        for (var y = 0; y < plane.Height; y++)
            for (var k = 0; k < alongRows.Length; k++)
                System.Numerics.Tensors.TensorPrimitives.MultiplyAdd(plane.Row(y).Slice(k, width), alongRows[k], between.Row(y), between.Row(y));
        var result = new Imaging.Plane(width, height);
        for (var y = 0; y < height; y++)
            for (var k = 0; k < alongColumns.Length; k++)
                System.Numerics.Tensors.TensorPrimitives.MultiplyAdd(between.Row(y + k), alongColumns[k], result.Row(y), result.Row(y));
        return result;
    }
}
