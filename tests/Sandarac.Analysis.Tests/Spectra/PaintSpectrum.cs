using System.Globalization;
using Sandarac.Analysis.Spectra;

namespace Sandarac.Analysis.Tests.Spectra;

/// <summary>A line that reaches the detector.</summary>
internal sealed record PaintLine(string Element, string Line, double Kev, double Share);

/// <summary>A spectrum of a paint with known elements: lines and scattered continuum from References/Spectra/scenes.csv (Sherman's equation, xraylib), then a detector drawn here: noise, Fano's statistics, escape, tail, pile-up, counting.
/// None of it is the code that is tested.</summary>
internal sealed record PaintSpectrum(string Paint, string Anode, double Kv, IReadOnlyList<PaintLine> Lines)
{
    private const double Noise2PerKev = 8 * 0.6931471805599453 * 0.118 * 3.66;

    public static IReadOnlyList<PaintSpectrum> All { get; } = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Spectra", "scenes.csv")).Skip(1).Select(l => l.Split(','))
        .GroupBy(f => (f[0], f[1], f[2])).Select(g => new PaintSpectrum(g.Key.Item1, g.Key.Item2, Number(g.Key.Item3), [.. g.Select(f => new PaintLine(f[3], f[4], Number(f[5]), Number(f[6])))]))];

    public static PaintSpectrum Named(string paint) => All.Single(p => p.Paint == paint);

    public IEnumerable<string> Elements => Lines.Select(l => l.Element).Where(e => e is not ("tube" or "continuum")).Distinct();

    /// <summary>Expected counts of each channel.</summary>
    public double[] Expected(double total, double fwhmEv, EnergyScale scale, int channels, Func<PaintLine, bool>? which = null)
    {
        var sum = new double[channels];
        foreach (var line in Lines.Where(which ?? (_ => true)))
        {
            var extra = line.Element == "continuum" ? 0.25 / Math.Sqrt(12) : line.Line == "Compton" ? 0.01 * line.Kev : 0;
            Add(sum, scale, line.Kev, total * line.Share, fwhmEv, extra);
            if (line.Element == "continuum" || line.Kev < 1.84) continue;
            Add(sum, scale, line.Kev - 1.74, total * line.Share * 0.015 * Math.Pow(1.84 / line.Kev, 1.3), fwhmEv, 0);
            // Charge lost: a tail of four in a thousand that falls to 1/e in 0.3 keV, and an even shelf of two in a thousand down to nothing.
            for (var k = 0.05; k < 1.8; k += 0.1) Add(sum, scale, line.Kev - k, total * line.Share * 0.004 * Math.Exp(-k / 0.3) * 0.1 / 0.3, fwhmEv, 0);
            for (var k = 0.05; k < line.Kev; k += 0.1) Add(sum, scale, line.Kev - k, total * line.Share * 0.002 * 0.1 / line.Kev, fwhmEv, 0);
        }
        return sum;
    }

    /// <summary>A measured spectrum.</summary>
    public Spectrum Draw(int seed, double total = 1e6, double fwhmEv = 150, EnergyScale? scale = null, bool states = true, double pileUp = 0.001)
    {
        scale ??= new EnergyScale(0, 0.02);
        var channels = 2048;
        var expected = Expected(total, fwhmEv, scale, channels);
        var shift = (int)Math.Round(scale.OffsetKev / scale.KevPerChannel);
        var piled = new double[channels];
        for (var i = 0; i < channels; i++)
            for (var j = 0; j < channels && i + j + shift < channels; j++) if (i + j + shift >= 0) piled[i + j + shift] += pileUp * expected[i] * expected[j] / total;
        var random = new Random(seed);
        return new Spectrum(Paint, [.. expected.Zip(piled, (e, p) => (double)Poisson(random, e + p))], states ? scale : null, null, Kv, []);
    }

    public static long Poisson(Random random, double mean)
    {
        if (mean > 200) return Math.Max(0, (long)Math.Round(mean + Math.Sqrt(mean) * Normal(random)));
        var (limit, product, count) = (Math.Exp(-mean), random.NextDouble(), 0L);
        while (product > limit) (product, count) = (product * random.NextDouble(), count + 1);
        return count;
    }

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static void Add(double[] sum, EnergyScale scale, double kev, double counts, double fwhmEv, double extraKev)
    {
        var noise2 = fwhmEv * fwhmEv - Noise2PerKev * 5895;
        var sigma = Math.Sqrt((noise2 + Noise2PerKev * 1000 * Math.Max(0, kev)) / (8 * 0.6931471805599453) / 1e6 + extraKev * extraKev) / scale.KevPerChannel;
        var at = (kev - scale.OffsetKev) / scale.KevPerChannel;
        for (var c = Math.Max(0, (int)(at - 5 * sigma)); c <= Math.Min(sum.Length - 1, (int)(at + 5 * sigma)); c++)
            sum[c] += counts / (sigma * 2.5066282746310002) * Math.Exp(-0.5 * (c - at) * (c - at) / (sigma * sigma));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
