using Sandarac.Analysis.Brushwork;
using Sandarac.Analysis.Changes;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Changes;

public class ChangeStepTests
{
    private static readonly ParallelOptions Threads = new() { MaxDegreeOfParallelism = 2 };

    /// <summary>The formula is the witness: two photographs with variance a + b light each differ with twice that.</summary>
    [Theory]
    [InlineData(4e-7, 2e-5)]
    [InlineData(1e-5, 1e-5)]
    [InlineData(1e-6, 1e-4)]
    public void Known_noise_of_sensors_is_measured_by_light(double dark, double perLight)
    {
        var picture = TwoStates.Picture(400, 300);
        var (first, second) = (picture.Noisy(1, dark, perLight), picture.Noisy(2, dark, perLight));
        var level = DifferenceNoise.Of(first, second, Threads).Levels[0];
        foreach (var light in new[] { 0.15, 0.3, 0.5 }) Assert.Equal(1, level.Variance(light) / (2 * (dark + perLight * light)), 0.1);
    }

    /// <summary>Beside skimage.restoration.estimate_sigma, see References/Changes/SOURCE.md: the same plane of noise from Park and Miller's generator.</summary>
    [Fact]
    public void Known_noise_agrees_with_another_estimator()
    {
        var state = 1L;
        double Next() => (state = state * 48271 % 2147483647) / 2147483647.0;
        var plane = new Plane(256, 256);
        for (var i = 0; i < plane.Data.Length; i++) plane.Data[i] = (float)(0.5 + 0.01 * Math.Sqrt(-2 * Math.Log(Next())) * Math.Cos(2 * Math.PI * Next()));
        var level = NoiseLevel.Fit(plane.Select(_ => 0.5f), NoiseLevel.WithoutMean(plane.Select(v => v - 0.5f), Threads), _ => true);
        Assert.Equal(1, Math.Sqrt(level.Variance(0.5)) / SkimageSigma, 0.03);
    }

    private const double SkimageSigma = 0.00984075;

    [Fact]
    public void Known_light_is_matched_and_a_changed_part_is_not()
    {
        var baseline = TwoStates.Picture(480, 360);
        var later = TwoStates.Picture(480, 360).WithDisc(120, 100, 40, 0.8);
        double Gain(double x, double y) => 0.8 * Math.Exp(0.12 * (x / 480) - 0.2 * Math.Pow(y / 360 - 0.4, 2));
        Plane[] other = [.. Enumerable.Range(0, 3).Select(b => new Plane(480, 360))];
        for (var i = 0; i < other[0].Data.Length; i++)
            for (var b = 0; b < 3; b++) other[b].Data[i] = (float)(Gain(i % 480 + 0.5, i / 480 + 0.5) * (0.9 * later[b].Data[i] + 0.04 * later[(b + 1) % 3].Data[i]) + 0.003);
        var pair = new ChangePair(baseline, other);
        var matched = LightMatch.Fit(pair)!.Apply(other, Threads);
        Assert.Equal(1, matched[1][300, 250] / baseline[1][300, 250], 0.01);
        Assert.Equal(1, matched[0][30, 330] / baseline[0][30, 330], 0.02);
        Assert.Equal(0.8, matched[1][120, 100] / baseline[1][120, 100], 0.03);
    }

    [Fact]
    public void Known_shift_is_taken_back()
    {
        var (baseline, moved) = (TwoStates.Picture(320, 240), TwoStates.Picture(320, 240, 0.4, -0.25));
        var (shift, corrected) = ResidualShift.Correct(baseline, moved, Threads);
        Assert.Equal(Math.Sqrt(0.4 * 0.4 + 0.25 * 0.25), shift.Size, 0.03);
        Assert.Equal(baseline[0][160, 120], corrected[0][160, 120], 2e-3);
        Assert.True(shift.Last < 0.01, $"{shift.Last} px");
    }

    [Theory]
    [InlineData(0.6)]
    [InlineData(0.9)]
    public void Known_blur_is_matched_whichever_is_softer(double sigma)
    {
        var sharp = TwoStates.Picture(320, 240);
        var soft = GaussianMean.Of(sharp, sigma, Threads);
        Assert.Equal(sigma, SharpnessMatch.Match(sharp, soft, Threads).Blur, 0.1 * sigma);
        Assert.Equal(-sigma, SharpnessMatch.Match(soft, sharp, Threads).Blur, 0.1 * sigma);
    }

    /// <summary>Nominal: one false candidate a picture at each scale together; the photographs hold noise alone.</summary>
    [Fact, Trait("Speed", "slow")]
    public void Chance_gives_about_as_many_candidates_as_stated()
    {
        const int pictures = 24;
        var found = 0;
        for (var k = 0; k < pictures; k++)
        {
            Plane[] Noise(int seed) => ((Plane[])[new Plane(256, 256), new Plane(256, 256), new Plane(256, 256)]).Select(p => p.Select(_ => 0.4f)).ToArray().Noisy(seed);
            var (first, second) = (Noise(2 * k), Noise(2 * k + 1));
            var map = ChangeMap.Search(DifferenceNoise.Of(first, second, Threads), first, ColourDifference.Of(first, second, Threads), 2.8, 1, 0, _ => { }, Threads)!;
            found += map.Scales.Select((s, n) => s.Peaks().Count(p => p > map.Limits[n])).Sum();
        }
        Assert.InRange(found / (double)pictures, 0.3, 2.2);
    }
}
