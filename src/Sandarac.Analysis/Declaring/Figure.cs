namespace Sandarac.Analysis.Declaring;

/// <summary>A figure with its uncertainty, or with the reason why it has none. Never a bare number.</summary>
/// <param name="Name">The name under which the reading declares it.</param>
/// <param name="Value">The value; null when there is no answer.</param>
/// <param name="Uncertainty">Half-width of the interval of about 95 %, same unit; null when there is none.</param>
/// <param name="Note">Why there is no uncertainty, or no answer; or where it applies ("lower right").</param>
/// <param name="Subject">The input or band it speaks of, when a reading gives the figure several times.</param>
public sealed record Figure(string Name, double? Value, double? Uncertainty, string? Note = null, string? Subject = null);
