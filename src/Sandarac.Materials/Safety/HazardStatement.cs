using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Safety;

/// <summary>A hazard statement of the GHS, the United Nations' system of classifying and labelling chemicals.</summary>
/// <param name="Code">"H225".</param>
/// <param name="Statement">Its wording.</param>
/// <param name="Class">Our word for the kind of hazard: "flammable", "carcinogen".</param>
/// <param name="Source">Where the wording is known from.</param>
public sealed record HazardStatement(string Code, string Statement, string Class, string Source)
{
    /// <summary>Those that solvents of the table bear.</summary>
    public static IReadOnlyList<HazardStatement> All { get; } = [.. Table.Rows("hazard-statements.csv").Select(f => new HazardStatement(f[0], f[1], f[2], f[3]))];

    /// <summary>The statement with this code; null when the table lacks it.</summary>
    public static HazardStatement? Find(string code) => All.FirstOrDefault(h => h.Code == code);
}
