using System.Globalization;

namespace Sandarac.Materials.Solvents;

/// <summary>
/// Two ways to a mixture's place on the Teas triangle, which do not meet. The parts' published fractions were never derived from the Hansen parameters of this table; and fractions are shares of a sum, so a part whose
/// parameters are large weighs more when the parameters are averaged first.
/// </summary>
/// <param name="ByVolume">Published Teas fractions of the parts, averaged by volume.</param>
/// <param name="FromHansen">Hansen parameters of the parts averaged by volume, and fractions derived from the mean.</param>
/// <param name="DerivedByVolume">Fractions derived from each part's Hansen parameters, averaged by volume: between the two.</param>
public sealed record TeasRoutes(TeasFractions ByVolume, TeasFractions FromHansen, TeasFractions DerivedByVolume)
{
    /// <summary>Largest difference that is not remarked on, percentage points. The tables print whole percents, so rounding alone moves a mixture by up to half a point each way; this is twice what it can explain.</summary>
    public const double UnremarkedPoints = 2;

    /// <summary>Largest difference of a fraction between the two ways, percentage points.</summary>
    public double Difference => ByVolume.LargestDifference(FromHansen);

    /// <summary>What to say when the ways differ by more than <see cref="UnremarkedPoints"/>; null when they do not.</summary>
    public string? Note => Difference <= UnremarkedPoints ? null : string.Create(CultureInfo.InvariantCulture,
        $"The two ways to the triangle differ by {Difference:0.0} points: up to {ByVolume.LargestDifference(DerivedByVolume):0.0} because the published Teas fractions of the solvents are not those that their Hansen parameters give, and up to {DerivedByVolume.LargestDifference(FromHansen):0.0} because means of parameters are not means of fractions.");
}
