using Sandarac.Analysis.Lights;

namespace Sandarac.Analysis.Declaring;

/// <summary>What a reading says of itself: the one source of its help, form, API description, documentation and provenance.</summary>
public sealed record Declaration
{
    /// <summary>Stable id, kebab-case.</summary>
    public required string Id { get; init; }

    /// <summary>Rises whenever the same inputs and parameters would give other numbers, bug fixes included.</summary>
    public required int Version { get; init; }

    /// <summary>What a person calls it.</summary>
    public required string Title { get; init; }

    /// <summary>One line: what it answers.</summary>
    public required string Summary { get; init; }

    /// <summary>Source of the method.</summary>
    public required string Citation { get; init; }

    /// <summary>When not to use it, what its figures do not say.</summary>
    public required string Limits { get; init; }

    /// <summary>Inputs, in order.</summary>
    public required IReadOnlyList<InputSlot> Inputs { get; init; }

    /// <summary>Parameters, in the order in which a form shows them.</summary>
    public required IReadOnlyList<Parameter> Parameters { get; init; }

    /// <summary>Rasters it writes.</summary>
    public required IReadOnlyList<RasterOutput> Rasters { get; init; }

    /// <summary>Figures it gives.</summary>
    public required IReadOnlyList<FigureOutput> Figures { get; init; }

    /// <summary>How far around a pixel it looks.</summary>
    public required Reach Reach { get; init; }

    /// <summary>Whether an examination runs it by itself whenever its inputs are there.</summary>
    public bool RunsOnExamine { get; init; }

    /// <summary>Whether its inputs must lie on the plane (aligned), or are photographs in their own pixels.</summary>
    public required bool OnPlane { get; init; }
}

/// <summary>An input: which lights, and how many.</summary>
/// <param name="Name">Kebab-case: <c>infrared</c>.</param>
/// <param name="Help">One sentence.</param>
/// <param name="Lights">Lights it takes; empty for any.</param>
/// <param name="Minimum">Fewest images.</param>
/// <param name="Maximum">Most images.</param>
/// <param name="InOwnPixels">Takes photographs in their own pixels even where the reading's other inputs lie on the plane.</param>
/// <param name="BoardOf">The input whose even board it is: a photograph under the same lamps with the same camera; null for none.</param>
/// <param name="ByLamp">Whether the place of each image's lamp counts: it is then stored with the run.</param>
public sealed record InputSlot(string Name, string Help, IReadOnlyList<Light> Lights, int Minimum = 1, int Maximum = 1, bool InOwnPixels = false, string? BoardOf = null, bool ByLamp = false);

/// <summary>A raster that a reading writes.</summary>
/// <param name="Name">Kebab-case; also the file's name.</param>
/// <param name="Title">What a person calls it.</param>
/// <param name="Unit">Unit of its values.</param>
/// <param name="Bands">Names of its bands.</param>
/// <param name="Light">The light code under which the strip lists it when it is a picture (IRFC); null for a map of numbers.</param>
/// <param name="LightFrom">The input whose light it is in, when it is a picture in that light.</param>
/// <param name="IsTable">Whether it is a table of numbers for other steps, not something to look at.</param>
/// <param name="Classes">What the values 0, 1, 2, ... are called, when they are classes and no measures.</param>
public sealed record RasterOutput(string Name, string Title, string Unit, IReadOnlyList<string> Bands, Light? Light = null, string? LightFrom = null, bool IsTable = false, IReadOnlyList<string>? Classes = null)
{
    /// <summary>What its bands hold, in words: their names, and what classes' numbers are called.</summary>
    public string BandText => string.Join(", ", Bands) + (Classes is null ? "" : ": " + string.Join(", ", Classes.Select((c, i) => FormattableString.Invariant($"{i} {c}"))));
}

/// <summary>A figure that a reading gives.</summary>
/// <param name="Name">Kebab-case.</param>
/// <param name="Title">What a person calls it.</param>
/// <param name="Unit">Its unit; "1" for a pure ratio.</param>
/// <param name="Meaning">What it is and how its uncertainty is got, one or two sentences.</param>
public sealed record FigureOutput(string Name, string Title, string Unit, string Meaning);

/// <summary>How far around a pixel a reading looks: decides whether it may run in tiles.</summary>
public abstract record Reach
{
    /// <summary>Each pixel by itself.</summary>
    public sealed record Pointwise : Reach;

    /// <summary>So many pixels around.</summary>
    public sealed record Halo(int Pixels) : Reach;

    /// <summary>The whole image at full size, gathered in blocks of so many pixels a side.</summary>
    public sealed record Blocks(int Pixels) : Reach;

    /// <summary>The whole image, brought down to at most this many pixels on its longer side.</summary>
    public sealed record Whole(int LongestSide) : Reach;
}
