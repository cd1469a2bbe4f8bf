using System.Diagnostics;

namespace Sandarac.Benchmarks.Measuring;

/// <summary>What a child process did.</summary>
/// <param name="Seconds">From start to end.</param>
/// <param name="PeakMegabytes">Largest resident memory, 10^6 bytes, as the kernel counted it (VmHWM, asked every 10 ms); null where there is no /proc.</param>
/// <param name="Output">What it wrote on standard output.</param>
internal sealed record ChildResult(double Seconds, double? PeakMegabytes, string Output);

/// <summary>Runs programs as processes of their own.</summary>
internal static class Child
{
    /// <summary>Starts this program again for work of <see cref="ChildWork"/>.</summary>
    public static ChildResult Ours(params IEnumerable<string> work) => Run(Own([Own(), "child", .. work]));

    /// <summary>Starts the program that people use.</summary>
    public static ProcessStartInfo Sandarac(params IEnumerable<string> arguments) =>
        Own([Path.Combine(AppContext.BaseDirectory, "sandarac.dll"), .. arguments]);

    /// <summary>A start of a program with these arguments, its output kept.</summary>
    public static ProcessStartInfo Of(string program, params IEnumerable<string> arguments) =>
        new(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false };

    /// <summary>Runs to the end.</summary>
    /// <exception cref="InvalidOperationException">It ended with an error; what it said is in the message.</exception>
    public static ChildResult Run(ProcessStartInfo start)
    {
        var started = Stopwatch.GetTimestamp();
        using var process = Process.Start(start)!;
        var (output, errors) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        double? peak = null;
        while (!process.WaitForExit(10)) peak = PeakOf(process.Id) ?? peak;
        var seconds = Stopwatch.GetElapsedTime(started).TotalSeconds;
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"{start.FileName} {string.Join(' ', start.ArgumentList)} ended with {process.ExitCode}: {errors.Result}");
        return new ChildResult(seconds, peak, output.Result);
    }

    /// <summary>Largest resident memory of a running process so far, 10^6 bytes; null when it has ended or the system does not say.</summary>
    public static double? PeakOf(int process)
    {
        try
        {
            var line = File.ReadLines($"/proc/{process}/status").FirstOrDefault(l => l.StartsWith("VmHWM:", StringComparison.Ordinal));
            return line is null ? null : Invariant.Number(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[^2]) * 1024 / 1e6;
        }
        catch (IOException)
        {
            return null;
        }
    }

    private static string Own() => typeof(Child).Assembly.Location;

    private static ProcessStartInfo Own(IEnumerable<string> arguments) => Of("dotnet", arguments);
}
