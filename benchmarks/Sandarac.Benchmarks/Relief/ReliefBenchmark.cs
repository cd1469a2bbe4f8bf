using System.Runtime.InteropServices;
using System.Text.Json;
using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Relief;

/// <summary>Normals and height from twelve lamps and 24 million pixels, beside NumPy and SciPy doing the same.</summary>
internal sealed class ReliefBenchmark : Benchmark
{
    private const string Python = "/usr/bin/python3";

    /// <summary>Bytes a pixel that must go to and from memory: light 24, slopes 8 written; source 8 + 4; reordered 8, rows and columns there 16, division 8, back 16, reordered 8.</summary>
    private const double BytesPerPixel = 24 + 8 + 12 + 8 + 16 + 8 + 16 + 8;

    private static readonly string Script = Path.Combine(AppContext.BaseDirectory, "peers", "numpy_relief.py");

    public override string Name => "relief";

    public override string Summary => "normals and height from twelve photographs in raking light beside NumPy and SciPy";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var (width, height) = settings.Quick ? (1500, 1000) : (6000, 4000);
        string[] files = [.. ((string[])["light.u16", "ours.f32", "theirs.f32"]).Select(f => Path.Combine(settings.Folder, f))];
        Say("drawing the photographs");
        ReliefWork.Draw(files[0], width, height);
        var bandwidth = ReliefWork.CopyBandwidth();
        var has = File.Exists(Python);
        string[] lamps = [.. ReliefWork.Lamps.Select(l => $"{l.Azimuth:R},{l.Elevation:R}")];
        var (ours, theirs) = Rounds.Alternate(1, () => Parsed(Child.Ours("relief", files[0], $"{width}", $"{height}", files[1]).Output),
            () => has ? Parsed(Child.Run(Child.Of(Python, [Script, "solve", files[0], $"{width}", $"{height}", files[2], .. lamps])).Output) : null);
        var seconds = Rounds.Median(ours.Select(o => o!.Seconds));
        yield return new Figure($"normals and height, 12 lamps, {width} x {height}", "s", seconds)
        {
            Peer = has ? Rounds.Median(theirs.Select(t => t!.Seconds)) : null, PeerName = has ? Child.Run(Child.Of(Python, [Script, "version"])).Output.Trim() : "python3 not present", Limit = new Limit(1 / 6.0, true),
            Note = $"normals {Rounds.Median(ours.Select(o => o!.Normals)):0.0} s; {BytesPerPixel * width * height / seconds / 1e9:0.0} GB/s of {bandwidth / 1e9:0.0} GB/s that a copy reaches: {100 * BytesPerPixel * width * height / seconds / bandwidth:0} %",
        };
        yield return new Figure("the same, seconds of the processor", "s", Rounds.Median(ours.Select(o => o!.Processor))) { Peer = has ? Rounds.Median(theirs.Select(t => t!.Processor)) : null };
        yield return new Figure("peak memory", "MB", ours.Max(o => o!.Peak)) { Limit = new Limit(3000, false) };
        if (has) yield return new Figure("height, root mean square difference to the peer's, of its range", "1e-6", 1e6 * Difference(files[1], files[2]));
    }

    private static ReliefAnswer? Parsed(string output) => JsonSerializer.Deserialize<ReliefAnswer>(output, JsonSerializerOptions.Web);

    private static double Difference(string ours, string theirs)
    {
        var x = MemoryMarshal.Cast<byte, float>(File.ReadAllBytes(ours));
        var y = MemoryMarshal.Cast<byte, float>(File.ReadAllBytes(theirs));
        var (sum, low, high) = (0.0, double.PositiveInfinity, double.NegativeInfinity);
        for (var i = 0; i < x.Length; i++) (sum, low, high) = (sum + Math.Pow(x[i] - y[i], 2), Math.Min(low, y[i]), Math.Max(high, y[i]));
        return Math.Sqrt(sum / x.Length) / (high - low);
    }
}
