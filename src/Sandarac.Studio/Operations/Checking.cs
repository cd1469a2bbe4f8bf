namespace Sandarac.Studio;

/// <summary>One thing that is not as it should be.</summary>
/// <param name="Kind">"missing", "damaged", "orphaned".</param>
/// <param name="Sha256">The object; empty when it is a row or a temporary file.</param>
/// <param name="Subject">What it belongs to, in words: "VIS_01.tif, original".</param>
/// <param name="Remedy">What to do about it.</param>
public sealed record CheckFinding(string Kind, string Sha256, string Subject, string Remedy);

/// <summary>What a check found.</summary>
/// <param name="Objects">Objects re-read.</param>
/// <param name="Bytes">Bytes re-read.</param>
/// <param name="Findings">What is not as it should be.</param>
/// <param name="Leftovers">Temporary files of imports that ended early; opening the studio for an import removes them.</param>
public sealed record CheckReport(int Objects, long Bytes, IReadOnlyList<CheckFinding> Findings, int Leftovers)
{
    /// <summary>Whether everything is there and whole.</summary>
    public bool IsClean => Findings.Count == 0;
}

/// <summary>Re-reads everything in a studio.</summary>
public sealed class Checking(OpenStudio studio)
{
    /// <summary>Compares every object with its hash, and the record with the store both ways.</summary>
    public CheckReport Check(IProgress<double>? progress = null, CancellationToken cancellation = default) => throw new NotImplementedException($"{studio.Folder}{progress}{cancellation}");
}
