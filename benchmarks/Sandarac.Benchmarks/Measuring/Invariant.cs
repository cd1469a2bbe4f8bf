using System.Globalization;

namespace Sandarac.Benchmarks.Measuring;

/// <summary>Numbers as programs write them.</summary>
internal static class Invariant
{
    public static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);

    public static int Whole(string text) => int.Parse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);
}
