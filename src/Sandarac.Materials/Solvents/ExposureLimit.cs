namespace Sandarac.Materials.Solvents;

/// <summary>The highest concentrations that one jurisdiction allows in the air of a workplace. Elsewhere, and at other dates, others hold.</summary>
/// <param name="TwaPpm">Mean over a working day, ppm; null when none is given.</param>
/// <param name="StelPpm">Mean over a short time, usually 15 minutes, ppm; null when none is given.</param>
/// <param name="CeilingPpm">Never to be exceeded, ppm; null when none is given.</param>
/// <param name="Skin">Whether the vapour or liquid also enters through the skin in amounts that matter.</param>
public sealed record ExposureLimit(double? TwaPpm, double? StelPpm, double? CeilingPpm, bool Skin)
{
    /// <summary>Whose limits the table has.</summary>
    public const string Jurisdiction = "Ontario, Canada";

    /// <summary>When they held: the files state no date, the program that first read them is of 2016, its list of carcinogens of February 2016.</summary>
    public const string Date = "as collected about 2016; today's may be lower";

    /// <summary>Where the table has them from.</summary>
    public const string Source = "READ: Ontario exposure limits, in the chemicals data files";

    /// <summary>The lowest of the limits, ppm: what a whole day's or a moment's concentration is first compared with.</summary>
    public double LowestPpm => new[] { TwaPpm, CeilingPpm, StelPpm }.OfType<double>().Min();
}
