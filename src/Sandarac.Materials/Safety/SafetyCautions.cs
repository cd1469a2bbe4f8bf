using System.Globalization;
using Sandarac.Materials.Solvents;

namespace Sandarac.Materials.Safety;

/// <summary>The usual cautions about agents: hazard statements, flash points, limits, and what must not meet.</summary>
public static class SafetyCautions
{
    /// <summary>The line that closes every list.</summary>
    public static Caution Closing { get; } = new("local-rules", "", "Local rules, the current safety data sheet and a licensed professional decide. What is not listed here is not therefore harmless.", "");

    /// <summary>Cautions for agents that are used together, or one after another, or that share a waste bottle.</summary>
    /// <param name="agents">Names of solvents of the table, or of anything else: acids, bleaches, gels are known by words in their names.</param>
    /// <returns>First what must not meet, then agent by agent, the closing line last.</returns>
    public static IReadOnlyList<Caution> For(IEnumerable<string> agents)
    {
        var all = agents.Select(a => a.Trim()).Where(a => a.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase).ToList();
        return [.. all.SelectMany((a, i) => all.Skip(i + 1).SelectMany(b => Meeting(a, b))), .. all.SelectMany(Of), Closing];
    }

    /// <summary>Cautions for a mixture's solvents.</summary>
    public static IReadOnlyList<Caution> For(Mixture mixture) => For(mixture.Parts.Select(p => p.Solvent.Name));

    private static IEnumerable<Caution> Meeting(string a, string b) => Incompatibility.Between(a, b).Select(i => new Caution("incompatible", $"{a} and {b}", i.Danger, i.Source));

    private static IEnumerable<Caution> Of(string agent) => SolventTable.Find(agent) is { } solvent ? Of(solvent) : [new("unknown-agent", agent, "Not in the table of solvents: its hazards are not listed here.", "")];

    private static IEnumerable<Caution> Of(Solvent s)
    {
        foreach (var code in s.HazardCodes) yield return new("hazard", s.Name, $"{code}: {HazardStatement.Find(code)!.Statement}.", Solvent.HazardSource);
        if (s.OtherHazard.Length > 0) yield return new("hazard", s.Name, $"In the table: {s.OtherHazard}.", Solvent.HazardSource);
        if (s.Flash is { } flash) yield return new("flash-point", s.Name, $"Flash point {flash.Value} C.", flash.Source);
        yield return Limit(s);
        if (s.Caution.Length > 0) yield return new("row", s.Name, s.Caution, "");
    }

    private static Caution Limit(Solvent s) =>
        s.Limit is { } limit ? new("limit", s.Name, $"Limit in the air of a workplace: {Words(limit)} ({ExposureLimit.Jurisdiction}; {ExposureLimit.Date}).", ExposureLimit.Source)
        : s.OtherLimits.Length > 0 ? new("limit", s.Name, $"Limit in the air of a workplace, in words: {s.OtherLimits}.", "MEMORY: not verified")
        : new("limit", s.Name, "The table has no limit in the air of a workplace; that is not to say that there is none.", "");

    /// <summary>"day's mean 500 ppm, short-term mean 750 ppm".</summary>
    public static string Words(ExposureLimit limit) => string.Join(", ", new[]
    {
        Part("day's mean", limit.TwaPpm), Part("short-term mean", limit.StelPpm), Part("never above", limit.CeilingPpm), limit.Skin ? "also through the skin" : null,
    }.OfType<string>());

    private static string? Part(string what, double? ppm) => ppm is { } value ? string.Create(CultureInfo.InvariantCulture, $"{what} {value:0.##} ppm") : null;
}
