using System.Globalization;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Relief;

/// <summary>What NumPy and SciPy gave (References/Relief/SOURCE.md).</summary>
internal static class ReliefWitness
{
    public static Plane Map(string name)
    {
        double[][] rows = [.. Lines(name).Select(l => l.Split(',').Select(Number).ToArray())];
        return new Plane(rows[0].Length, rows.Length, [.. rows.SelectMany(r => r).Select(v => (float)v)]);
    }

    /// <summary>Sa, Sq, Ssk, Sku of a map.</summary>
    public static double[] Parameters(string map) => [.. Lines("parameters").Select(l => l.Split(',')).Single(l => l[0] == map).Skip(1).Select(Number)];

    private static IEnumerable<string> Lines(string name) => File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Relief", name + ".csv"));

    private static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
}
