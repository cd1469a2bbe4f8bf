namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>How patches are laid at one resolution.</summary>
/// <param name="Unit">Size of a pixel, target units.</param>
/// <param name="Side">Side of a patch, pixels.</param>
/// <param name="Reach">Farthest shift looked at, pixels.</param>
/// <param name="Most">Most patches.</param>
/// <param name="Kind">What is compared.</param>
internal sealed record PatchLevel(double Unit, int Side, int Reach, int Most, StructureKind Kind);
