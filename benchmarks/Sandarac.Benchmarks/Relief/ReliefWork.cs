using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Text.Json;
using Sandarac.Analysis.Relief;
using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging;

namespace Sandarac.Benchmarks.Relief;

/// <summary>Our side of the comparison, in a process of its own: light is read strip by strip, slopes are kept, height follows.</summary>
internal static class ReliefWork
{
    private const int Rows = 32;

    public static readonly Lamp[] Lamps = [.. Enumerable.Range(0, 12).Select(k => Lamp.FromAngles(30 * k, k % 2 == 0 ? 15 : 35))];

    /// <summary>Photographs of waves and a bowl: one 16-bit plane of linear light after another.</summary>
    public static void Draw(string path, int width, int height)
    {
        using var file = File.Create(path);
        foreach (var l in Lamps)
            for (var y = 0; y < height; y++)
            {
                var row = new ushort[width];
                for (var x = 0; x < width; x++)
                {
                    var (right, down) = (0.08f * MathF.Cos(x * 0.05f) + 1e-5f * (x - width / 2f), 0.06f * MathF.Sin(y * 0.07f) + 1e-5f * (y - height / 2f));
                    var shade = (-right * (float)l.X - down * (float)l.Y + (float)l.Z) / (float)l.Z / MathF.Sqrt(1 + right * right + down * down);
                    row[x] = (ushort)(65535 * Math.Clamp(0.5f * shade, 0, 1));
                }
                file.Write(MemoryMarshal.AsBytes<ushort>(row));
            }
    }

    public static string Run(string path, int width, int height, string target)
    {
        var lamps = new LampSet(Lamps, [.. Lamps.Select((_, k) => $"{k}")], true);
        using var file = File.OpenHandle(path);
        var (clock, worked) = (Stopwatch.StartNew(), Environment.CpuUsage.TotalTime);
        var (right, down) = (new Plane(width, height), new Plane(width, height));
        Parallel.For(0, (height + Rows - 1) / Rows, strip =>
        {
            var (top, count) = (strip * Rows, Math.Min(Rows, height - strip * Rows));
            var surface = PhotometricStereo.Solve([.. Lamps.Select((_, k) => Read(file, (long)k * width * height + (long)top * width, width, count))], lamps, 0, top);
            var (r, d) = surface.Slopes();
            r.Data.CopyTo(right.Data, top * width);
            d.Data.CopyTo(down.Data, top * width);
        });
        var normals = clock.Elapsed.TotalSeconds;
        var found = HeightMap.Integrate(right, down, 1)!;
        var (seconds, processor) = (clock.Elapsed.TotalSeconds, (Environment.CpuUsage.TotalTime - worked).TotalSeconds);
        File.WriteAllBytes(target, MemoryMarshal.AsBytes<float>(found.Data).ToArray());
        return JsonSerializer.Serialize(new ReliefAnswer(seconds, processor, normals, Child.PeakOf(Environment.ProcessId)), JsonSerializerOptions.Web);
    }

    /// <summary>Bytes a second that all cores copy between arrays far larger than the caches, read and written counted (after STREAM copy, McCalpin 1995).</summary>
    public static double CopyBandwidth()
    {
        const int part = 1 << 22;
        var (from, to) = (new float[16 * part], new float[16 * part]);
        double Once()
        {
            var clock = Stopwatch.StartNew();
            Parallel.For(0, 16, k => from.AsSpan(k * part, part).CopyTo(to.AsSpan(k * part)));
            return 2.0 * sizeof(float) * from.Length / clock.Elapsed.TotalSeconds;
        }
        Once();
        return Enumerable.Range(0, 5).Max(_ => Once());
    }

    private static Plane Read(Microsoft.Win32.SafeHandles.SafeFileHandle file, long at, int width, int rows)
    {
        var (codes, light) = (new ushort[width * rows], new Plane(width, rows));
        if (RandomAccess.Read(file, MemoryMarshal.AsBytes(codes.AsSpan()), 2 * at) != 2 * codes.Length) throw new EndOfStreamException();
        for (var i = 0; i < codes.Length; i++) light.Data[i] = codes[i] * (1 / 65535f);
        return light;
    }
}

/// <summary>What a side says.</summary>
/// <param name="Seconds">All of it.</param>
/// <param name="Processor">Seconds of the processor.</param>
/// <param name="Normals">The normals' part.</param>
/// <param name="Peak">Peak memory before the result is written, 10^6 bytes.</param>
internal sealed record ReliefAnswer(double Seconds, double Processor, double Normals, double? Peak);
