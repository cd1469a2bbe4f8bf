using System.Globalization;
using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Wood;

/// <summary>How many sapwood rings trees of a region have, as far as its source tells.</summary>
/// <param name="Id">Kebab-case.</param>
/// <param name="Title">Wood and region.</param>
/// <param name="Distribution">Mean and standard deviation of the logarithm, where a lognormal distribution is stated.</param>
/// <param name="Median">Median; null where none is stated.</param>
/// <param name="MiddleHalf">Between the quartiles; null where none is stated.</param>
/// <param name="NinetyFive">What holds 95 in 100 trees; null where none is stated.</param>
/// <param name="Minimum">Fewest rings; null where none is stated.</param>
/// <param name="Maximum">Most rings; null where none is stated.</param>
/// <param name="Flag">READ, CALC, or MEMORY for what was recalled and not verified. Shown beside it.</param>
/// <param name="Source">Where it is known from.</param>
public sealed record SapwoodModel(string Id, string Title, (double LogMean, double LogDeviation)? Distribution, double? Median, (double From, double To)? MiddleHalf, (double From, double To)? NinetyFive, int? Minimum,
    int? Maximum, string Flag, string Source)
{
    /// <summary>All models of the table.</summary>
    public static IReadOnlyList<SapwoodModel> All { get; } = [.. Table.Rows("sapwood.csv").Select(f =>
        new SapwoodModel(f[0], f[1], Pair(f[2], f[3]), Number(f[5]), Pair(f[4], f[6]), Pair(f[7], f[8]), (int?)Number(f[9]), (int?)Number(f[10]), f[11], f[12]))];

    /// <summary>Rings to add at least: the fewest stated, else the lower end of the 95 %, below which 1 tree in 40 lies.</summary>
    public int Least => Minimum ?? (int)Math.Floor(NinetyFive!.Value.From);

    /// <summary>The model of an id; null when there is none.</summary>
    public static SapwoodModel? Find(string id) => All.FirstOrDefault(m => m.Id == id);

    /// <summary>The lognormal density, up to a factor, at a number of rings; 0 at none.</summary>
    internal static double Density((double LogMean, double LogDeviation) of, int rings)
    {
        if (rings <= 0) return 0;
        var z = (Math.Log(rings) - of.LogMean) / of.LogDeviation;
        return Math.Exp(-z * z / 2) / rings;
    }

    private static double? Number(string text) => text.Length == 0 ? null : double.Parse(text, CultureInfo.InvariantCulture);

    private static (double, double)? Pair(string from, string to) => Number(from) is { } f && Number(to) is { } t ? (f, t) : null;
}
