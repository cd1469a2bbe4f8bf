using System.Numerics.Tensors;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Support;

/// <summary>
/// A band-limited texture that can be evaluated anywhere: a sum of sinusoids of all directions with fixed phases, equally strong from octave to octave. A
/// photograph of it is drawn by evaluating it at the very place each pixel shows: nothing is resampled, so that its truth is exact.
/// </summary>
/// <param name="seed">Another seed is another texture.</param>
/// <param name="shortest">Shortest wavelength: more than two pixels of the coarsest photograph.</param>
/// <param name="longest">Longest wavelength.</param>
internal sealed class Texture(int seed, double shortest = 9, double longest = 220)
{
    public const double Mean = 1000;
    public const double Deviation = 180;
    private const int Waves = 160;

    private readonly (double Fx, double Fy, double Phase)[] _waves = [.. Draw(new Random(seed), shortest, longest)];

    /// <summary>A photograph of it, given where its pixels lie on the texture.</summary>
    public Plane Photograph(int width, int height, Func<Point2, Point2> toTexture)
    {
        var plane = new Plane(width, height);
        Parallel.For(0, height, row =>
        {
            Point2[] places = [.. Enumerable.Range(0, width).Select(x => toTexture(new Point2(x + 0.5, row + 0.5)))];
            double[] xs = [.. places.Select(p => p.X)], ys = [.. places.Select(p => p.Y)], phases = new double[width], sum = new double[width];
            foreach (var (fx, fy, phase) in _waves)
            {
                TensorPrimitives.Multiply<double>(xs, fx, phases);
                TensorPrimitives.MultiplyAdd<double>(ys, fy, phases, phases);
                TensorPrimitives.Add<double>(phases, phase, phases);
                TensorPrimitives.Cos<double>(phases, phases);
                TensorPrimitives.Add<double>(sum, phases, sum);
            }
            for (var x = 0; x < width; x++) plane[x, row] = (float)(Mean + Deviation * Math.Sqrt(2.0 / Waves) * sum[x]);
        });
        return plane;
    }

    /// <summary>A photograph whose pixels are the texture's units.</summary>
    public Plane Photograph(int width, int height) => Photograph(width, height, p => p);

    private static IEnumerable<(double, double, double)> Draw(Random dice, double shortest, double longest)
    {
        for (var i = 0; i < Waves; i++)
        {
            var f = 2 * Math.PI / (shortest * Math.Pow(longest / shortest, (i + dice.NextDouble()) / Waves));
            var turn = Math.PI * dice.NextDouble();
            yield return (f * Math.Cos(turn), f * Math.Sin(turn), 2 * Math.PI * dice.NextDouble());
        }
    }
}
