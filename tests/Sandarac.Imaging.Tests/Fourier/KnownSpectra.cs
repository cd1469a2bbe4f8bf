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
        var lines = File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Fourier", "rfft2.csv")).Skip(1);
        var bySize = lines.Select(l => l.Split(',')).GroupBy(f => (Width: int.Parse(f[0], CultureInfo.InvariantCulture), Height: int.Parse(f[1], CultureInfo.InvariantCulture))).ToList();
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
                var n = f.Skip(2).Select(t => double.Parse(t, CultureInfo.InvariantCulture)).ToArray();
                var off = Complex.Abs(ours.At((int)n[0], (int)n[1]) - new Complex(n[2], n[3]));
                Assert.True(off <= allowed, $"{w} x {h} at ({n[0]}, {n[1]}): off by {off:g3}, allowed {allowed:g3}");
            }
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

    private static void AgreesWithDefinition(int w, int h)
    {
        var plane = Planes.Random(w, h, w + 100 * h);
        var error = Error.Relative(Planes.Values(PlaneFourier.Forward(plane)), NaiveTransform.Of(plane).Cast<Complex>());
        Assert.True(error <= Error.Bound(w, h), $"{w} x {h}: {error:g3}, allowed {Error.Bound(w, h):g3}");
    }
}
