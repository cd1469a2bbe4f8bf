namespace Sandarac.Studio.Archive.BagIt;

/// <summary>One thing that is wrong with a bag, or to be known of it.</summary>
/// <param name="Code">Stable, kebab-case.</param>
/// <param name="Subject">The file or the line.</param>
/// <param name="Message">What is the matter, in one sentence.</param>
public sealed record BagNote(string Code, string Subject, string Message);

/// <summary>What was found about a bag.</summary>
/// <param name="Version">Its BagIt version; null when it states none that is known.</param>
/// <param name="Problems">What makes it invalid; none when it is valid.</param>
/// <param name="Warnings">What is to be known of it, valid or not.</param>
internal sealed record BagVerdict(BagVersion? Version, IReadOnlyList<BagNote> Problems, IReadOnlyList<BagNote> Warnings)
{
    public bool IsValid => Problems.Count == 0;
}
