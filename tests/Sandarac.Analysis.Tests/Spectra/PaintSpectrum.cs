using System.Globalization;
using Sandarac.Analysis.Spectra;

namespace Sandarac.Analysis.Tests.Spectra;

/// <summary>A line that reaches the detector.</summary>
internal sealed record PaintLine(string Element, string Line, double Kev, double Share);

/// <summary>A spectrum of a paint with known elements: lines and scattered continuum from References/Spectra (Sherman's equation, xraylib), then a detector drawn here: noise, Fano's statistics, escape, tail, pile-up, counting.
/// None of it is the code that is tested.</summary>
internal sealed record PaintSpectrum(string Paint, string Anode, double Kv, IReadOnlyList<PaintLine> Lines)
{
    private const double Noise2PerKev = 8 * 0.6931471805599453 * 0.118 * 3.66;

    /// <summary>The paints that the method was made with.</summary>
    public static IReadOnlyList<PaintSpectrum> All { get; } = Read("scenes.csv");

    /// <summary>Others, on grounds, under other tubes, which it was not.</summary>
    public static IReadOnlyList<PaintSpectrum> Fresh { get; } = Read("fresh.csv");

    private static readonly IReadOnlyList<PaintSpectrum> Pure = Read("pure.csv");

    public static PaintSpectrum Named(string paint) => All.Single(p => p.Paint == paint);

    public IEnumerable<string> Elements => Lines.Select(l => l.Element).Where(e => e is not ("tube" or "continuum")).Distinct();

    /// <summary>Elements thrown together, of strengths over two decades, their lines tilted as a matrix of light or of heavy elements would, and what the painting scatters of the tube.</summary>
    public static PaintSpectrum Mixed(Random random, int elements)
    {
        var anode = random.Next(2) == 0 ? "Rh" : "W";
        var (pure, tilt, scattered) = (Pure.Where(p => p.Anode == anode && p.Paint != "scatter").ToArray(), 2 * random.NextDouble() - 1, 0.1 + 0.9 * random.NextDouble());
        random.Shuffle(pure);
        var scenes = pure.Take(elements).Select(p => (Lines: p.Lines, Share: Math.Pow(10, -2 * random.NextDouble()))).ToList();
        List<PaintLine> lines = [.. scenes.SelectMany(s => s.Lines.Select(l => l with { Share = s.Share * l.Share * Math.Pow(l.Kev / s.Lines.MaxBy(m => m.Share)!.Kev, tilt) }))];
        var total = lines.Sum(l => l.Share);
        lines.AddRange(Pure.Single(p => p.Anode == anode && p.Paint == "scatter").Lines.Select(l => l with { Share = l.Share * scattered * total }));
        total = lines.Sum(l => l.Share);
        return new PaintSpectrum(string.Join(' ', pure.Take(elements).Select(p => p.Paint)), anode, pure[0].Kv, [.. lines.Select(l => l with { Share = l.Share / total })]);
    }

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
    public Spectrum Draw(int seed, double total = 1e6, double fwhmEv = 150, EnergyScale? scale = null, bool states = true, double pileUp = 0.001, int channels = 2048)
    {
        scale ??= new EnergyScale(0, 0.02);
        var expected = Expected(total, fwhmEv, scale, channels);
        var shift = (int)Math.Round(scale.OffsetKev / scale.KevPerChannel);
        var piled = new double[channels];
        for (var i = 0; i < channels; i++)
            for (var j = 0; j < channels && i + j + shift < channels; j++) if (i + j + shift >= 0) piled[i + j + shift] += pileUp * expected[i] * expected[j] / total;
        var random = new Random(seed);
        return new Spectrum(Paint, [.. expected.Zip(piled, (e, p) => (double)Poisson(random, e + p))], states ? scale : null, null, Kv, []);
    }

    private static IReadOnlyList<PaintSpectrum> Read(string file) => [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Spectra", file)).Skip(1).Select(l => l.Split(','))
        .GroupBy(f => (f[0], f[1], f[2])).Select(g => new PaintSpectrum(g.Key.Item1, g.Key.Item2, Number(g.Key.Item3), [.. g.Select(f => new PaintLine(f[3], f[4], Number(f[5]), Number(f[6])))]))];

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
