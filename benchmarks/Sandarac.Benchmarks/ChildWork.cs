using Sandarac.Benchmarks.Fourier;

namespace Sandarac.Benchmarks;

/// <summary>Our side of a comparison, run in a process of its own as the peer is.</summary>
internal static class ChildWork
{
    public static int Run(string[] work)
    {
        Console.WriteLine(work switch
        {
            ["fft", .. var rest] => FftWork.Run(rest),
            _ => throw new ArgumentException($"No such work: {string.Join(' ', work)}"),
        });
        return 0;
    }
}
