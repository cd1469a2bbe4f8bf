using NetTopologySuite.Geometries;

namespace Sandarac.Analysis.Declaring;

/// <summary>A zone that a reading proposes; it stays a candidate until a person accepts it.</summary>
/// <param name="Geometry">Where, in mm on the plane (y down) for readings on the plane, else in pixels.</param>
/// <param name="Kind">What kind of phenomenon, kebab-case.</param>
/// <param name="Confidence">0 to 1.</param>
/// <param name="Reason">Why, in words with figures.</param>
public sealed record Candidate(Geometry Geometry, string Kind, double Confidence, string Reason);
