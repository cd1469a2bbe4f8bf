namespace Sandarac.Imaging;

/// <summary>The third kind of error: the result stands, but whoever uses it must know this. Stored with the result and printed in every
/// document that uses it.</summary>
/// <param name="Code">Stable, kebab-case: <c>no-icc-profile</c>.</param>
/// <param name="Message">One plain sentence.</param>
public sealed record Warning(string Code, string Message);
