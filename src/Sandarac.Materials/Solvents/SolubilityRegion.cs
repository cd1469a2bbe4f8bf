using System.Globalization;
using Sandarac.Imaging;
using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Solvents;

/// <summary>Where solvents lie that dissolve or swell a material, as somebody published or measured it.</summary>
/// <param name="Name">The material and its state: "dammar, fresh".</param>
/// <param name="Source">Who found it, where; begins with READ or MEMORY in the table, and is the citation of a region that a user wrote.</param>
public abstract record SolubilityRegion(string Name, string Source)
{
    private const int LongestName = 120, LongestSource = 2000;

    /// <summary>Those that come with the program; all from memory and to be checked in their source before anything rests on them.</summary>
    public static IReadOnlyList<HansenSphere> All { get; } = [.. Table.Rows("regions.csv").Select(f => new HansenSphere(f[0], new(Interval.Number(f[1]), Interval.Number(f[2]), Interval.Number(f[3])), Interval.Number(f[4]), f[5]))];

    /// <summary>Whether its figures were read or measured; otherwise they are shown as not verified.</summary>
    public bool IsVerified => !Source.StartsWith("MEMORY", StringComparison.Ordinal);

    private protected static void RequireNamed(string name, string source)
    {
        if (string.IsNullOrWhiteSpace(name) || name.Length > LongestName || name.Any(char.IsControl)) throw new InputProblem("region-name", "name", $"A region has a name of at most {LongestName} letters.", "Name the material and its state: \"dammar, fresh\".");
        if (string.IsNullOrWhiteSpace(source) || source.Length > LongestSource) throw new InputProblem("region-source", "source", $"The region \"{name}\" has no source, or one of more than {LongestSource} letters.", "Say who found it and where it can be read, or how it was measured.");
    }
}

/// <summary>A sphere in Hansen's space.</summary>
/// <param name="Name">The material.</param>
/// <param name="Centre">Its parameters, MPa^0.5.</param>
/// <param name="Radius">Interaction radius R0, MPa^0.5.</param>
/// <param name="Source">Where it is from.</param>
public sealed record HansenSphere(string Name, HansenParameters Centre, double Radius, string Source) : SolubilityRegion(Name, Source)
{
    /// <summary>Largest parameter that is believed, MPa^0.5: beyond water's hydrogen bonds of 42.3.</summary>
    private const double Most = 60;

    /// <summary>Relative energy difference: the distance over the radius. Below 1 solvents are expected to dissolve, about 1 to swell, above 1 not.</summary>
    public double Red(HansenParameters solvent) => solvent.DistanceTo(Centre) / Radius;

    /// <summary>A region that a person writes.</summary>
    /// <exception cref="InputProblem">Name or source is missing, a parameter lies outside 0 to 60, or the radius is not above 0.</exception>
    public static HansenSphere Of(string name, HansenParameters centre, double radius, string source)
    {
        RequireNamed(name, source);
        foreach (var (part, value) in new[] { ("dD", centre.Dispersion), ("dP", centre.Polar), ("dH", centre.Hydrogen) }) Given.Within(value, 0, Most, part, "MPa^0.5");
        return new(name.Trim(), centre, Given.Within(radius, 0.1, Most, "radius", "MPa^0.5"), source.Trim());
    }
}

/// <summary>An area on the Teas triangle.</summary>
/// <param name="Name">The material.</param>
/// <param name="Corners">Its corners in order; the last is joined to the first.</param>
/// <param name="Source">Where it is from.</param>
public sealed record TeasArea(string Name, IReadOnlyList<TeasFractions> Corners, string Source) : SolubilityRegion(Name, Source)
{
    private const int MostCorners = 200;

    /// <summary>Whether a point lies in the area: a line from it crosses the outline an odd number of times.</summary>
    public bool Contains(TeasFractions point)
    {
        var inside = false;
        for (int i = 0, j = Corners.Count - 1; i < Corners.Count; j = i++)
        {
            var (a, b) = (Corners[i], Corners[j]);
            if (a.Polar > point.Polar != b.Polar > point.Polar && point.Hydrogen < a.Hydrogen + (b.Hydrogen - a.Hydrogen) * (point.Polar - a.Polar) / (b.Polar - a.Polar)) inside = !inside;
        }
        return inside;
    }

    /// <summary>An area that a person writes.</summary>
    /// <exception cref="InputProblem">Name or source is missing, there are fewer than three corners or more than 200, or they enclose nothing.</exception>
    public static TeasArea Of(string name, IReadOnlyList<TeasFractions> corners, string source)
    {
        RequireNamed(name, source);
        if (corners.Count is < 3 or > MostCorners) throw new InputProblem("region-corners", "corners", $"An area has 3 to {MostCorners} corners, not {corners.Count}.", "Give each corner as fd fp fh.");
        return Enclosed(corners) >= 1 ? new(name.Trim(), corners, source.Trim())
            : throw new InputProblem("region-corners", "corners", "The corners lie on one line: they enclose nothing.", "Give the corners in the order in which the outline passes them.");
    }

    /// <summary>Reads corners, each as "fd fp fh", separated by semicolons.</summary>
    /// <exception cref="InputProblem">A corner is not three numbers that total 100 within 1.</exception>
    public static IReadOnlyList<TeasFractions> ReadCorners(string text) => [.. text.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(Corner)];

    /// <summary>Points of percent squared, in polar and hydrogen fractions.</summary>
    private static double Enclosed(IReadOnlyList<TeasFractions> corners) =>
        Math.Abs(Enumerable.Range(0, corners.Count).Sum(i => corners[i].Polar * corners[(i + 1) % corners.Count].Hydrogen - corners[(i + 1) % corners.Count].Polar * corners[i].Hydrogen)) / 2;

    private static TeasFractions Corner(string text)
    {
        double?[] numbers = [.. text.Split([' ', '/'], StringSplitOptions.RemoveEmptyEntries).Select(t => double.TryParse(t, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) ? v : (double?)null)];
        return numbers is [{ } d, { } p, { } h] ? TeasFractions.Of(d, p, h) : throw new InputProblem("region-corners", "corners", $"\"{text}\" is not a corner.", "Give each corner as three percentages, fd fp fh: \"60 20 20; 50 30 20; 50 20 30\".");
    }
}
