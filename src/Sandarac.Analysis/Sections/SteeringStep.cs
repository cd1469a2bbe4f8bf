using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>What a step of steering asks for.</summary>
public enum SteeringKind
{
    /// <summary>A boundary passes through a place.</summary>
    Click,

    /// <summary>A boundary runs exactly as drawn for a stretch.</summary>
    Stretch,

    /// <summary>The boundary at a place is none.</summary>
    Removal,
}

/// <summary>A step of steering.</summary>
/// <param name="Kind">What it asks for.</param>
/// <param name="Boundary">Steps with the same name are of one boundary, until it is taken out.</param>
/// <param name="Places">Of a stretch its places in the order in which it was drawn, of others the one place; pixels of the micrograph.</param>
/// <param name="Meant">A place near the boundary that is meant.</param>
public sealed record SteeringStep(SteeringKind Kind, string Boundary, IReadOnlyList<Point2> Places, Point2 Meant)
{
    /// <summary>The same with all places in other units.</summary>
    public SteeringStep Scaled(double factor) => this with { Places = [.. Places.Select(p => new Point2(p.X * factor, p.Y * factor))], Meant = new Point2(Meant.X * factor, Meant.Y * factor) };
}
