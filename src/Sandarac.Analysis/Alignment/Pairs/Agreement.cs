namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>
/// How likely chance alone would make so many patches agree: the expected number of such accidents among all places that were tried (number of false
/// alarms; Desolneux, Moisan and Morel, From Gestalt Theory to Image Analysis, Springer 2008; for alignments Moisan and Stival, IJCV 57 (2004) 201).
/// </summary>
internal static class Agreement
{
    /// <summary>Places of a full search; each may agree by accident.</summary>
    public const double PlacesTried = 1e5;

    /// <summary>Decimal logarithm of the number of false alarms: far below 0 when the agreement is no accident.</summary>
    /// <param name="tried">Places that were tried.</param>
    /// <param name="patches">Patches that were looked for and were not used to find the place.</param>
    /// <param name="agreeing">Those found where they should be.</param>
    /// <param name="chance">Probability that a patch lands there by accident.</param>
    public static double Log10FalseAlarms(double tried, int patches, int agreeing, double chance)
    {
        if (patches == 0) return Math.Log10(tried);
        var tail = double.NegativeInfinity;
        for (var k = agreeing; k <= patches; k++) tail = AddLogs(tail, LogBinomial(patches, k, chance));
        return (Math.Log(tried) + tail) / Math.Log(10);
    }

    /// <summary>Probability that a patch whose peak may lie anywhere in the search lands within a distance of the middle.</summary>
    public static double Chance(double distance, int reach) => Math.Min(0.5, Math.PI * distance * distance / ((2 * reach - 1) * (2 * reach - 1)));

    private static double LogBinomial(int n, int k, double p) =>
        MathNet.Numerics.SpecialFunctions.FactorialLn(n) - MathNet.Numerics.SpecialFunctions.FactorialLn(k) - MathNet.Numerics.SpecialFunctions.FactorialLn(n - k)
        + k * Math.Log(p) + (n - k) * Math.Log(1 - p);

    private static double AddLogs(double a, double b) => a < b ? AddLogs(b, a) : double.IsNegativeInfinity(b) ? a : a + Math.Log(1 + Math.Exp(b - a));
}
