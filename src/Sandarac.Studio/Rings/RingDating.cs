using Sandarac.Analysis.Rings;
using Sandarac.Analysis.Rings.Dating;
using Sandarac.Imaging;
using Sandarac.Materials.Wood;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Rings;

/// <summary>What is asked about a board.</summary>
/// <param name="Sample">Its rings.</param>
/// <param name="References">Name and series of each reference.</param>
/// <param name="Settings">How to compare.</param>
/// <param name="Outer">What of the outer wood is there.</param>
/// <param name="SapwoodRings">How many of the rings are sapwood.</param>
/// <param name="Model">Sapwood of the region; null where nothing is to be added.</param>
/// <param name="Seasoning">Years of storing; null where none are to be added.</param>
public sealed record RingDatingRequest(RingWidths Sample, IReadOnlyList<(string Name, IReadOnlyList<RingWidths> Series)> References, CrossDatingSettings Settings, OuterWood Outer, int SapwoodRings, SapwoodModel? Model, Seasoning? Seasoning);

/// <summary>When a board grew, was felled and may have been used: each as far as there is an answer.</summary>
/// <param name="Dating">The cross-dating.</param>
/// <param name="Felling">The felling; null without a date or a model.</param>
/// <param name="Use">The use; null without a felling or years of storing.</param>
/// <param name="LeftOut">Names of references from which series that hold the very widths of the sample were left out.</param>
public sealed record RingDating(DatingResult Dating, FellingDate? Felling, UseDate? Use, IReadOnlyList<string> LeftOut)
{
    /// <summary>Most references in one comparison.</summary>
    public const int MostReferences = 50;

    /// <summary>What must be said beside every date.</summary>
    public static IReadOnlyList<string> Cautions { get; } =
    [
        "A proposal by figures: a dendrochronologist must see the curves agree before it is a date. Ring widths are measured by a person or checked by one.",
        "A date says when the wood grew, not when it was painted: panels were stored, used again and replaced.",
        "The region of a reference that agrees is where such a tree may have grown; its neighbours may agree as well.",
    ];

    /// <summary>A series with the date that was proposed, once a person who compared the curves accepts it.</summary>
    /// <exception cref="InputProblem">"no-date": none was proposed.</exception>
    public RingSeriesContent Accepted(RingSeriesContent content, string userName)
    {
        if (Dating.LastRing is not { } last) throw new InputProblem("no-date", content.Name, "No date was proposed.", "Compare with other references.");
        var grounds = Dating.Verdicts.Where(v => v.Proposes == last).Select(v => FormattableString.Invariant($"{v.Reference.Name}: t {v.Best!.T:0.0}, {100 * v.Best.Parallel.Share:0} % parallel over {v.Best.Pairs} years"));
        return content with { FirstYear = RingSeriesRecords.Recorded(last - content.WidthsMm.Count + 1), DateBasis = $"{string.Join("; ", grounds)}; curves compared by {userName}" };
    }

    /// <summary>Dates a board.</summary>
    /// <exception cref="InputProblem">No reference, too many, one without dates; an overlap or a number of sapwood rings that is none.</exception>
    public static RingDating Of(RingDatingRequest request)
    {
        if (request.References.Count is 0 or > MostReferences) throw new InputProblem("references", "references", $"A date needs references, 1 to {MostReferences} of them.", "Give dated series of the same kind of tree and region.");
        if (request.SapwoodRings > request.Sample.Widths.Count) throw new InputProblem("sapwood-contradicted", "sapwood rings", $"The series has {request.Sample.Widths.Count} rings, fewer than {request.SapwoodRings} of sapwood.", "Count the sapwood rings among those that were measured.");
        // A board in its own reference would agree with itself.
        bool IsItself(RingWidths series) => series.Holds(request.Sample);
        var dating = DatingResult.Of(request.Sample, [.. request.References.Select(r => (r.Name, (IReadOnlyList<RingWidths>)[.. r.Series.Where(s => !IsItself(s))]))], request.Settings);
        var felling = dating.LastRing is { } last && (request.Model is not null || request.Outer == OuterWood.WaneyEdge) ? FellingDate.Of(last, request.Outer, request.SapwoodRings, request.Model ?? SapwoodModel.All[0]) : null;
        return new RingDating(dating, felling, felling is not null && request.Seasoning is { } s ? new UseDate(felling, s) : null, [.. request.References.Where(r => r.Series.Any(IsItself)).Select(r => r.Name)]);
    }
}
