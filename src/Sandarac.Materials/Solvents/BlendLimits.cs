using System.Globalization;
using Sandarac.Imaging;
using Sandarac.Materials.Safety;

namespace Sandarac.Materials.Solvents;

/// <summary>What a blend may be made of.</summary>
/// <param name="MostParts">At most so many solvents, 1 to 3.</param>
/// <param name="LeastPercent">Least share of each, percent by volume: less cannot be measured out in a test's few millilitres (5 is common practice, no source). 0 to 33.</param>
/// <param name="Exclude">Hazard codes ("H351", "H35" for all that begin so) or kinds of hazard ("carcinogen") that no part may bear.</param>
/// <param name="LeastBoilingC">Lowest boiling point of a part, C; null for any.</param>
/// <param name="MostBoilingC">Highest boiling point of a part, C; null for any.</param>
/// <param name="MostPressureRatio">Evaporation balance: highest vapour pressure at 20 C of a part over the lowest. Parts within a small ratio leave together, so the blend keeps its strength; null for any, and then parts without a vapour pressure are allowed.</param>
/// <param name="StrongFirst">Of two parts the stronger (<see cref="BlendTarget.StrengthOf"/>) is never the less volatile at 20 C. What is left of an ideal blend then never grows stronger while it evaporates: by Chebyshev's inequality for sums, since parts leave in proportion to share times vapour pressure.</param>
/// <param name="Shelf">Names of the solvents to choose from; null for the whole table.</param>
public sealed record BlendLimits(int MostParts = 3, double LeastPercent = 5, IReadOnlyList<string>? Exclude = null, double? LeastBoilingC = null, double? MostBoilingC = null, double? MostPressureRatio = null, bool StrongFirst = false, IReadOnlyList<string>? Shelf = null)
{
    /// <summary>What boils below cannot be measured out as a liquid; the table has ammonia, which is used in water.</summary>
    private const double RoomC = 20;

    /// <summary>Largest number of parts that is searched.</summary>
    public const int Most = 3;

    /// <summary>The solvents that may be used, and why each of the others is left out.</summary>
    /// <exception cref="InputProblem">A limit cannot be, or an excluded hazard is unknown.</exception>
    internal (IReadOnlyList<Solvent> Allowed, IReadOnlyList<(Solvent Solvent, string Reason)> LeftOut) Choose(BlendTarget target)
    {
        Check();
        var shelf = Shelf?.Select(SolventTable.Get).ToHashSet();
        var judged = SolventTable.All.Where(s => shelf is null || shelf.Contains(s)).ToLookup(s => Reason(s, target));
        return ([.. judged[null]], [.. judged.Where(g => g.Key is not null).SelectMany(g => g.Select(s => (s, g.Key!)))]);
    }

    /// <summary>Whether two solvents may stand beside one another.</summary>
    internal bool Allow(Solvent a, Solvent b, BlendTarget target)
    {
        var (more, less) = a.VapourPressureKPa >= b.VapourPressureKPa ? (a, b) : (b, a);
        return !Miscibility.PartInto(a, b) && (MostPressureRatio is not { } most || more.VapourPressureKPa / less.VapourPressureKPa <= most)
            && (!StrongFirst || more.VapourPressureKPa == less.VapourPressureKPa || target.StrengthOf(more) >= target.StrengthOf(less));
    }

    private void Check()
    {
        Given.Within(MostParts, 1, Most, "number of solvents", "solvents");
        Given.Within(LeastPercent, 0, 100.0 / Most, "least share", "percent");
        if (MostPressureRatio is { } ratio) Given.Within(ratio, 1, 1e6, "ratio of vapour pressures", "times");
        foreach (var hazard in Exclude ?? [])
            if (!(hazard.Length > 2 && HazardStatement.All.Any(h => h.Code.StartsWith(hazard, StringComparison.OrdinalIgnoreCase)) || HazardStatement.All.Any(h => h.Class.Equals(hazard, StringComparison.OrdinalIgnoreCase))))
                throw new InputProblem("unknown-hazard", hazard, $"\"{hazard}\" is no hazard that a solvent of the table bears.", $"Give a code such as H351, or one of: {string.Join(", ", HazardStatement.All.Select(h => h.Class).Distinct())}.");
    }

    private string? Reason(Solvent s, BlendTarget target) =>
        target.PlaceOf(s) is null ? "no parameters in this system"
        : s.Boiling is { } boiling && boiling.Value.High < RoomC ? "a gas at room temperature"
        : Exclude?.FirstOrDefault(s.Bears) is { } hazard ? $"bears {hazard}"
        : LeastBoilingC is { } least && !(s.Boiling?.Value.Low >= least) ? string.Create(CultureInfo.InvariantCulture, $"boils below {least:0.#} C, or its boiling point is not known")
        : MostBoilingC is { } most && !(s.Boiling?.Value.High <= most) ? string.Create(CultureInfo.InvariantCulture, $"boils above {most:0.#} C, or its boiling point is not known")
        : (StrongFirst || MostPressureRatio is not null) && s.VapourPressureKPa is null ? "no vapour pressure known" : null;
}
