using System.Numerics;
using System.Runtime.InteropServices;

namespace Sandarac.Benchmarks.Measuring;

/// <summary>What the figures were measured on.</summary>
internal static class Machine
{
    public static string Describe() =>
        $"{Processor()}, {Environment.ProcessorCount} cores, {Vector<float>.Count} floats a vector, {RuntimeInformation.FrameworkDescription}, {RuntimeInformation.OSDescription}{Busy()}";

    private static string Processor() => !File.Exists("/proc/cpuinfo")
        ? RuntimeInformation.ProcessArchitecture.ToString()
        : File.ReadLines("/proc/cpuinfo").FirstOrDefault(l => l.StartsWith("model name", StringComparison.Ordinal))?.Split(": ")[^1] ?? "unknown processor";

    /// <summary>Figures taken while others use the machine are worth little; whoever reads them must know.</summary>
    private static string Busy()
    {
        if (!File.Exists("/proc/loadavg")) return "";
        var load = Invariant.Number(File.ReadAllText("/proc/loadavg").Split(' ')[0]);
        return load < 0.5 ? "" : $"\nThe machine is not idle (load {load:0.0}): times are longer than they would be, and ratios less certain.";
    }
}
