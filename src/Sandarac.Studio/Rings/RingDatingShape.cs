using Sandarac.Analysis.Rings.Dating;
using Sandarac.Materials.Wood;

namespace Sandarac.Studio.Rings;

/// <summary>A position as it is sent and stored.</summary>
public sealed record MatchShape(int EndYear, int Pairs, double Correlation, double T, double ParallelVariation, int Changes);

/// <summary>What a reference says, as it is sent and stored: its best positions.</summary>
public sealed record ReferenceShape(string Name, int FirstYear, int LastYear, int Positions, double SpreadOfT, double Chance, double Isolation, int? Proposes, string? Refusal, IReadOnlyList<MatchShape> Best);

/// <summary>A felling as it is sent and stored.</summary>
public sealed record FellingShape(string? Model, string? ModelFlag, string? ModelSource, int Earliest, int? LikelyFrom, int? LikelyTo, double? Holds, int? Median, bool IsEarliestOnly, string Basis);

/// <summary>A use as it is sent and stored.</summary>
public sealed record UseShape(string Seasoning, string SeasoningFlag, string SeasoningSource, int LeastYears, int MostYears, int Earliest, int? LikelyFrom, int? LikelyTo, int? AroundMedianFrom, int? AroundMedianTo);

/// <summary>A dating as it is sent and stored.</summary>
public sealed record RingDatingShape(string Sample, int Rings, RingTransformKind Transform, TConvention Convention, MasterMean Mean, int MinimumOverlap, DatingStrength Strength, int? LastRing, string Told, IReadOnlyList<ReferenceShape> References,
    FellingShape? Felling, UseShape? Use, IReadOnlyList<int> OutlyingRings, IReadOnlyList<string> LeftOutOf, IReadOnlyList<string> Cautions)
{
    /// <summary>Positions of each reference that are told.</summary>
    public const int BestTold = 5;

    /// <summary>The shape of a dating.</summary>
    public static RingDatingShape Of(RingDating dating) => new(dating.Dating.Sample.Id, dating.Dating.Sample.Widths.Count, dating.Dating.Settings.Transform, dating.Dating.Settings.Convention, dating.Dating.Settings.Mean,
        dating.Dating.Settings.MinimumOverlap, dating.Dating.Strength, dating.Dating.LastRing, dating.Dating.Told, [.. dating.Dating.Verdicts.Select(Of)], dating.Felling is { } f ? Of(f) : null, dating.Use is { } u ? Of(u) : null, dating.Dating.Outlying, dating.LeftOut, RingDating.Cautions);

    private static ReferenceShape Of(ReferenceVerdict v) => new(v.Reference.Name, v.Reference.FirstYear, v.Reference.LastYear, v.Matches.Count, v.Spread, v.Chance, v.Isolation, v.Proposes, v.Refusal,
        [.. v.Matches.Take(BestTold).Select(m => new MatchShape(m.EndYear, m.Pairs, m.Correlation, m.T, m.Parallel.Share, m.Parallel.Changes))]);

    private static FellingShape Of(FellingDate f) => new(f.Model?.Title, f.Model?.Flag, f.Model?.Source, f.Earliest, f.Likely?.From, f.Likely?.To, f.Likely?.Holds, f.Median, f.IsEarliestOnly, f.Basis);

    private static UseShape Of(UseDate u) => new(u.Seasoning.Title, u.Seasoning.Flag, u.Seasoning.Source, u.Seasoning.Least, u.Seasoning.Most, u.Earliest, u.Likely?.From, u.Likely?.To, u.AroundMedian?.From, u.AroundMedian?.To);
}
