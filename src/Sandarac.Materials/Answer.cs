namespace Sandarac.Materials;

/// <summary>A computed value, or why there is none. No answer is a value, never a made-up figure.</summary>
/// <typeparam name="T">What is computed.</typeparam>
/// <param name="Value">The value; null when there is none.</param>
/// <param name="NoAnswer">Why there is none, in one sentence; null when there is one.</param>
public sealed record Answer<T>(T? Value, string? NoAnswer) where T : class;
