namespace Sandarac.Materials;

/// <summary>What a zone's appearance is consistent with: always several materials, or none. Imaging identifies nothing.</summary>
/// <typeparam name="T">A row of the table that was looked in.</typeparam>
/// <param name="Candidates">At least two, those that agree best first; none when there is no answer.</param>
/// <param name="NoAnswer">Why there is no answer; null when there is one.</param>
/// <param name="Cautions">What whoever reads the list must bear in mind, with where it is known from.</param>
public sealed record ConsistentWith<T>(IReadOnlyList<Match<T>> Candidates, string? NoAnswer, IReadOnlyList<string> Cautions)
{
    /// <summary>An answer from matches; with fewer than two there is none.</summary>
    internal static ConsistentWith<T> Of(IEnumerable<Match<T>> matches, IReadOnlyList<string> cautions)
    {
        Match<T>[] all = [.. matches.OrderByDescending(m => m.Agreement)];
        return all.Length >= 2 ? new(all, null, cautions) : new([], "Fewer than two materials of the table look like this: none is named.", cautions);
    }
}

/// <summary>A material whose usual appearance agrees with what was seen.</summary>
/// <param name="Entry">Its row, with its source and flag.</param>
/// <param name="Agreement">0 to 1: how closely the words agree. It orders the list and is no probability.</param>
/// <param name="Reason">What agrees, in words.</param>
public sealed record Match<T>(T Entry, double Agreement, string Reason);
