namespace Sandarac.Analysis.Rings.Dating;

/// <summary>What one reference says of a sample.</summary>
/// <remarks>
/// The rule: a position is proposed when t >= 3.5 (Baillie and Pilcher's threshold as commonly used), and the chance of it, multiplied by the number of positions tried (Bonferroni), is at most 1 in 100, and every other position
/// is at least ten times as likely by chance (isolation factor, after Wigley et al. 1987; the figures 100 and 10 as Loader et al., J. Quaternary Science 34 (2019) 475 use them, from memory), and the coefficient of parallel variation
/// is above its 95 % limit. Transformed rings are neither independent nor quite normal, so that t of wrong positions spreads wider than Student's: the spread over the sample's own wrong positions is measured, and t is divided by it
/// before its chance is told (an empirical null: Efron, J. American Statistical Association 99 (2004) 96). Without this the rule proposed a false date for 3 to 20 in 100 stretches of trees from another region, with it for 0 to 3.
/// </remarks>
public sealed record ReferenceVerdict
{
    /// <summary>Least t.</summary>
    public const double LeastT = 3.5;

    /// <summary>Greatest chance of the best position, over all that were tried.</summary>
    public const double GreatestChance = 0.01;

    /// <summary>Least isolation factor.</summary>
    public const double LeastIsolation = 10;

    /// <summary>Where chances run out of digits.</summary>
    private const double MostIsolation = 1e300;

    /// <summary>Confidence of the limit of parallel variation.</summary>
    public const double ParallelConfidence = 0.95;

    /// <summary>Fewer positions do not tell how far wrong ones spread.</summary>
    public const int FewestPositions = 20;

    /// <summary>Judges the positions.</summary>
    /// <param name="reference">The reference.</param>
    /// <param name="matches">Every position, the highest t first.</param>
    /// <param name="convention">Degrees of freedom of t.</param>
    public ReferenceVerdict(DatedReference reference, IReadOnlyList<CrossMatch> matches, TConvention convention)
    {
        (Reference, Matches) = (reference, matches);
        if (matches.Count < 2) return;
        Spread = Math.Max(1, Math.Sqrt(matches.Skip(1).Average(m => m.T * m.T)));
        double ChanceOf(CrossMatch m) => TValue.Chance(m.T / Spread, m.Pairs, convention);
        var best = ChanceOf(matches[0]);
        var second = matches.Skip(1).Min(ChanceOf);
        (Chance, Isolation) = (Math.Min(1, best * matches.Count), best > 0 ? Math.Min(second / best, MostIsolation) : second > 0 ? MostIsolation : 1);
    }

    /// <summary>The reference.</summary>
    public DatedReference Reference { get; }

    /// <summary>Every position, the highest t first.</summary>
    public IReadOnlyList<CrossMatch> Matches { get; }

    /// <summary>Root mean square of t over all positions but the best; 1 where Student's own would be less.</summary>
    public double Spread { get; } = 1;

    /// <summary>Chance of the best position over all that were tried: at most 1.</summary>
    public double Chance { get; } = 1;

    /// <summary>How many times likelier by chance the second-best position is.</summary>
    public double Isolation { get; }

    /// <summary>The position with the highest t; null when none has the overlap.</summary>
    public CrossMatch? Best => Matches.Count > 0 ? Matches[0] : null;

    /// <summary>Why no position is proposed, in a few words; null when one is.</summary>
    public string? Refusal => Best switch
    {
        null => "no position has the minimum overlap",
        { T: < LeastT } => FormattableString.Invariant($"the highest t is {Best.T:0.00}, below {LeastT}"),
        _ when Matches.Count < FewestPositions => $"{Matches.Count} positions are too few to tell chance from a match",
        _ when Chance > GreatestChance => FormattableString.Invariant($"among {Matches.Count} positions chance alone gives such a t with a probability of {Chance:0.00}"),
        _ when Isolation < LeastIsolation => FormattableString.Invariant($"{Best.EndYear} does not stand out from another position (isolation factor {Isolation:0.0})"),
        _ when Best.Parallel.Share <= ParallelVariation.Limit(Best.Parallel.Changes, ParallelConfidence) => FormattableString.Invariant($"only {100 * Best.Parallel.Share:0.0} % of the years vary alike"),
        _ => null,
    };

    /// <summary>Year of the last ring as this reference proposes it; null when it proposes none.</summary>
    public int? Proposes => Refusal is null ? Best!.EndYear : null;
}
