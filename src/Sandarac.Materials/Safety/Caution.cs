namespace Sandarac.Materials.Safety;

/// <summary>A caution about agents, with where it is known from.</summary>
/// <param name="Code">Stable: "hazard", "flash-point", "limit", "incompatible", "row", "unknown-agent", "local-rules".</param>
/// <param name="Subject">The agent or agents; empty for what holds for all.</param>
/// <param name="Text">What to know.</param>
/// <param name="Source">Begins with READ, CALC or MEMORY; empty for the program's own words.</param>
public sealed record Caution(string Code, string Subject, string Text, string Source)
{
    /// <summary>Whether it was recalled and not verified.</summary>
    public bool IsUnverified => Source.StartsWith("MEMORY", StringComparison.Ordinal);
}
