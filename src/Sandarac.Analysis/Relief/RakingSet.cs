using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>The photographs of a run with their boards and lamps.</summary>
/// <param name="Images">The photographs.</param>
/// <param name="Frames">The same as light.</param>
/// <param name="Lamps">Their lamps.</param>
internal sealed record RakingSet(IReadOnlyList<InputImage> Images, IReadOnlyList<RakingFrame> Frames, LampSet Lamps)
{
    /// <summary>Elevation of lamps of which none is known.</summary>
    public static readonly NumberParameter Elevation = new("elevation", "Lamps' elevation", "Degrees above the painting's plane, for lamps of which none is known; 0 for none.", "degrees", 0, 0, 90);

    /// <summary>Lamps as a person states them.</summary>
    public static readonly DocumentParameter StatedLamps = new("lamps", "Lamps", "A table with the columns file, azimuth, elevation (degrees) or file, x, y, z (mm from the upper left corner: right, down, in front); it outranks what the photographs' names and records say.", "CSV", LampList.Canonical);

    /// <summary>The inputs of a reading of the surface.</summary>
    public static readonly IReadOnlyList<InputSlot> Slots =
    [
        new("raking", "Photographs in raking light, each with its lamp elsewhere; eight all round are good.", [Light.Raking], LampSet.Fewest, LampSet.Most, ByLamp: true),
        new("raking-board", "An even board under each of these lamps, same camera in the same place, if there are such.", [Light.Raking], 0, LampSet.Most, InOwnPixels: true, BoardOf: "raking", ByLamp: true),
    ];

    /// <summary>Brings photographs, boards and lamps together.</summary>
    /// <param name="context">The run, with the inputs and parameters above.</param>
    /// <exception cref="InputProblem">A lamp is not known, boards are there for some photographs only, or the lamps do not do.</exception>
    public static RakingSet Of(RunContext context)
    {
        var (stated, elevation) = (LampList.Read(context.Value(StatedLamps)), context.Value(Elevation));
        var (images, boards) = (context.Inputs("raking"), context.Inputs("raking-board"));
        var chosen = images.Select((image, i) => BoardOf(image, i, images.Count, boards)).ToList();
        if (boards.Count > 0 && chosen.IndexOf(null) is >= 0 and var missing)
            throw new InputProblem("board-missing", images[missing].Name, $"There are even boards, but none under the lamp of {images[missing].Name}.", "Give one for each photograph in the same order, or name the lamp in the files' names, or give none.");
        RakingFrame[] frames = [.. images.Zip(chosen, (image, board) => new RakingFrame(image, board is null ? null : EvenBoard.Of(board, context)))];
        string[] names = [.. images.Select(i => i.Name)];
        return new RakingSet(images, frames, Lit(images, names, stated, elevation, boards.Count > 0));
    }

    private static LampSet Lit(IReadOnlyList<InputImage> images, string[] names, LampList stated, double elevation, bool hasBoards)
    {
        var near = names.Select(stated.PositionOf).ToList();
        if (near.All(p => p is null)) return new LampSet([.. images.Select(image => stated.LampOf(image.Name) ?? LampOf(image, elevation))], names, hasBoards);
        if (near.IndexOf(null) is >= 0 and var far)
            throw new InputProblem("lamp-mixed", names[far], $"Some lamps are given by their position, {names[far]}'s is not.", "Give the position of each lamp, or directions for all.");
        var (facts, mm) = (images[0].Image.Facts, images[0].Scale?.MmPerPixel ?? throw new InputProblem("no-scale", names[0], "Lamps' positions are in mm, and the photographs have no scale.", "Give the scale with --scale-mm-per-px; in a studio, give the painting's height and width."));
        return LampSet.Near([.. near.Select(p => p!.Value)], names, hasBoards, mm, (facts.Width * mm / 2, facts.Height * mm / 2));
    }

    private static Lamp LampOf(InputImage image, double elevation)
    {
        if (image.Lamp is not { } lamp)
            throw new InputProblem("lamp-unknown", image.Name, $"Where the lamp of {image.Name} stood is not known.", "State it: in the file's name (az315_el15), in photographs.csv, or with the parameter lamps.");
        return (lamp.Elevation ?? (elevation > 0 ? elevation : null)) is { } height ? Lamp.FromAngles(lamp.Azimuth, height)
            : throw new InputProblem("lamp-elevation", image.Name, $"How high the lamp of {image.Name} stood is not known.", "State it in the file's name (el15), in photographs.csv, or with the parameter elevation for all.");
    }

    /// <summary>The board under the same lamp; or, where no board's lamp is known, the one in the same place of the list.</summary>
    private static InputImage? BoardOf(InputImage image, int place, int count, IReadOnlyList<InputImage> boards) =>
        boards.All(b => b.Lamp is null) ? boards.Count == count ? boards[place] : null : boards.FirstOrDefault(b => b.Lamp is not null && b.Lamp == image.Lamp);
}
