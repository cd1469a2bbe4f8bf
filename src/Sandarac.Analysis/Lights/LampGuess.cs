using System.Globalization;

namespace Sandarac.Analysis.Lights;

/// <summary>Where the lamp stood, from the words of a name.</summary>
internal sealed record LampGuess(string? Side, double? Azimuth, double? Elevation, IReadOnlyList<string> Reasons, bool Contradicts)
{
    /// <summary>Compass letters clockwise from the top edge, 45 degrees apart.</summary>
    private static readonly string[] Compass = ["N", "NE", "E", "SE", "S", "SW", "W", "NW"];

    private static readonly Dictionary<string, string> Sides = new()
    {
        ["NORTH"] = "N", ["SOUTH"] = "S", ["EAST"] = "E", ["WEST"] = "W",
        ["TOP"] = "N", ["BOTTOM"] = "S", ["RIGHT"] = "E", ["LEFT"] = "W", ["UPPER"] = "N", ["LOWER"] = "S", ["ABOVE"] = "N", ["BELOW"] = "S",
        ["T"] = "N", ["B"] = "S", ["R"] = "E", ["L"] = "W",
        ["TL"] = "NW", ["UL"] = "NW", ["TR"] = "NE", ["UR"] = "NE", ["BL"] = "SW", ["LL"] = "SW", ["BR"] = "SE", ["LR"] = "SE",
    };

    public static LampGuess From(IReadOnlyList<NameSource> sources)
    {
        var reasons = new List<string>();
        var side = FindSide(sources, reasons);
        var azimuth = Angle(sources, ["AZ", "AZIMUTH"], 360, reasons);
        var elevation = Angle(sources, ["EL", "ELEV", "ELEVATION"], 90, reasons) ?? Degrees(sources, reasons);
        var named = azimuth is { } a ? SideOf(a) : null;
        var contradicts = side is not null && azimuth is { } b && Apart(b, 45.0 * Array.IndexOf(Compass, side)) > 45;
        if (contradicts) reasons.Add("which contradict each other");
        return new LampGuess(side ?? named, azimuth, elevation, reasons, contradicts);
    }

    /// <summary>The side nearest to an azimuth.</summary>
    internal static string SideOf(double azimuth) => Compass[(int)Math.Round(azimuth % 360 / 45, MidpointRounding.AwayFromZero) % 8];

    /// <summary>The azimuth of a side, degrees; null for no side.</summary>
    internal static double? AzimuthOf(string? side) => Array.IndexOf(Compass, side) is >= 0 and var i ? 45.0 * i : null;

    /// <summary>Whether a word says something of the lamp.</summary>
    internal static bool Knows(NameToken token) =>
        Compass.Contains(token.Upper) || Sides.ContainsKey(token.Upper) || token.Word is "AZ" or "AZIMUTH" or "EL" or "ELEV" or "ELEVATION" or "DEG";

    private static double Apart(double a, double b) => Math.Abs(((a - b) % 360 + 540) % 360 - 180);

    /// <summary>A compass letter first; else words, of which an upper or lower and a left or right go together.</summary>
    private static string? FindSide(IReadOnlyList<NameSource> sources, List<string> reasons)
    {
        foreach (var source in sources)
        {
            var compass = source.Tokens.FirstOrDefault(t => Compass.Contains(t.Upper));
            var words = compass is not null ? [compass] : source.Tokens.Where(t => Sides.ContainsKey(t.Upper)).ToArray();
            if (words.Length == 0) continue;
            var letters = words.Select(t => Sides.GetValueOrDefault(t.Upper, t.Upper)).Distinct().Order(StringComparer.Ordinal).ToArray();
            // N and S sort before W but after E: the compass names both orders.
            var side = letters.Length == 1 ? letters[0] : Compass.FirstOrDefault(c => c.Length == 2 && letters.Length == 2 && letters.All(l => l.Length == 1 && c.Contains(l, StringComparison.Ordinal)));
            if (side is null) continue;
            reasons.Add($"{string.Join(" and ", words.Select(w => $"\"{w.Text}\""))} {source.Where}");
            return side;
        }
        return null;
    }

    /// <summary>"az315", "az_315", "azimuth 315"; numbers beyond the limit are no angles.</summary>
    private static double? Angle(IReadOnlyList<NameSource> sources, string[] words, double limit, List<string> reasons)
    {
        foreach (var source in sources)
            for (var i = 0; i < source.Tokens.Count; i++)
            {
                var token = source.Tokens[i];
                if (!words.Contains(token.Word)) continue;
                var number = token.Number ?? (i + 1 < source.Tokens.Count && source.Tokens[i + 1].Word.Length == 0 ? source.Tokens[i + 1].Number : null);
                if (number is null || number > limit) continue;
                reasons.Add(string.Create(CultureInfo.InvariantCulture, $"\"{token.Word.ToLowerInvariant()}\" {number} {source.Where}"));
                return number % 360;
            }
        return null;
    }

    /// <summary>"15deg": in a raking photograph's name an angle by itself is the lamp's elevation.</summary>
    private static double? Degrees(IReadOnlyList<NameSource> sources, List<string> reasons)
    {
        foreach (var source in sources)
            for (var i = 1; i < source.Tokens.Count; i++)
                if (source.Tokens[i].Word is "DEG" or "DEGREES" && source.Tokens[i - 1] is { Word.Length: 0, Number: > 0 and <= 90 } number)
                {
                    reasons.Add(string.Create(CultureInfo.InvariantCulture, $"\"{number.Number} deg\" {source.Where}"));
                    return number.Number;
                }
        return null;
    }
}
