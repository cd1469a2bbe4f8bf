using System.Globalization;
using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Wood;

/// <summary>How long wood was stored between felling and use.</summary>
/// <param name="Id">Kebab-case.</param>
/// <param name="Title">Wood and time.</param>
/// <param name="Least">Fewest years.</param>
/// <param name="Most">Most years.</param>
/// <param name="Flag">READ, or MEMORY for what was recalled and not verified. Shown beside it.</param>
/// <param name="Source">Where it is known from.</param>
public sealed record Seasoning(string Id, string Title, int Least, int Most, string Flag, string Source)
{
    /// <summary>All rows of the table.</summary>
    public static IReadOnlyList<Seasoning> All { get; } =
        [.. Table.Rows("seasoning.csv").Select(f => new Seasoning(f[0], f[1], int.Parse(f[2], CultureInfo.InvariantCulture), int.Parse(f[3], CultureInfo.InvariantCulture), f[4], f[5]))];

    /// <summary>The row of an id; null when there is none.</summary>
    public static Seasoning? Find(string id) => All.FirstOrDefault(s => s.Id == id);
}
