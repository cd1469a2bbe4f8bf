using System.Numerics;
using CsCheck;
using Sandarac.Imaging.Fourier;

namespace Sandarac.Imaging.Tests.Fourier;

/// <summary>What must hold for any plane whatever.</summary>
public class SpectrumProperties
{
    private static readonly Gen<Plane> AnyPlane =
        Gen.Select(Gen.Int[1, 70], Gen.Int[1, 70]).SelectMany((w, h) => Gen.Float[-1000, 1000].Array[w * h].Select(d => new Plane(w, h, d)));

    private static readonly Gen<FourierScaling> AnyScaling = Gen.Bool.Select(b => b ? FourierScaling.Symmetric : FourierScaling.InverseByCount);

    [Fact]
    public void Roundtrip_gives_the_plane_back() => Gen.Select(AnyPlane, AnyScaling).Sample((plane, scaling) =>
    {
        var back = PlaneFourier.Inverse(PlaneFourier.Forward(plane, scaling));
        return Size(plane.Data.Zip(back.Data, (a, b) => a - b)) <= 2 * Error.Bound(plane.Width, plane.Height) * Size(plane.Data);
    }, iter: 400);

    [Fact]
    public void Parseval_the_symmetric_scaling_keeps_the_sum_of_squares() => AnyPlane.Sample(plane =>
    {
        var size = Math.Sqrt(Planes.Values(PlaneFourier.Forward(plane, FourierScaling.Symmetric)).Sum(c => c.Magnitude * c.Magnitude));
        return Math.Abs(size - Size(plane.Data)) <= Error.Bound(plane.Width, plane.Height) * Size(plane.Data);
    }, iter: 300);

    [Fact]
    public void Shift_turns_the_phase_and_nothing_else() => Gen.Select(AnyPlane, Gen.Int[-80, 80], Gen.Int[-80, 80]).Sample((plane, dx, dy) =>
    {
        var (w, h) = (plane.Width, plane.Height);
        var shifted = new Plane(w, h);
        for (var y = 0; y < h; y++)
            for (var x = 0; x < w; x++) shifted[((x + dx) % w + w) % w, ((y + dy) % h + h) % h] = plane[x, y];
        var (before, after) = (PlaneFourier.Forward(plane), PlaneFourier.Forward(shifted));
        var expected = from v in Enumerable.Range(0, h)
                       from u in Enumerable.Range(0, w)
                       select before.At(u, v) * Complex.FromPolarCoordinates(1, -2 * Math.PI * ((double)u * dx / w + (double)v * dy / h));
        return IsNil(plane) || Error.Relative(Planes.Values(after), expected) <= 2 * Error.Bound(w, h);
    }, iter: 300);

    [Fact]
    public void Sum_of_planes_has_the_sum_of_spectra() => AnyPlane.Sample(plane =>
    {
        var other = Planes.Random(plane.Width, plane.Height);
        var both = new Plane(plane.Width, plane.Height, [.. plane.Data.Zip(other.Data, (a, b) => a + b)]);
        var sum = Planes.Values(PlaneFourier.Forward(plane)).Zip(Planes.Values(PlaneFourier.Forward(other)), (a, b) => a + b);
        return Error.Relative(Planes.Values(PlaneFourier.Forward(both)), sum) <= 3 * Error.Bound(plane.Width, plane.Height);
    }, iter: 200);

    [Fact]
    public void Inverse_of_the_product_is_the_circular_convolution()
    {
        var (a, b) = (Planes.Random(18, 14, 3), Planes.Random(18, 14, 4));
        var (sa, sb) = (PlaneFourier.Forward(a), PlaneFourier.Forward(b));
        for (var i = 0; i < sa.Re.Length; i++)
            (sa.Re[i], sa.Im[i]) = (sa.Re[i] * sb.Re[i] - sa.Im[i] * sb.Im[i], sa.Re[i] * sb.Im[i] + sa.Im[i] * sb.Re[i]);
        var fast = PlaneFourier.Inverse(sa);
        for (var y = 0; y < 14; y++)
            for (var x = 0; x < 18; x++)
            {
                var slow = 0.0;
                for (var j = 0; j < 14; j++)
                    for (var i = 0; i < 18; i++) slow += (double)a[i, j] * b[(x - i + 18) % 18, (y - j + 14) % 14];
                Assert.Equal(slow, fast[x, y], 1e-5);
            }
    }

    private static double Size(IEnumerable<float> values) => Math.Sqrt(values.Sum(v => (double)v * v));

    private static bool IsNil(Plane plane) => plane.Data.All(v => v == 0);
}
