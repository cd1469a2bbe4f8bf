using System.Diagnostics;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging;
using Sandarac.Imaging.Fourier;

namespace Sandarac.Benchmarks.Fourier;

/// <summary>Our transform, repeated for some seconds after as long a warm-up.</summary>
internal static class FftWork
{
    /// <summary>Arguments: width, height, threads, "forward" or "inverse", seconds.</summary>
    /// <returns>Median time of one transform, ms.</returns>
    public static double Run(string[] arguments)
    {
        var (width, height, seconds) = (Invariant.Whole(arguments[0]), Invariant.Whole(arguments[1]), Invariant.Number(arguments[4]));
        var parallel = new ParallelOptions { MaxDegreeOfParallelism = Invariant.Whole(arguments[2]) };
        var random = new Random(1);
        var plane = new Plane(width, height).Select(_ => random.NextSingle());
        var spectrum = PlaneFourier.Forward(plane);
        Action transform = arguments[3] == "forward"
            ? () => PlaneFourier.Forward(plane, parallel: parallel)
            : () => PlaneFourier.Inverse(spectrum, parallel);
        Repeat(transform, seconds);
        return Rounds.Median(Repeat(transform, seconds));
    }

    private static List<double> Repeat(Action transform, double seconds)
    {
        var times = new List<double>();
        for (var begun = Stopwatch.GetTimestamp(); times.Count < 5 || Stopwatch.GetElapsedTime(begun).TotalSeconds < seconds;)
        {
            var start = Stopwatch.GetTimestamp();
            transform();
            times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
        return times;
    }
}
