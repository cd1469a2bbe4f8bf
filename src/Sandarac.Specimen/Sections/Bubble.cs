namespace Sandarac.Specimen.Sections;

/// <summary>An air bubble in the embedding resin.</summary>
/// <param name="X">Its middle along the section, um.</param>
/// <param name="Y">Its middle above the section's base, um.</param>
/// <param name="RadiusUm">Its radius.</param>
internal sealed record Bubble(float X, float Y, float RadiusUm);
