using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>A boundary in the frame at full size.</summary>
/// <param name="From">Column of its first place.</param>
/// <param name="Across">Where it lies across the strata, at the middle of each column from there, pixels.</param>
/// <param name="Width">From 10 to 90 % of the step from one layer to the other, pixels; NaN when there is no step to be measured.</param>
/// <param name="Chance">Pixels by which grains and noise may displace it, one standard deviation.</param>
internal sealed record Boundary(int From, double[] Across, double Width, double Chance)
{
    /// <summary>Share of a step's width within which its place is a matter of what is called its place; never less than the least offset, pixels.</summary>
    private const double OfStep = 0.25, LeastOffset = 0.5;

    /// <summary>Half-width of the 95 % interval of its mean place, pixels; infinite when no step was measured.</summary>
    public double Offset => double.IsNaN(Width) ? double.PositiveInfinity : Math.Max(LeastOffset, Math.Sqrt(OfStep * OfStep * Width * Width + 1.96 * 1.96 * Chance * Chance));
}

/// <summary>What a person says of a boundary, in the frame at full size.</summary>
/// <param name="Pins">Places that it passes through.</param>
/// <param name="Stretches">Stretches that are drawn, each rising along the strata, the later over the earlier.</param>
internal sealed record HeldBoundary(IReadOnlyList<Point2> Pins, IReadOnlyList<Point2[]> Stretches);
