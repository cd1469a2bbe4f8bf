using Sandarac.Imaging.Geometry;

namespace Sandarac.Studio;

/// <summary>One photograph's values at a place, as the original file holds them.</summary>
/// <param name="LayerId">The layer that shows it.</param>
/// <param name="Light">Canonical code of the light.</param>
/// <param name="Label">What a person calls it.</param>
/// <param name="Pixel">The pixel of the original under the place: column, row, whole numbers.</param>
/// <param name="Values">The file's own values, one a band.</param>
/// <param name="Bands">Names of the bands.</param>
/// <param name="Unit">Unit of the values.</param>
public sealed record ValuesHere(string LayerId, string? Light, string Label, Point2 Pixel, IReadOnlyList<double> Values, IReadOnlyList<string> Bands, string Unit);

/// <summary>One photograph's values over a zone.</summary>
/// <param name="LayerId">The layer that shows it.</param>
/// <param name="Light">Canonical code of the light.</param>
/// <param name="Label">What a person calls it.</param>
/// <param name="Mean">Mean, one a band.</param>
/// <param name="StandardDeviation">Standard deviation of the pixels, one a band.</param>
/// <param name="Count">Pixels whose centres lie in the zone.</param>
/// <param name="Bands">Names of the bands.</param>
/// <param name="Unit">Unit of the values.</param>
public sealed record ValuesOverZone(string LayerId, string? Light, string Label, IReadOnlyList<double> Mean, IReadOnlyList<double> StandardDeviation,
    long Count, IReadOnlyList<string> Bands, string Unit);

/// <summary>What we know at a place.</summary>
/// <param name="Place">mm on the plane, y down.</param>
/// <param name="FromLeft">mm from the left edge.</param>
/// <param name="FromBottom">mm from the bottom edge.</param>
/// <param name="Values">Values in every aligned photograph and reading whose frame holds the place.</param>
/// <param name="Zones">Zones that hold the place, or pass within a millimetre of it.</param>
public sealed record PlaceKnown(Point2 Place, double FromLeft, double FromBottom, IReadOnlyList<ValuesHere> Values, IReadOnlyList<ZoneFacts> Zones);

/// <summary>What we know over a zone.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Values">Values in every aligned photograph and reading that the zone touches.</param>
public sealed record ZoneKnown(ZoneFacts Zone, IReadOnlyList<ValuesOverZone> Values);

/// <summary>Answers "what do we know here?" from the original files, never from resampled ones.</summary>
public sealed class Here(OpenStudio studio)
{
    /// <summary>At a place. A place maps through the alignment to the pixel that holds it: no interpolation, so the values are the file's own.</summary>
    /// <exception cref="Imaging.InputProblem">There is no such painting.</exception>
    public PlaceKnown At(Guid paintingId, Point2 mm) => throw new NotImplementedException(studio.Folder + paintingId + mm);

    /// <summary>Over a zone: every original pixel whose centre lies in a polygon, or under a line or point.</summary>
    /// <exception cref="Imaging.InputProblem">There is no such zone.</exception>
    public ZoneKnown Over(Guid zoneId) => throw new NotImplementedException(studio.Folder + zoneId);
}
