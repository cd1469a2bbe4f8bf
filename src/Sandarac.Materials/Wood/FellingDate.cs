using Sandarac.Imaging;

namespace Sandarac.Materials.Wood;

/// <summary>What of the outer wood is there.</summary>
public enum OuterWood
{
    /// <summary>Heartwood alone, and no sign of where it ended: any number of rings may be gone.</summary>
    HeartwoodOnly,

    /// <summary>Sapwood rings, or the boundary where they began, but not the last ring of the tree.</summary>
    Sapwood,

    /// <summary>The last ring that the tree grew, beneath the bark.</summary>
    WaneyEdge,
}

/// <summary>The years from one to another, both included.</summary>
/// <param name="From">First.</param>
/// <param name="To">Last.</param>
/// <param name="Holds">Which share of trees the interval holds, by the model.</param>
public readonly record struct Years(int From, int To, double Holds);

/// <summary>When a tree was felled, as far as the last ring and a sapwood model tell.</summary>
/// <param name="Model">The model; null where the waney edge makes it needless.</param>
/// <param name="Earliest">Earliest year.</param>
/// <param name="Likely">Interval; null where the model gives none that lies after the last ring.</param>
/// <param name="Median">Median; null where the model has none, or where more sapwood is there.</param>
/// <param name="IsEarliestOnly">Whether wood is gone of which nobody knows how much: all years are then the earliest possible ones, "or later".</param>
/// <param name="Basis">On what it rests, in a sentence.</param>
public sealed record FellingDate(SapwoodModel? Model, int Earliest, Years? Likely, int? Median, bool IsEarliestOnly, string Basis)
{
    /// <summary>Most sapwood rings that are counted.</summary>
    public const int MostSapwood = 200;

    /// <summary>Adds the sapwood that is missing.</summary>
    /// <param name="lastRing">Year of the last ring that was measured.</param>
    /// <param name="outer">What of the outer wood is there.</param>
    /// <param name="sapwoodRings">How many of the measured rings are sapwood, 0 to 200.</param>
    /// <param name="model">Sapwood of the region.</param>
    /// <param name="holds">Share that an interval from a distribution is to hold, 0.5 to 0.999.</param>
    /// <exception cref="InputProblem">Rings or share outside these ("number-out-of-range"); sapwood rings where only heartwood is said to be ("sapwood-contradicted").</exception>
    public static FellingDate Of(int lastRing, OuterWood outer, int sapwoodRings, SapwoodModel model, double holds = 0.95)
    {
        Given.Within(sapwoodRings, 0, MostSapwood, "sapwood rings", "rings");
        Given.Within(holds, 0.5, 0.999, "share of trees", "1");
        if (outer == OuterWood.HeartwoodOnly && sapwoodRings > 0)
            throw new InputProblem("sapwood-contradicted", "sapwood rings", $"{sapwoodRings} sapwood rings cannot be there where only heartwood is.", "State that there is sapwood, or no sapwood rings.");
        if (outer == OuterWood.WaneyEdge) return new FellingDate(null, lastRing, new Years(lastRing, lastRing, 1), lastRing, false, "The last ring beneath the bark is there: felled after it grew, before the next one was measurable.");
        var heartwood = lastRing - sapwoodRings;
        return new FellingDate(model, Math.Max(lastRing, heartwood + model.Least), Interval(model, heartwood, lastRing, holds), Later(heartwood + (int?)model.Median, lastRing), outer == OuterWood.HeartwoodOnly,
            outer == OuterWood.HeartwoodOnly
                ? "Heartwood alone: counted as though the last ring were the last of the heartwood. How many rings were cut away nobody knows, so the tree was felled in these years or later."
                : $"{sapwoodRings} sapwood {(sapwoodRings == 1 ? "ring is" : "rings are")} there; the rest is added after the model.");
    }

    private static Years? Interval(SapwoodModel model, int heartwood, int lastRing, double holds)
    {
        if (model.Distribution is { } distribution) return HighestDensity(distribution, heartwood, lastRing, holds);
        var (range, share) = model.MiddleHalf is { } half ? (half, 0.5) : (model.NinetyFive!.Value, 0.95);
        var (from, to) = (heartwood + (int)Math.Floor(range.From), heartwood + (int)Math.Ceiling(range.To));
        return to < lastRing ? null : new Years(Math.Max(from, lastRing), to, share);
    }

    /// <summary>The fewest years that hold the share, given that so many sapwood rings are there (densities at whole numbers of rings, made to sum to 1 over what is still possible: Millard, Archaeometry 44 (2002) 137, from memory).</summary>
    private static Years HighestDensity((double, double) distribution, int heartwood, int lastRing, double holds)
    {
        var years = Chances(distribution, lastRing - heartwood).Select((p, i) => (Year: lastRing + i, Chance: p)).OrderByDescending(y => y.Chance).ToList();
        var (sum, count) = (0.0, 0);
        while (sum < holds) sum += years[count++].Chance;
        // The density has one peak, so that what is taken lies side by side.
        return new Years(years.Take(count).Min(y => y.Year), years.Take(count).Max(y => y.Year), sum);
    }

    /// <summary>Chance of each number of sapwood rings from those that are there upward.</summary>
    internal static double[] Chances((double, double) distribution, int sapwoodRings)
    {
        double[] density = [.. Enumerable.Range(sapwoodRings, 10 * MostSapwood).Select(n => SapwoodModel.Density(distribution, n))];
        var sum = density.Sum();
        return [.. density.Select(d => d / sum)];
    }

    private static int? Later(int? year, int lastRing) => year >= lastRing ? year : null;
}

/// <summary>When a board may have been painted on: the felling and the years of storing, as ranges.</summary>
/// <param name="Felling">The felling.</param>
/// <param name="Seasoning">The years of storing.</param>
public sealed record UseDate(FellingDate Felling, Seasoning Seasoning)
{
    /// <summary>Earliest year.</summary>
    public int Earliest => Felling.Earliest + Seasoning.Least;

    /// <summary>From the earliest of the likely felling with the shortest storing to the latest with the longest; null where no felling is likely.</summary>
    public (int From, int To)? Likely => Felling.Likely is { } f ? (f.From + Seasoning.Least, f.To + Seasoning.Most) : null;

    /// <summary>From the median of the felling; null where there is none.</summary>
    public (int From, int To)? AroundMedian => Felling.Median is { } m ? (m + Seasoning.Least, m + Seasoning.Most) : null;
}
