using Sandarac.Benchmarks.Alignment;
using Sandarac.Benchmarks.Documents;
using Sandarac.Benchmarks.Fourier;
using Sandarac.Benchmarks.Ingest;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Benchmarks.Relief;

namespace Sandarac.Benchmarks;

/// <summary>Work that is called as a library, run in a process of its own: sides of a comparison, and what would leave much memory behind.</summary>
internal static class ChildWork
{
    public static int Run(string[] work)
    {
        Console.WriteLine(work switch
        {
            ["document", var format, var pictures, var folder] => LongReport.Run(format, Invariant.Whole(pictures), folder),
            ["fft", .. var rest] => FftWork.Run(rest),
            ["ingest", var source, var copy, var pyramid] => IngestWork.Run(source, copy, pyramid),
            ["photographs", .. var rest] => LargePair.Draw(rest),
            ["relief", var light, var width, var height, var target] => ReliefWork.Run(light, Invariant.Whole(width), Invariant.Whole(height), target),
            ["libvips", var source, var pyramid] => LibvipsWork.Run(source, pyramid),
            _ => throw new ArgumentException($"No such work: {string.Join(' ', work)}"),
        });
        return 0;
    }
}
