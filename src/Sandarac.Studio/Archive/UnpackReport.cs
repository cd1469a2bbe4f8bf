using Sandarac.Studio.Archive.BagIt;

namespace Sandarac.Studio.Archive;

/// <summary>What was found about a package without taking anything from it.</summary>
/// <param name="Problems">Why it is refused; none when it is sound.</param>
/// <param name="Warnings">What is to be known of it.</param>
/// <param name="Title">What the painting is called; null when the record cannot be read.</param>
/// <param name="PaintingId">The painting; null when the record cannot be read.</param>
/// <param name="Files">Files in it.</param>
/// <param name="Bytes">Their length together.</param>
public sealed record PackageCheck(IReadOnlyList<BagNote> Problems, IReadOnlyList<BagNote> Warnings, string? Title, Guid? PaintingId, int Files, long Bytes)
{
    /// <summary>Whether it would be taken by an empty studio.</summary>
    public bool IsSound => Problems.Count == 0;
}

/// <summary>What was unpacked.</summary>
/// <param name="PaintingId">The painting.</param>
/// <param name="Title">What it is called.</param>
/// <param name="Rows">Rows of the record.</param>
/// <param name="Files">Files that it speaks of.</param>
/// <param name="AlreadyThere">Whether all of it was in the studio before; then nothing was done.</param>
/// <param name="Warnings">What is to be known of the package.</param>
public sealed record Unpacked(Guid PaintingId, string Title, int Rows, int Files, bool AlreadyThere, IReadOnlyList<BagNote> Warnings);
