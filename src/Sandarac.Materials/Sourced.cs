namespace Sandarac.Materials;

/// <summary>A value of a table with where it is known from; both are shown together.</summary>
/// <typeparam name="T">What the value is.</typeparam>
/// <param name="Value">The value.</param>
/// <param name="Source">Begins with READ (read in a source), CALC (computed) or MEMORY (recalled, not verified).</param>
public sealed record Sourced<T>(T Value, string Source)
{
    /// <summary>Whether it was read or computed; otherwise screens say "not verified" where it matters to anyone's health.</summary>
    public bool IsVerified => !Source.StartsWith("MEMORY", StringComparison.Ordinal);
}
