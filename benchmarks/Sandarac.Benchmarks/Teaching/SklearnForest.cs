using System.Runtime.InteropServices;
using System.Text.Json;
using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Teaching;

/// <summary>A peer's forest.</summary>
/// <param name="Learning">Seconds of the processor to learn.</param>
/// <param name="Judging">Seconds of the processor to judge all pixels.</param>
/// <param name="Nodes">Nodes of all trees.</param>
/// <param name="Depth">Their mean depth.</param>
internal sealed record PeerForest(double Learning, double Judging, int Nodes, double Depth);

/// <summary>scikit-learn's extremely randomised trees under Debian's Python, by <c>peers/sklearn_forest.py</c>. Values lie row by row: all features of a pixel, then those of the next.</summary>
internal static class SklearnForest
{
    private const string Python = "/usr/bin/python3";

    private static readonly string Script = Path.Combine(AppContext.BaseDirectory, "peers", "sklearn_forest.py");

    /// <summary>Null where it is not installed.</summary>
    public static string? Version { get; } = FindVersion();

    /// <summary>What it is, or how to get it.</summary>
    public static string Name => Version is null ? "peer not present: apt-get install python3-sklearn" : $"scikit-learn {Version}, a forest grown by the same rules";

    /// <summary>Learns and judges, one thread, and says how long it took.</summary>
    public static PeerForest Judge(string folder, float[] known, int[] classes, float[] unknown, int features, int trees) =>
        JsonSerializer.Deserialize<PeerForest>(Run("judge", Save(folder, "known.f32", known), Save(folder, "classes.i32", classes), Save(folder, "unknown.f32", unknown), $"{features}", $"{trees}"), JsonSerializerOptions.Web)!;

    /// <summary>Learns with weights and gives each pixel's probability of each class, pixel by pixel.</summary>
    public static float[] Probabilities(string folder, float[] known, int[] classes, float[] weights, float[] unknown, int features, int trees)
    {
        var target = Path.Combine(folder, "probabilities.f32");
        Run("probabilities", Save(folder, "known.f32", known), Save(folder, "classes.i32", classes), Save(folder, "unknown.f32", unknown), $"{features}", $"{trees}", Save(folder, "weights.f32", weights), target);
        return MemoryMarshal.Cast<byte, float>(File.ReadAllBytes(target)).ToArray();
    }

    private static string Save<T>(string folder, string name, T[] values) where T : unmanaged
    {
        var path = Path.Combine(folder, name);
        using var file = File.Create(path);
        file.Write(MemoryMarshal.AsBytes(values.AsSpan()));
        return path;
    }

    private static string Run(params string[] work) => Child.Run(Child.Of(Python, [Script, .. work])).Output;

    private static string? FindVersion()
    {
        if (!File.Exists(Python)) return null;
        try
        {
            return Run("version").Trim();
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }
}
