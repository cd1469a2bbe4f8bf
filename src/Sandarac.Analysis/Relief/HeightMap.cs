using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>Height from slopes: the surface whose differences between neighbours fit the means of their slopes best in least squares.</summary>
/// <remarks>
/// The mean of two neighbours' slopes is exact for surfaces of second degree. Where all slopes are known this is Poisson's equation on a rectangle and is solved at once
/// (<see cref="NeumannPoisson"/>). Where some are not, differences across them are left out, the others are weighted by confidence, and conjugate gradients solve, with that solution as
/// preconditioner (Ghiglia and Romero, Journal of the Optical Society of America A 11 (1994) 107). Height has no zero: its mean is 0; parts that hang together by no neighbours have no
/// height against each other.
/// </remarks>
public static class HeightMap
{
    /// <summary>Conjugate gradients end when the residual has come down to this.</summary>
    private const double Tolerance = 1e-6;

    private const int MostSteps = 200;

    /// <summary>Least weight of a known place: one that is not trusted still joins its neighbours.</summary>
    private const float LeastWeight = 0.02f;

    /// <summary>Integrates slopes.</summary>
    /// <param name="right">Rise to the right, um per um; NaN is unknown.</param>
    /// <param name="down">Rise downwards.</param>
    /// <param name="pixel">Side of a pixel, in the unit that height shall have.</param>
    /// <param name="confidence">Weight of each place, 0 to 1, used where some slopes are unknown; null for equal weights.</param>
    /// <param name="parallel">Threads and cancellation.</param>
    /// <returns>Height, mean 0, NaN where slopes are unknown; null when no slope is known.</returns>
    public static Plane? Integrate(Plane right, Plane down, double pixel, Plane? confidence = null, ParallelOptions? parallel = null)
    {
        parallel ??= new ParallelOptions();
        var known = Array.TrueForAll(right.Data, float.IsFinite) && Array.TrueForAll(down.Data, float.IsFinite);
        var weight = known ? null : Weights(right, down, confidence);
        if (weight is not null && !weight.Data.Any(w => w > 0)) return null;
        var graph = new SlopeGraph(weight, right.Width, right.Height, parallel);
        var (source, poisson) = (graph.Source(right, down, (float)pixel), new NeumannPoisson(right.Width, right.Height, parallel));
        if (weight is null) return poisson.Solve(source);
        var height = Solve(graph, poisson, source, parallel);
        Centre(height, weight);
        return height;
    }

    private static Plane Weights(Plane right, Plane down, Plane? confidence)
    {
        var weight = new Plane(right.Width, right.Height);
        for (var i = 0; i < weight.Data.Length; i++)
            if (float.IsFinite(right.Data[i]) && float.IsFinite(down.Data[i])) weight.Data[i] = confidence is null ? 1 : Math.Clamp(confidence.Data[i], LeastWeight, 1);
        return weight;
    }

    /// <summary>Preconditioned conjugate gradients (Hestenes and Stiefel, Journal of Research of the NBS 49 (1952) 409).</summary>
    private static Plane Solve(SlopeGraph graph, NeumannPoisson poisson, Plane residual, ParallelOptions parallel)
    {
        var (height, direction) = (new Plane(residual.Width, residual.Height), (Plane?)null);
        var (last, goal) = (0.0, 0.0);
        for (var step = 0; step < MostSteps; step++)
        {
            parallel.CancellationToken.ThrowIfCancellationRequested();
            var better = poisson.Solve(residual);
            var product = graph.Dot(residual, better);
            if (step == 0) goal = product * Tolerance * Tolerance;
            if (!(product > goal)) break;
            if (direction is null) direction = better;
            else graph.AddScaled(better, direction, product / last, direction);
            var image = graph.Apply(direction);
            var length = product / graph.Dot(direction, image);
            graph.AddScaled(height, direction, length, height);
            graph.AddScaled(residual, image, -length, residual);
            last = product;
        }
        return height;
    }

    private static void Centre(Plane height, Plane weight)
    {
        var (sum, count) = (0.0, 0);
        for (var i = 0; i < height.Data.Length; i++)
            if (weight.Data[i] > 0) (sum, count) = (sum + height.Data[i], count + 1);
        for (var i = 0; i < height.Data.Length; i++) height.Data[i] = weight.Data[i] > 0 ? (float)(height.Data[i] - sum / count) : float.NaN;
    }
}
