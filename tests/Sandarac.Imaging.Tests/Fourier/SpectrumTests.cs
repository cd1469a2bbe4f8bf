using System.Numerics;
using Sandarac.Imaging.Fourier;

namespace Sandarac.Imaging.Tests.Fourier;

/// <summary>Layout, threads, cancellation, and input that has no transform.</summary>
public class SpectrumTests
{
    [Theory]
    [InlineData(8, 6), InlineData(9, 7), InlineData(1, 5), InlineData(6, 1)]
    public void A_single_wave_lands_on_its_own_frequency_and_its_mirror(int w, int h)
    {
        var (u, v) = (w / 3, h / 2);
        var wave = new Plane(w, h);
        for (var y = 0; y < h; y++)
            for (var x = 0; x < w; x++) wave[x, y] = (float)Math.Cos(2 * Math.PI * ((double)u * x / w + (double)v * y / h));
        var spectrum = PlaneFourier.Forward(wave);
        Assert.Equal(w / 2 + 1, spectrum.Columns);
        Assert.Equal((double)u / w, spectrum.CyclesPerPixelX(u));
        var isOwnMirror = 2 * u % w == 0 && 2 * v % h == 0;
        for (var j = 0; j < h; j++)
            for (var i = 0; i < w; i++)
            {
                var here = (i, j) == (u, v) || (i, j) == ((w - u) % w, (h - v) % h);
                var expected = here ? w * h / (isOwnMirror ? 1.0 : 2) : 0;
                Assert.True(Complex.Abs(spectrum.At(i, j) - expected) < 1e-5 * w * h, $"({i}, {j}) is {spectrum.At(i, j)}, not {expected}");
            }
    }

    [Fact]
    public void Values_not_held_are_the_conjugates_and_frequencies_repeat()
    {
        var s = PlaneFourier.Forward(Planes.Random(10, 7));
        Assert.Equal(Complex.Conjugate(s.At(3, 2)), s.At(-3, -2));
        Assert.Equal(s.At(3, 2), s.At(13, -5));
        Assert.Equal([0, 1 / 7.0, 2 / 7.0, 3 / 7.0, -3 / 7.0, -2 / 7.0, -1 / 7.0], Enumerable.Range(0, 7).Select(s.CyclesPerPixelY));
    }

    [Theory]
    [InlineData(512, 300), InlineData(331, 257), InlineData(4096, 16)]
    public void Bits_are_the_same_whatever_the_number_of_threads(int w, int h)
    {
        var plane = Planes.Random(w, h);
        var one = PlaneFourier.Forward(plane, parallel: new ParallelOptions { MaxDegreeOfParallelism = 1 });
        var back = PlaneFourier.Inverse(one, new ParallelOptions { MaxDegreeOfParallelism = 1 });
        foreach (var threads in new[] { 2, 3, 8, -1 })
        {
            var options = new ParallelOptions { MaxDegreeOfParallelism = threads };
            var many = PlaneFourier.Forward(plane, parallel: options);
            Assert.Equal(one.Re, many.Re);
            Assert.Equal(one.Im, many.Im);
            Assert.Equal(back.Data, PlaneFourier.Inverse(many, options).Data);
        }
    }

    [Fact]
    public void Many_callers_at_once_share_the_plans()
    {
        var sizes = Enumerable.Range(1, 90).ToArray();
        var expected = sizes.Select(n => PlaneFourier.Forward(Planes.Random(n, 5)).Re).ToArray();
        Parallel.For(0, 10 * sizes.Length, i =>
            Assert.Equal(expected[i % sizes.Length], PlaneFourier.Forward(Planes.Random(sizes[i % sizes.Length], 5)).Re));
    }

    [Theory]
    [InlineData(float.NaN), InlineData(float.PositiveInfinity), InlineData(float.NegativeInfinity)]
    public void Extreme_one_value_that_is_not_finite_leaves_none_finite(float bad)
    {
        foreach (var (w, h) in new[] { (1, 1), (2, 1), (1, 3), (16, 40), (31, 10), (20, 22) })
        {
            var plane = Planes.Random(w, h);
            plane[w / 2, h / 2] = bad;
            var spectrum = PlaneFourier.Forward(plane);
            Assert.DoesNotContain(spectrum.Re, float.IsFinite);
            Assert.DoesNotContain(PlaneFourier.Inverse(spectrum).Data, float.IsFinite);
        }
    }

    [Fact]
    public void Extreme_sixteen_bit_counts_on_a_large_plane_do_not_overflow()
    {
        var spectrum = PlaneFourier.Forward(new Plane(2000, 1500).Select(_ => 65535));
        Assert.Equal(65535.0 * 2000 * 1500, spectrum.Re[0], 65535.0 * 2000 * 1500 * Error.Bound(2000, 1500));
    }

    [Fact]
    public void Invalid_sizes_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new Spectrum(0, 4));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Spectrum(4, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => FastLength.IsFast(0));
    }

    [Fact]
    public void A_cancelled_transform_stops()
    {
        var cancelled = new ParallelOptions { CancellationToken = new CancellationToken(true) };
        Assert.Throws<OperationCanceledException>(() => PlaneFourier.Forward(Planes.Random(20, 20), parallel: cancelled));
        Assert.Throws<OperationCanceledException>(() => PlaneFourier.Inverse(new Spectrum(300, 300), cancelled));
    }

    [Fact]
    public void Fast_lengths_are_those_with_no_prime_factor_above_7()
    {
        // OEIS A002473, "7-smooth numbers", its first 30 terms.
        int[] smooth = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 15, 16, 18, 20, 21, 24, 25, 27, 28, 30, 32, 35, 36, 40, 42, 45, 48, 49];
        Assert.Equal(smooth, Enumerable.Range(1, 49).Where(FastLength.IsFast));
        Assert.Equal(50, FastLength.AtLeast(50));
        Assert.Equal(54, FastLength.AtLeast(51));
    }
}
