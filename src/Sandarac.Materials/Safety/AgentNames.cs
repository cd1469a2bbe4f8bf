using Sandarac.Materials.Solvents;

namespace Sandarac.Materials.Safety;

/// <summary>Agents in what people write: "isooctane + ethanol 80:20" names two.</summary>
public static class AgentNames
{
    private static readonly char[] Between = ['+', ',', ';', '/'], Shares = [.. "0123456789.:% "];

    /// <summary>The names in a text: parts between plus signs, commas, semicolons and strokes, without shares behind them; a name of the table stays whole whatever signs it has.</summary>
    public static IReadOnlyList<string> In(string text) => SolventTable.Find(text) is { } whole ? [whole.Name]
        : [.. text.Split(Between, StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(Name).Where(n => n.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase)];

    /// <summary>Names of the table may end in a figure themselves.</summary>
    private static string Name(string part) => SolventTable.Find(part)?.Name ?? (part.TrimEnd(Shares) is { Length: > 0 } name ? SolventTable.Find(name)?.Name ?? name : "");
}
