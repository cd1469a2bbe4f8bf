namespace Sandarac.Studio;

/// <summary>What repeating a run showed.</summary>
/// <param name="RunId">The run that was repeated.</param>
/// <param name="FiguresEqual">Whether every figure came out the same, to the last bit.</param>
/// <param name="RastersEqual">Whether every raster came out the same, to the last bit.</param>
/// <param name="Differences">What differs, in words; empty when nothing does.</param>
public sealed record Repetition(Guid RunId, bool FiguresEqual, bool RastersEqual, IReadOnlyList<string> Differences);
