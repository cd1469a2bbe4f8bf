using System.Globalization;
using System.Numerics;
using Sandarac.Imaging.Fourier;

namespace Sandarac.Imaging.Tests.Fourier;

/// <summary>Against figures from outside: SciPy's (References/Fourier/SOURCE.md) and the definition itself.</summary>
public class KnownSpectra
{
    [Fact]
    public void Agrees_with_SciPy()
    {
        var bySize = Reference("rfft2.csv");
        Assert.Equal(17, bySize.Count);
        foreach (var size in bySize)
        {
            var (w, h) = size.Key;
            var plane = Planes.Known(w, h);
            var ours = PlaneFourier.Forward(plane);
            // One value alone may be off by more than its share: measured against the whole (Parseval), not against itself.
            var allowed = 4 * Error.Bound(w, h) * Math.Sqrt(plane.Data.Sum(x => (double)x * x));
            foreach (var f in size)
            {
                var off = Complex.Abs(ours.At((int)f[2], (int)f[3]) - new Complex(f[4], f[5]));
                Assert.True(off <= allowed, $"{w} x {h} at ({f[2]}, {f[3]}): off by {off:g3}, allowed {allowed:g3}");
            }
        }
    }

    [Fact]
    public void Agrees_with_SciPy_on_the_way_back_even_from_what_is_no_spectrum_of_a_plane()
    {
        var bySize = Reference("irfft2.csv");
        Assert.Equal(5, bySize.Count);
        foreach (var size in bySize)
        {
            var (w, h) = size.Key;
            var spectrum = new Spectrum(w, h);
            var values = Planes.Known(spectrum.Columns, h);
            values.Data.CopyTo(spectrum.Re);
            for (var v = 0; v < h; v++) values.Row(h - 1 - v).CopyTo(spectrum.Im.AsSpan(v * spectrum.Columns));
            var ours = PlaneFourier.Inverse(spectrum);
            var allowed = 4 * Error.Bound(w, h) * Math.Sqrt(4 * values.Data.Sum(x => (double)x * x)) / Math.Sqrt(w * h);
            foreach (var f in size) Assert.Equal(f[4], ours[(int)f[2], (int)f[3]], allowed);
        }
    }

    [Fact]
    public void Agrees_with_the_definition_at_every_small_size()
    {
        for (var w = 1; w <= 40; w++)
            foreach (var h in new[] { 1, 2, 3, 5, 8, 11, 12, 23, 33, 40 }.Append(w).Distinct()) AgreesWithDefinition(w, h);
    }

    [Theory]
    [InlineData(1, 97), InlineData(211, 1), InlineData(1, 128), InlineData(360, 1), InlineData(61, 67), InlineData(49, 98), InlineData(75, 121), InlineData(1, 1)]
    public void Agrees_with_the_definition_for_primes_and_single_lines(int w, int h) => AgreesWithDefinition(w, h);

    [Fact]
    public void Agrees_with_MathNet_down_a_long_prime_line()
    {
        var plane = Planes.Random(1, 20011);
        var theirs = plane.Data.Select(x => new Complex(x, 0)).ToArray();
        MathNet.Numerics.IntegralTransforms.Fourier.Forward(theirs, MathNet.Numerics.IntegralTransforms.FourierOptions.NoScaling);
        Assert.InRange(Error.Relative(Planes.Values(PlaneFourier.Forward(plane)), theirs), 0, Error.Bound(1, 20011));
    }

    private static List<IGrouping<(int Width, int Height), double[]>> Reference(string file) =>
        [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Fourier", file)).Skip(1)
            .Select(l => l.Split(',').Select(t => double.Parse(t, CultureInfo.InvariantCulture)).ToArray()).GroupBy(f => ((int)f[0], (int)f[1]))];

    private static void AgreesWithDefinition(int w, int h)
    {
        var plane = Planes.Random(w, h, w + 100 * h);
        var error = Error.Relative(Planes.Values(PlaneFourier.Forward(plane)), NaiveTransform.Of(plane).Cast<Complex>());
        Assert.True(error <= Error.Bound(w, h), $"{w} x {h}: {error:g3}, allowed {Error.Bound(w, h):g3}");
    }
}
