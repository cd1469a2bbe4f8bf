using System.Runtime.Intrinsics;
using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Sections;

/// <summary>
/// Profiles across the strata: the frame's columns in bundles, each row of a bundle the mean of its pixels in every channel. Channels are turned and stretched so that
/// what differs from one profile to the next, grains and noise, has no correlation between them and variance 1.
/// </summary>
internal sealed class Profiles
{
    /// <summary>Pixels along the strata that are taken together.</summary>
    public const int Bundle = 8;

    /// <summary>Differences beyond so many medians, and so much, are steps, in CIELAB units.</summary>
    private const double Steps = 6, Step = 0.5;

    /// <summary>Nats by which an even distribution lies below the normal one's mean.</summary>
    private const float Spare = 4;

    /// <summary>Least variance in a channel, squared CIELAB units: no image is more even.</summary>
    private const double LeastVariance = 0.05;

    private Profiles(int channels, int count, int rows, double[] along, ParallelOptions workers)
    {
        (Channels, Count, Rows, Along, Workers) = (channels, count, rows, along, workers);
        (Values, Known) = (new Vector256<float>[count * rows], new bool[count * rows]);
    }

    public int Channels { get; }

    /// <summary>Profiles.</summary>
    public int Count { get; }

    /// <summary>Rows of each.</summary>
    public int Rows { get; }

    /// <summary>Where each profile lies along the strata.</summary>
    public double[] Along { get; }

    /// <summary>Values by profile and row; lanes beyond the channels are 0.</summary>
    public Vector256<float>[] Values { get; }

    /// <summary>Cost of a value that may be anything, a coarse grain or a bubble: even over what occurs, whatever the layer.</summary>
    public float Anything { get; private set; } = float.PositiveInfinity;

    /// <summary>What the pixels under the profiles show.</summary>
    public LookSums Looks { get; private set; } = null!;

    /// <summary>Threads for work on them, and cancellation.</summary>
    public ParallelOptions Workers { get; }

    /// <summary>Whether the image reaches there.</summary>
    public bool[] Known { get; }

    /// <summary>Takes the profiles that lie in the image with at least half of the image's shorter side.</summary>
    public static Profiles Of(Micrographs images, StrataFrame frame, ParallelOptions workers)
    {
        int[] starts = [.. Enumerable.Range(0, frame.Width / Bundle).Select(b => b * Bundle).Where(u => Inside(images, frame, u + Bundle / 2.0) >= Math.Min(images.Width, images.Height) / 2)];
        var profiles = new Profiles(images.Channels.Count, starts.Length, frame.Height, [.. starts.Select(u => u + Bundle / 2.0)], workers);
        Parallel.For(0, starts.Length, workers, p => profiles.Fill(images, frame, p, starts[p]));
        profiles.Looks = LookSums.Of(images, frame, profiles);
        profiles.Whiten();
        if (starts.Length > 0 && LayerModel.Fit(profiles, new int[starts.Length], [.. Enumerable.Repeat(profiles.Rows, starts.Length)]) is { } all) profiles.Anything = all.Constant + profiles.Channels / 2f + Spare;
        return profiles;
    }

    /// <summary>Some of the profiles, from one to another.</summary>
    public Profiles Part(int first, int last)
    {
        var part = new Profiles(Channels, last - first + 1, Rows, Along[first..(last + 1)], Workers) { Anything = Anything, Looks = Looks.Part(first, last) };
        Array.Copy(Values, first * Rows, part.Values, 0, part.Values.Length);
        Array.Copy(Known, first * Rows, part.Known, 0, part.Known.Length);
        return part;
    }

    private static int Inside(Micrographs images, StrataFrame frame, double u) => Enumerable.Range(0, frame.Height).Count(v =>
        frame.ToImage(u, v + 0.5) is var p && p.X >= 0 && p.Y >= 0 && p.X < images.Width && p.Y < images.Height);

    private void Fill(Micrographs images, StrataFrame frame, int profile, int start)
    {
        Span<double> sums = stackalloc double[Channels];
        for (var v = 0; v < Rows; v++)
        {
            sums.Clear();
            var count = 0;
            for (var u = start; u < start + Bundle; u++)
            {
                var p = frame.ToImage(u + 0.5, v + 0.5);
                var (x, y) = ((int)Math.Floor(p.X), (int)Math.Floor(p.Y));
                if (x < 0 || y < 0 || x >= images.Width || y >= images.Height || !images.IsShown(y * images.Width + x)) continue;
                count++;
                for (var c = 0; c < Channels; c++) sums[c] += images.Channels[c][y * images.Width + x];
            }
            if (count < Bundle / 2) continue;
            var at = profile * Rows + v;
            Known[at] = true;
            for (var c = 0; c < Channels; c++) Values[at] = Values[at].WithElement(c, (float)(sums[c] / count));
        }
    }

    /// <summary>By the covariance of differences from one profile to the next, steps left out.</summary>
    private void Whiten()
    {
        int[] pairs = [.. Enumerable.Range(0, Math.Max(0, Count - 1) * Rows).Where(i => Known[i] && Known[i + Rows])];
        if (pairs.Length == 0) return;
        double[] most = [.. Enumerable.Range(0, Channels).Select(c => Step + Steps * Robust.Median(pairs.Select(i => (double)Math.Abs(Values[i + Rows][c] - Values[i][c]))))];
        var covariance = Matrix<double>.Build.DenseDiagonal(Channels, LeastVariance);
        var used = pairs.Where(i => Enumerable.Range(0, Channels).All(c => Math.Abs(Values[i + Rows][c] - Values[i][c]) <= most[c])).ToArray();
        foreach (var i in used)
            for (var a = 0; a < Channels; a++)
                for (var b = 0; b < Channels; b++)
                    covariance[a, b] += (double)(Values[i + Rows][a] - Values[i][a]) * (Values[i + Rows][b] - Values[i][b]) / (2.0 * used.Length);
        var whitening = covariance.Cholesky().Factor.Inverse();
        Vector256<float>[] columns = [.. Enumerable.Range(0, Channels).Select(c => Vector256.Create([.. Enumerable.Range(0, Vector256<float>.Count).Select(r => r < Channels ? (float)whitening[r, c] : 0)]))];
        for (var i = 0; i < Values.Length; i++)
        {
            var (raw, turned) = (Values[i], Vector256<float>.Zero);
            for (var c = 0; c < Channels; c++) turned += columns[c] * raw[c];
            Values[i] = turned;
        }
    }
}
