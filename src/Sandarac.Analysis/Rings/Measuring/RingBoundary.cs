namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>The end of a ring: latewood gives way to the next year's earlywood.</summary>
/// <param name="Along">Where, pixels along the line.</param>
/// <param name="Uncertainty">Half-width of its 95 % interval, pixels: how lanes of the band differ, and what the slopes beside it leave open.</param>
/// <param name="Slope">Its lean: pixels along a pixel across.</param>
/// <param name="Step">How far the picture rises there, as a share of full scale.</param>
/// <param name="Confidence">Share of the band's lanes in which it is seen by itself.</param>
/// <param name="LaneErrors">Mean step of the lanes in its standard errors.</param>
/// <param name="IsSharper">Whether its rise is steeper than the fall before it.</param>
internal sealed record RingBoundary(double Along, double Uncertainty, double Slope, double Step, double Confidence, double LaneErrors, bool IsSharper);
