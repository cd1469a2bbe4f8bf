namespace Sandarac.Materials.Wood;

/// <summary>Moisture that wood takes on in air of a temperature and relative humidity, given time.</summary>
public static class MoistureContent
{
    /// <summary>Temperatures in degrees C for which the equation is used here.</summary>
    public const double LowestTemperature = -2, HighestTemperature = 55;

    /// <summary>Where the equation and its constants come from. Shown beside its results.</summary>
    public const string Source =
        "Hailwood and Horrobin's equation for two hydrates with the constants of the Wood Handbook (USDA Forest Products Laboratory): constants from MEMORY, checked against the handbook's table of equilibrium moisture content as reprinted (READ), within 0.1 per cent of moisture";

    /// <summary>Equilibrium moisture content in per cent of the dry mass (sorption averaged; drying wood holds some more, wetted wood some less: hysteresis).</summary>
    /// <param name="temperature">Degrees C, -2 to 55.</param>
    /// <param name="relativeHumidity">Per cent, 0 to 100.</param>
    /// <exception cref="Imaging.InputProblem">Outside these ("number-out-of-range").</exception>
    public static double Equilibrium(double temperature, double relativeHumidity)
    {
        var (t, h) = (Given.Within(temperature, LowestTemperature, HighestTemperature, "temperature", "degrees C"), Given.Within(relativeHumidity, 0, 100, "relative humidity", "per cent") / 100);
        var w = 349 + 1.29 * t + 0.0135 * t * t;
        var k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
        var k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
        var k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
        return 1800 / w * (k * h / (1 - k * h) + (k1 * k * h + 2 * k1 * k2 * k * k * h * h) / (1 + k1 * k * h + k1 * k2 * k * k * h * h));
    }
}
