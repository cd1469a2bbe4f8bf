namespace Sandarac.Materials;

/// <summary>What a zone's appearance is consistent with: always several materials, or none. Imaging identifies nothing.</summary>
/// <typeparam name="T">A row of the table that was looked in.</typeparam>
/// <param name="Candidates">At least two, those that agree best first; none when there is no answer.</param>
/// <param name="NoAnswer">Why there is no answer; null when there is one.</param>
/// <param name="Cautions">What whoever reads the list must bear in mind, with where it is known from.</param>
public sealed record ConsistentWith<T>(IReadOnlyList<Match<T>> Candidates, string? NoAnswer, IReadOnlyList<string> Cautions)
{
    /// <summary>Materials that agree but in a light in which a mixture looks like none of its parts: not alone, but perhaps one of several. None where no such light was looked at.</summary>
    public IReadOnlyList<Match<T>> InMixtures { get; private init; } = [];

    /// <summary>An answer from matches; with fewer than two there is none.</summary>
    internal static ConsistentWith<T> Of(IEnumerable<Match<T>> matches, IReadOnlyList<string> cautions) => Of(matches, [], cautions);

    /// <summary>An answer from matches by themselves and in mixtures. One by itself is never named: it joins those in mixtures, of which there must be two as well.</summary>
    internal static ConsistentWith<T> Of(IEnumerable<Match<T>> alone, IEnumerable<Match<T>> inMixtures, IReadOnlyList<string> cautions)
    {
        Match<T>[] candidates = [.. alone.OrderByDescending(m => m.Agreement)];
        Match<T>[] parts = [.. (candidates.Length == 1 ? candidates.Concat(inMixtures) : inMixtures).OrderByDescending(m => m.Agreement)];
        // One that is left over would be a name all the same.
        if (parts.Length == 1 && candidates.Length < 2) parts = [];
        return candidates.Length >= 2 ? new(candidates, null, cautions) { InMixtures = parts }
            : new([], "Fewer than two materials of the table look like this by themselves: none is named.", cautions) { InMixtures = parts };
    }
}

/// <summary>A material whose usual appearance agrees with what was seen.</summary>
/// <param name="Entry">Its row, with its source and flag.</param>
/// <param name="Agreement">0 to 1: how closely the words agree. It orders the list and is no probability.</param>
/// <param name="Reason">What agrees, in words.</param>
public sealed record Match<T>(T Entry, double Agreement, string Reason);
