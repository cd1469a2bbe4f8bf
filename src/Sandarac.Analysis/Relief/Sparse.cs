using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>Some hundred thousand values of a large plane, evenly spread, tell its quantiles.</summary>
internal static class Sparse
{
    private const int Enough = 100_000;

    /// <summary>Known values at a step that shares no factor with the width: no column is preferred.</summary>
    public static IReadOnlyList<double> Values(Plane plane)
    {
        var step = Math.Max(1, plane.Data.Length / Enough);
        while (step > 1 && (int)System.Numerics.BigInteger.GreatestCommonDivisor(step, plane.Width) > 1) step--;
        var values = new List<double>();
        for (var i = 0; i < plane.Data.Length; i += step)
            if (float.IsFinite(plane.Data[i])) values.Add(plane.Data[i]);
        return values;
    }
}
