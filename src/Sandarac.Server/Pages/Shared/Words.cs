using System.Globalization;
using Sandarac.Analysis.Lights;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Pages.Shared;

/// <summary>Numbers and choices as a person reads them.</summary>
internal static class Words
{
    private static readonly string[] Sides = ["top", "upper right", "right", "lower right", "bottom", "lower left", "left", "upper left"];

    /// <summary>"412 × 518 mm": height first, as the trade writes it.</summary>
    public static string Size(double heightMm, double widthMm) => heightMm > 0 && widthMm > 0
        ? string.Create(CultureInfo.InvariantCulture, $"{heightMm:0.#} × {widthMm:0.#} mm")
        : "size not known";

    /// <summary>"1 photograph", "18 photographs".</summary>
    public static string Count(int n, string one, string? many = null) =>
        string.Create(CultureInfo.InvariantCulture, $"{n} {(n == 1 ? one : many ?? one + "s")}");

    /// <summary>A value rounded where its uncertainty begins: two places of the uncertainty, or four significant figures without one.</summary>
    public static (string Value, string? Uncertainty) Rounded(double value, double? uncertainty)
    {
        if (uncertainty is not > 0) return (Minus(Significant(value, 4)), null);
        var places = Math.Clamp(1 - (int)Math.Floor(Math.Log10(uncertainty.Value)), 0, 12);
        return (Minus(Fixed(value, places)), Fixed(uncertainty.Value, places));
    }

    /// <summary>So many significant figures, without an exponent where people would not write one.</summary>
    public static string Significant(double value, int figures)
    {
        if (value == 0) return "0";
        var magnitude = (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return magnitude is < -5 or > 9
            ? value.ToString($"0.{new string('#', figures - 1)}e+0", CultureInfo.InvariantCulture)
            : value.ToString($"0.{new string('#', Math.Max(0, figures - 1 - magnitude))}", CultureInfo.InvariantCulture);
    }

    /// <summary>"lamp from the upper left, 15°"; null when nothing is known of the lamp.</summary>
    public static string? Lamp(string? side, double? azimuthDeg, double? elevationDeg)
    {
        var from = azimuthDeg is { } azimuth ? Sides[(int)Math.Round(((azimuth % 360 + 360) % 360) / 45, MidpointRounding.AwayFromZero) % 8] : OfCompass(side);
        if (from is null) return null;
        var angles = (azimuthDeg, elevationDeg) switch
        {
            ({ } a, { } e) => string.Create(CultureInfo.InvariantCulture, $" ({a:0.#}° round, {e:0.#}° up)"),
            (null, { } e) => string.Create(CultureInfo.InvariantCulture, $" ({e:0.#}° up)"),
            _ => "",
        };
        return $"lamp from the {from}{angles}";
    }

    /// <summary>How sure a guess is.</summary>
    public static string Sure(Confidence confidence) => confidence switch
    {
        Confidence.Certain => "sure",
        Confidence.Probable => "likely",
        _ => "a guess",
    };

    /// <summary>"raking light"; the code alone for a light this version does not know.</summary>
    public static string LightName(string? code) => code is null ? "light not known" : Light.Find(code)?.Name ?? code;

    /// <summary>"aligned by its corners, found".</summary>
    public static string Method(string method) => method switch
    {
        "corners-found" => "by its corners, found",
        "corners-by-hand" => "by its corners, set by hand",
        "whole-frame" => "the whole frame is taken as the painted face",
        "none" => "",
        _ => method,
    };

    /// <summary>What a run's state is called.</summary>
    public static string State(RunState state) => state switch
    {
        RunState.Queued => "waiting",
        RunState.Running => "running",
        RunState.Done => "done",
        RunState.NoAnswer => "no answer",
        RunState.Cancelled => "cancelled, nothing kept",
        RunState.Failed => "failed, nothing kept",
        _ => "interrupted, nothing kept",
    };

    /// <summary>"2026-05-04 14:03", in this machine's time.</summary>
    public static string Time(DateTime utc) => utc.ToLocalTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>"45.2 MB".</summary>
    public static string Bytes(long bytes) => bytes >= 1_000_000
        ? string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0.0} MB")
        : string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e3:0} kB");

    /// <summary>With the sign as it is printed, as wide as a figure, instead of a hyphen.</summary>
    private static string Minus(string number) => number.Replace('-', '\u2212');

    private static string Fixed(double value, int places) => value.ToString("F" + places.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static string? OfCompass(string? side) => side switch
    {
        "N" => "top", "NE" => "upper right", "E" => "right", "SE" => "lower right",
        "S" => "bottom", "SW" => "lower left", "W" => "left", "NW" => "upper left",
        _ => null,
    };
}
