using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Pigments;

/// <summary>How a pigment usually looks in each light. All of it holds for paint of the one pigment that hides what is beneath.</summary>
/// <param name="Pigment">Name.</param>
/// <param name="NearInfrared">750 to 1000 nm, in words.</param>
/// <param name="ShortwaveInfrared">1000 to 1700 nm, in words.</param>
/// <param name="FalseColour">Infrared false colour, in words.</param>
/// <param name="XrayOpacity">0 transparent to 5 opaque; a range or a note in some rows.</param>
/// <param name="Luminescence">Under 365 nm, in words.</param>
/// <param name="Source">Where this is known from: READ with the source, or MEMORY for what was recalled and not verified. Shown beside it.</param>
/// <param name="VisibleColour">Usual colour; from memory in every row.</param>
public sealed record PigmentAppearance(string Pigment, string NearInfrared, string ShortwaveInfrared, string FalseColour, string XrayOpacity, string Luminescence, string Source, string VisibleColour)
{
    /// <summary>All pigments of the table.</summary>
    public static IReadOnlyList<PigmentAppearance> All { get; } = [.. Table.Rows("pigment-imaging.csv").Select(f => new PigmentAppearance(f[0], f[1], f[2], f[3], f[4], f[5], f[6], f[7]))];

    /// <summary>Whether any of it was read in a source.</summary>
    public bool IsRead => Source.Contains("READ", StringComparison.Ordinal);
}
