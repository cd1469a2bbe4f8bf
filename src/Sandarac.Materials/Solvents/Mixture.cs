using System.Globalization;
using Sandarac.Imaging;

namespace Sandarac.Materials.Solvents;

/// <summary>A solvent in a mixture.</summary>
/// <param name="Solvent">Which.</param>
/// <param name="Fraction">Its share by volume before mixing, 0 to 1.</param>
public sealed record MixturePart(Solvent Solvent, double Fraction);

/// <summary>
/// A mixture by volume. Its parameters are means of the parts' weighted by volume, in each system by itself: the rule of Teas (1968) and of Hansen. What happens to volumes on mixing, and how parts act on one another, is left out.
/// </summary>
public sealed class Mixture
{
    /// <summary>Percentages are often written to whole numbers: their sum may miss 100 by this much, and is then made 100.</summary>
    private const double SumTolerance = 0.5;

    internal Mixture(IReadOnlyList<MixturePart> parts) => Parts = parts;

    /// <summary>The parts as they were given; fractions total 1.</summary>
    public IReadOnlyList<MixturePart> Parts { get; }

    /// <summary>Teas fractions, from the parts' published ones.</summary>
    public Answer<TeasFractions> Teas => Lacking(s => s.Teas is null) is { } names ? new(null, $"The table has no Teas fractions of {names}.")
        : new(new(Mean(s => s.Teas!.Value.Dispersion), Mean(s => s.Teas!.Value.Polar), Mean(s => s.Teas!.Value.Hydrogen)), null);

    /// <summary>Hansen parameters, MPa^0.5.</summary>
    public Answer<HansenParameters> Hansen => Lacking(s => s.Hansen is null) is { } names ? new(null, $"The table has no Hansen parameters of {names}.")
        : new(new(Mean(s => s.Hansen!.Value.Dispersion), Mean(s => s.Hansen!.Value.Polar), Mean(s => s.Hansen!.Value.Hydrogen)), null);

    /// <summary>How far Teas fractions by volume lie from those derived from the mixture's Hansen parameters; null where one of the two is not known.</summary>
    public TeasRoutes? Routes => Teas.Value is { } teas && Hansen.Value is { } hansen
        ? new(teas, hansen.Teas, new(Mean(s => s.Hansen!.Value.Teas.Dispersion), Mean(s => s.Hansen!.Value.Teas.Polar), Mean(s => s.Hansen!.Value.Teas.Hydrogen))) : null;

    /// <summary>"ethanol 20 + isooctane 80", percent by volume to a tenth.</summary>
    public string Text => string.Join(" + ", Parts.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Solvent.Name} {100 * p.Fraction:0.#}")));

    /// <summary>A mixture of solvents in percent by volume.</summary>
    /// <exception cref="InputProblem">There is none, one stands twice, a percentage is 0 or less or no number, or they do not total 100 within 0.5.</exception>
    public static Mixture Of(IEnumerable<(Solvent Solvent, double Percent)> parts)
    {
        var given = parts.ToList();
        if (given.Count == 0) throw new InputProblem("mixture-empty", "mixture", "The mixture has no parts.", "Give solvents with percent by volume: \"ethanol 20 + isooctane 80\".");
        if (given.GroupBy(p => p.Solvent.Name).FirstOrDefault(g => g.Count() > 1) is { } twice)
            throw new InputProblem("mixture-duplicate", twice.First().Solvent.Name, $"{twice.First().Solvent.Name} stands more than once in the mixture.", "Give each solvent once, with its whole share.");
        foreach (var (solvent, percent) in given) Given.Within(percent, double.Epsilon, 100 + SumTolerance, solvent.Name, "percent by volume");
        var sum = given.Sum(p => p.Percent);
        return Math.Abs(sum - 100) <= SumTolerance ? new([.. given.Select(p => new MixturePart(p.Solvent, p.Percent / sum))])
            : throw new InputProblem("mixture-sum", "mixture", string.Create(CultureInfo.InvariantCulture, $"The parts total {sum:0.##} %, not 100."), "Correct the percentages: they total 100 within 0.5.");
    }

    /// <summary>Reads "ethanol 20 + isooctane 80"; a solvent by itself needs no percentage.</summary>
    /// <exception cref="InputProblem">A solvent is unknown, a percentage is missing or no number, or <see cref="Of"/> refuses them.</exception>
    public static Mixture Parse(string text)
    {
        var parts = WrittenPart.In(text);
        return Of(parts.Select(p => (SolventTable.Get(p.Name), p.Percent ?? (parts.Count == 1 ? 100 : throw NoPercentage(p.Name)))));
    }

    internal double Mean(Func<Solvent, double> value) => Parts.Sum(p => p.Fraction * value(p.Solvent));

    /// <summary>Names of the parts that lack something; null when none does.</summary>
    internal string? Lacking(Func<Solvent, bool> lacks) => Parts.Where(p => lacks(p.Solvent)).Select(p => p.Solvent.Name).ToList() is { Count: > 0 } names ? string.Join(" and ", names) : null;

    private static InputProblem NoPercentage(string name) => new("mixture-percent", name, $"\"{name}\" has no percentage.", "Write a name, a space and percent by volume: \"ethanol 20 + isooctane 80\".");
}
