using Sandarac.Imaging;

namespace Sandarac.Analysis.Declaring;

/// <summary>What a bare run wrote into <c>figures.json</c>.</summary>
/// <param name="Record">Where the result comes from.</param>
/// <param name="StartedAt">UTC.</param>
/// <param name="EndedAt">UTC.</param>
/// <param name="NoAnswer">Why there is no answer; null when there is one.</param>
/// <param name="Figures">Figures.</param>
/// <param name="Warnings">Warnings.</param>
/// <param name="Candidates">Zones proposed, as well-known text.</param>
/// <param name="Rasters">Files written, with their units.</param>
public sealed record BareResult(RunRecord Record, DateTime StartedAt, DateTime EndedAt, string? NoAnswer, IReadOnlyList<FigureText> Figures, IReadOnlyList<Warning> Warnings,
    IReadOnlyList<CandidateText> Candidates, IReadOnlyList<RasterFile> Rasters);

/// <summary>A figure with what its declaration says of it.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Title">What a person calls it.</param>
/// <param name="Subject">Input, band or place it speaks of.</param>
/// <param name="Value">Value; null when there is no answer.</param>
/// <param name="Uncertainty">Half-width of the 95 % interval.</param>
/// <param name="Unit">Unit; "1" for a pure ratio.</param>
/// <param name="Note">Why there is no uncertainty or no answer.</param>
public sealed record FigureText(string Name, string Title, string? Subject, double? Value, double? Uncertainty, string Unit, string? Note);

/// <summary>A candidate zone.</summary>
/// <param name="Kind">Kind of phenomenon.</param>
/// <param name="Confidence">0 to 1.</param>
/// <param name="Reason">Why, in words.</param>
/// <param name="Geometry">Well-known text, in pixels or, on the plane, in mm; y down.</param>
public sealed record CandidateText(string Kind, double Confidence, string Reason, string Geometry);

/// <summary>A raster that was written.</summary>
/// <param name="File">The TIFF file's name.</param>
/// <param name="Preview">The PNG file's name.</param>
/// <param name="Unit">Unit of its values.</param>
/// <param name="Bands">Its bands.</param>
public sealed record RasterFile(string File, string Preview, string Unit, IReadOnlyList<string> Bands);
