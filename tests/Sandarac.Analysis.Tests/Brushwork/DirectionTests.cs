using Sandarac.Analysis.Brushwork;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Brushwork;

public class DirectionTests
{
    private static readonly ParallelOptions Threads = new() { MaxDegreeOfParallelism = 2 };

    /// <summary>scipy.stats.circmean and circstd, see References/Brushwork/SOURCE.md.</summary>
    [Fact]
    public void Directions_are_averaged_without_an_arrow()
    {
        var (angle, agreement) = Axial.Mean(new double[] { 10, 170, 5, 178, 20, 90 }.Select(d => d * Math.PI / 180));
        Assert.Equal(5.815142815679793, angle * 180 / Math.PI, 9);
        Assert.Equal(28.13881384849362, Axial.Spread(agreement) * 180 / Math.PI, 9);
        Assert.Equal(20 * Math.PI / 180, Axial.Between(10 * Math.PI / 180, 170 * Math.PI / 180), 12);
    }

    /// <summary>A plane wave's crests run at right angles to its slope: known exactly.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(17)]
    [InlineData(90)]
    [InlineData(133.5)]
    public void Furrows_of_a_known_direction_are_found_with_it(double degrees)
    {
        var (p, q) = Furrows(degrees, 7);
        var field = DirectionField.Of(p, q, 6, Threads);
        Assert.InRange(180 / Math.PI * Axial.Between(field.Angle[60, 60], degrees * Math.PI / 180), 0, 0.01);
        Assert.InRange(field.Coherence[60, 60], 0.9999, 1.0001);
    }

    [Fact]
    public void Noise_has_no_direction()
    {
        var flat = new Plane(200, 200);
        var field = DirectionField.Of(flat.AddNoise(1, 1), flat.AddNoise(1, 2), 8, Threads);
        Assert.InRange(field.Coherence.Data.Average(), 0, 0.15);
        Assert.All(DirectionField.Of(flat, flat, 8, Threads).Angle.Data, a => Assert.True(float.IsNaN(a)));
    }

    [Fact]
    public void Places_without_data_are_not_averaged_and_have_no_mean_of_their_own()
    {
        var plane = Synthetic.Of(60, 60, (x, _) => x < 30 ? 5 : double.NaN);
        var mean = GaussianMean.Of(plane, 3, Threads);
        Assert.Equal(5, mean[28, 30], 5);
        Assert.Equal(5, mean[0, 0], 5);
        Assert.True(float.IsNaN(mean[45, 30]));
    }

    [Fact]
    public void The_number_of_threads_changes_nothing()
    {
        var (p, q) = Furrows(40, 5);
        var (one, two) = (DirectionField.Of(p, q, 4, new() { MaxDegreeOfParallelism = 1 }), DirectionField.Of(p, q, 4, new() { MaxDegreeOfParallelism = 7 }));
        Assert.Equal(one.Angle.Data, two.Angle.Data);
        Assert.Equal(one.Coherence.Data, two.Coherence.Data);
    }

    /// <summary>Root mean square of a sine is its amplitude over the square root of two.</summary>
    [Fact]
    public void Local_roughness_of_a_sine_is_known()
    {
        var finer = Synthetic.Of(120, 120, (x, _) => 20 * Math.Sin(2 * Math.PI * x / 8));
        Assert.Equal(20 / Math.Sqrt(2), ReliefTexture.LocalSq(finer, 12, Threads)[60, 60], 0.02);
    }

    [Fact]
    public void Classes_of_body_follow_their_thresholds()
    {
        var thresholds = new BodyThresholds(5, 12, 30);
        Assert.Equal([Body.Watery, Body.Thin, Body.Full, Body.Impasto, null], new[] { 4.9, 5, 29.9, 30, double.NaN }.Select(thresholds.Of));
        var (shares, pixels) = thresholds.Shares(new Plane(5, 1, [1, 6, 7, 40, float.NaN]));
        Assert.Equal([0.25, 0.5, 0, 0.25], shares);
        Assert.Equal(4, pixels);
    }

    private static (Plane P, Plane Q) Furrows(double degrees, double pitch)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        double Steepness(double x, double y) => Math.Cos(2 * Math.PI * (-x * sin + y * cos) / pitch);
        return (Synthetic.Of(120, 120, (x, y) => -sin * Steepness(x, y)), Synthetic.Of(120, 120, (x, y) => cos * Steepness(x, y)));
    }
}
