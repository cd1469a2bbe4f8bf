using Sandarac.Imaging;

namespace Sandarac.Materials.Calculators;

/// <summary>What a percentage counts.</summary>
public enum PercentKind
{
    /// <summary>Grams in 100 mL of the finished solution.</summary>
    WeightInVolume,

    /// <summary>Grams in 100 g of the finished solution.</summary>
    WeightInWeight,

    /// <summary>Millilitres in 100 mL, volumes taken to add.</summary>
    VolumeInVolume,
}

/// <summary>How much to take for a solution.</summary>
/// <param name="Solute">g, or mL for volume in volume.</param>
/// <param name="Solvent">mL to make up to for weight in volume; g to add for weight in weight; mL to add for volume in volume.</param>
public sealed record SolutionRecipe(double Solute, double Solvent);

/// <summary>Stock solutions and dilutions.</summary>
public static class Solutions
{
    /// <summary>What a solution is made of.</summary>
    /// <param name="kind">What the percentage counts.</param>
    /// <param name="percent">Above 0, below 100 but for weight in volume, which may be more.</param>
    /// <param name="amount">Of the finished solution: g for weight in weight, else mL.</param>
    /// <exception cref="InputProblem">A figure cannot be.</exception>
    public static SolutionRecipe Stock(PercentKind kind, double percent, double amount)
    {
        Given.Positive(amount, "amount", kind == PercentKind.WeightInWeight ? "g" : "mL");
        Given.Within(percent, double.Epsilon, kind == PercentKind.WeightInVolume ? 1000 : 100, "concentration", "percent");
        var solute = amount * percent / 100;
        return new(solute, kind == PercentKind.WeightInVolume ? amount : amount - solute);
    }

    /// <summary>How much of a stock to take, and how much solvent to add: C1 V1 = C2 V2, volumes taken to add.</summary>
    /// <param name="stock">Concentration of the stock, in any unit.</param>
    /// <param name="wanted">Concentration that is wanted, in the same unit; not above the stock's.</param>
    /// <param name="volumeMl">Of the finished solution, mL.</param>
    /// <exception cref="InputProblem">A figure cannot be.</exception>
    public static (double StockMl, double SolventMl) Dilution(double stock, double wanted, double volumeMl)
    {
        Given.Positive(stock, "concentration of the stock", "percent, or any unit");
        Given.Within(wanted, double.Epsilon, stock, "wanted concentration", "the stock's unit");
        var taken = wanted / stock * Given.Positive(volumeMl, "volume", "mL");
        return (taken, volumeMl - taken);
    }
}
