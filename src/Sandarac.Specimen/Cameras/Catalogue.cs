namespace Sandarac.Specimen.Cameras;

/// <summary>The photographs of a session: their names, and how they are taken.</summary>
internal static class Catalogue
{
    /// <summary>Raking lamps: side, azimuth in degrees.</summary>
    public static readonly (string Side, int Azimuth)[] Raking =
        [("N", 0), ("NE", 45), ("E", 90), ("SE", 135), ("S", 180), ("SW", 225), ("W", 270), ("NW", 315)];

    public const int RakingElevation = 15;

    public static IReadOnlyList<string> FileNames { get; } =
    [
        "VIS_01.tif", "VIS_chart.tif", "VIS_flat.tif", .. Raking.SelectMany(r =>
            new[] { RakingName(r) + ".tif", RakingName(r) + "_flat.tif" }),
        "UVL_01.tif", "UVL_flat.tif", "IR_01.tif", "IR_flat.tif", "XR_plate1.tif", "XR_plate2.tif", "XR_plate3.tif", "XR_plate4.tif",
        "XSEC_S1_VIS.tif", "XSEC_S1_UV.tif", "XSEC_S2_VIS.tif", "XSEC_S2_UV.tif",
    ];

    public static string RakingName((string Side, int Azimuth) r) => $"RAK_{r.Side}_az{r.Azimuth:000}_el{RakingElevation}";
}
