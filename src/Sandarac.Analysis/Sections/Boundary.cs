namespace Sandarac.Analysis.Sections;

/// <summary>A boundary in the frame at full size.</summary>
/// <param name="From">Column of its first place.</param>
/// <param name="Across">Where it lies across the strata, at the middle of each column from there, pixels.</param>
/// <param name="Width">From 10 to 90 % of the step from one layer to the other, pixels; NaN when there is no step to be measured.</param>
internal sealed record Boundary(int From, double[] Across, double Width);
