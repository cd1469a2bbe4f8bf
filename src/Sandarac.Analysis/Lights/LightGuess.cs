namespace Sandarac.Analysis.Lights;

/// <summary>What a photograph seems to be, from its name, its folder and its description; with how sure and why.</summary>
/// <param name="Light">Its light; null when nothing names one.</param>
/// <param name="Subject">What is in the frame.</param>
/// <param name="Confidence">How sure the light is; <see cref="Confidence.Possible"/> when there is none.</param>
/// <param name="Reason">Why, in words: <c>"RL" in the file name, "left" in the folder</c>.</param>
public sealed record LightGuess(Light? Light, PhotographSubject Subject, Confidence Confidence, string Reason)
{
    /// <summary>The lamp's side as a compass letter, N at the top edge; null when unknown.</summary>
    public string? Side { get; init; }

    /// <summary>The lamp's azimuth, degrees clockwise seen from the front, 0 from the top edge; null when unknown.</summary>
    public double? AzimuthDegrees { get; init; }

    /// <summary>The lamp's elevation above the painting's plane, degrees; null when unknown.</summary>
    public double? ElevationDegrees { get; init; }

    /// <summary>For a section: whether the micrograph is in visible or ultraviolet light; null when unknown.</summary>
    public Light? SectionLight { get; init; }

    /// <summary>Name of the sample, for sections; null when unknown.</summary>
    public string? Sample { get; init; }

    /// <summary>Number of the plate, for X-radiographs in several plates; null when unknown.</summary>
    public int? Plate { get; init; }

    /// <summary>Guesses from the path and the description.</summary>
    /// <param name="relativePath">Path below the folder that is examined, with / or \ between folders; folders above it say nothing.</param>
    /// <param name="description">The file's own description (EXIF, XMP), when it has one.</param>
    public static LightGuess From(string relativePath, string? description = null)
    {
        var parts = relativePath.Split('/', '\\');
        NameSource[] sources =
        [
            new("in the file name", NameTokens.Of(Path.GetFileNameWithoutExtension(parts[^1]))),
            new("in the folder", [.. parts[..^1].Reverse().SelectMany(NameTokens.Of)]),
            new("in the file's description", NameTokens.Of(description ?? "")),
        ];
        return new LightGuesser(sources).Guess();
    }
}

/// <summary>Words from one place, with what to call the place.</summary>
internal sealed record NameSource(string Where, IReadOnlyList<NameToken> Tokens);
