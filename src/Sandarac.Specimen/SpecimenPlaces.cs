using Sandarac.Imaging.Geometry;
using Sandarac.Specimen.Ageing;
using Sandarac.Specimen.Scene;
using Sandarac.Specimen.Sections;

namespace Sandarac.Specimen;

/// <summary>
/// Where things lie on the invented painting, as a conservator would mark them: mm on the plane, y down. Outlines are what was meant; what was drawn is frayed about them, and is told by the truth's masks alone.
/// </summary>
public static class SpecimenPlaces
{
    /// <summary>Height of the horizon below the upper edge.</summary>
    public static double Horizon => Motif.Horizon;

    /// <summary>Retouchings that lie on top of all varnish; the first hides a loss in the sunlit cloud.</summary>
    public static IReadOnlyList<Box> RetouchingsOverVarnish { get; } = [.. Retouching.OverVarnish.Select(Around)];

    /// <summary>Retouchings between the two coats of varnish.</summary>
    public static IReadOnlyList<Box> RetouchingsUnderVarnish { get; } = [.. Retouching.UnderVarnish.Select(Around)];

    /// <summary>Where an earlier cleaning took the aged varnish.</summary>
    public static Box CleaningWindow { get; } = Between(Varnish.Window);

    /// <summary>The boat that the painter gave up and covered with sand.</summary>
    public static Box GivenUpSkiff { get; } = Between(DrawnPassages.Skiff);

    /// <summary>The print of a finger.</summary>
    public static Box Fingerprint { get; } = Around((HandTraces.Finger.Centre.X, HandTraces.Finger.Centre.Y, HandTraces.Finger.Rx, HandTraces.Finger.Ry));

    /// <summary>The dark hull of the ferry, from bow to stern.</summary>
    public static IReadOnlyList<Point2> Hull { get; } = [.. FerryShape.Hull.Select(p => new Point2(p.X, p.Y))];

    /// <summary>Samples by their number, and why each was taken.</summary>
    public static IReadOnlyList<(string Number, Point2 At, string Why)> Samples { get; } = [.. SectionSite.All.Select(s => (s.Name, new Point2(s.X, s.Y), s.Why))];

    /// <summary>The box about an oval.</summary>
    private static Box Around((float X, float Y, float Rx, float Ry) oval) => new(oval.X - oval.Rx, oval.Y - oval.Ry, 2 * oval.Rx, 2 * oval.Ry);

    private static Box Between((float Left, float Top, float Right, float Bottom) sides) => new(sides.Left, sides.Top, sides.Right - sides.Left, sides.Bottom - sides.Top);
}
