using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>A boundary in the frame at full size.</summary>
/// <param name="From">Column of its first place.</param>
/// <param name="Across">Where it lies across the strata, at the middle of each column from there, pixels.</param>
/// <param name="Width">From 10 to 90 % of the step from one layer to the other, pixels; NaN when there is no step to be measured.</param>
internal sealed record Boundary(int From, double[] Across, double Width);

/// <summary>What a person says of a boundary, in the frame at full size.</summary>
/// <param name="Pins">Places that it passes through.</param>
/// <param name="Stretches">Stretches that are drawn, each rising along the strata, the later over the earlier.</param>
internal sealed record HeldBoundary(IReadOnlyList<Point2> Pins, IReadOnlyList<Point2[]> Stretches);
