namespace Sandarac.Analysis.Lights;

/// <summary>Where a photograph's lamp stood, as far as its name or its record says.</summary>
/// <param name="Azimuth">Degrees clockwise seen from the front, 0 from the top edge.</param>
/// <param name="Elevation">Degrees above the painting's plane; null when unknown.</param>
public sealed record LampAngles(double Azimuth, double? Elevation)
{
    /// <summary>From what is known: the azimuth, or else the side; null when neither is.</summary>
    /// <param name="azimuth">Degrees.</param>
    /// <param name="side">Compass letters: N, NE, ...</param>
    /// <param name="elevation">Degrees.</param>
    public static LampAngles? Of(double? azimuth, string? side, double? elevation) => (azimuth ?? LampGuess.AzimuthOf(side)) is { } a ? new LampAngles(a, elevation) : null;
}
