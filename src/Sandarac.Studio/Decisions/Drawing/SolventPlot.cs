using Sandarac.Materials.Solvents;

namespace Sandarac.Studio.Decisions.Drawing;

/// <summary>What a plot of solvents shows: single solvents, one mixture, regions, and how the mixture drifts as it evaporates.</summary>
/// <param name="Solvents">Single solvents.</param>
/// <param name="Mixture">The mixture; null for none.</param>
/// <param name="Regions">Regions; each plot takes those of its own system.</param>
/// <param name="Drift">Drift of the mixture; null for none.</param>
/// <param name="Target">A place that is sought in one of the systems; null for none.</param>
public sealed record SolventPlot(IReadOnlyList<Solvent> Solvents, Mixture? Mixture = null, IReadOnlyList<SolubilityRegion>? Regions = null, EvaporationDrift? Drift = null, BlendTarget? Target = null);
