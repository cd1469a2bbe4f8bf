using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>The photographs of a run with their boards and lamps.</summary>
/// <param name="Images">The photographs.</param>
/// <param name="Frames">The same as light.</param>
/// <param name="Lamps">Their lamps.</param>
/// <param name="AreEstimated">Whether the lamps are estimated from the photographs.</param>
internal sealed record RakingSet(IReadOnlyList<InputImage> Images, IReadOnlyList<RakingFrame> Frames, LampSet Lamps, bool AreEstimated)
{
    /// <summary>The inputs of a reading of the surface.</summary>
    public static readonly IReadOnlyList<InputSlot> Slots =
    [
        new("raking", "Photographs in raking light, each with its lamp elsewhere; eight all round are good.", [Light.Raking], LampSet.Fewest, LampSet.Most, ByLamp: true),
        new("raking-board", "An even board under each of these lamps, same camera in the same place, if there are such.", [Light.Raking], 0, LampSet.Most, InOwnPixels: true, BoardOf: "raking", ByLamp: true),
    ];

    /// <summary>Windows from which lamps are estimated, along each side, and their side in pixels.</summary>
    private const int PatchesAcross = 4, Patch = 128;

    /// <summary>Brings photographs, boards and lamps together.</summary>
    /// <param name="context">The run, with <see cref="Slots"/> and <see cref="LampSources.Parameters"/>.</param>
    /// <exception cref="InputProblem">A lamp is not known, boards are there for some photographs only, or the lamps do not do.</exception>
    public static RakingSet Of(RunContext context)
    {
        context.Begin(0, 0.1);
        var sources = LampSources.Of(context);
        var (images, boards) = (context.Inputs("raking"), context.Inputs("raking-board"));
        var chosen = images.Select((image, i) => BoardOf(image, i, images.Count, boards)).ToList();
        if (boards.Count > 0 && chosen.IndexOf(null) is >= 0 and var missing)
            throw new InputProblem("board-missing", images[missing].Name, $"There are even boards, but none under the lamp of {images[missing].Name}.", "Give one for each photograph in the same order, or name the lamp in the files' names, or give none.");
        RakingFrame[] frames = [.. images.Zip(chosen, (image, board) => new RakingFrame(image, board is null ? null : EvenBoard.Of(board, context)))];
        string[] names = [.. images.Select(i => i.Name)];
        if (Near(images, names, sources, boards.Count > 0) is { } near) return new RakingSet(images, frames, near, false);
        var lamps = images.Select(sources.Of).ToList();
        var known = lamps.All(l => l is not null);
        return new RakingSet(images, frames, new LampSet(known ? [.. lamps.Select(l => l!.Value)] : Estimated(images, frames, lamps, sources, boards.Count > 0), names, boards.Count > 0), !known);
    }

    private static LampSet? Near(IReadOnlyList<InputImage> images, string[] names, LampSources sources, bool hasBoards)
    {
        var near = names.Select(sources.Stated.PositionOf).ToList();
        if (near.All(p => p is null)) return null;
        if (near.IndexOf(null) is >= 0 and var far)
            throw new InputProblem("lamp-mixed", names[far], $"Some lamps are given by their position, {names[far]}'s is not.", "Give the position of each lamp, or directions for all.");
        var (facts, mm) = (images[0].Image.Facts, images[0].Scale?.MmPerPixel ?? throw new InputProblem("no-scale", names[0], "Lamps' positions are in mm, and the photographs have no scale.", "Give the scale with --scale-mm-per-px; in a studio, give the painting's height and width."));
        return LampSet.Near([.. near.Select(p => p!.Value)], names, hasBoards, mm, (facts.Width * mm / 2, facts.Height * mm / 2));
    }

    /// <summary>Estimates all lamps; one that is known decides which side is up.</summary>
    private static IReadOnlyList<Lamp> Estimated(IReadOnlyList<InputImage> images, RakingFrame[] frames, List<Lamp?> known, LampSources sources, bool hasBoards)
    {
        if (!(sources.Elevation > 0)) throw new InputProblem("lamp-elevation", "elevation", "Lamps are estimated at one common elevation, and none is stated.", "State it with the parameter elevation: the height's scale rests on it.");
        var (facts, patches) = (images[0].Image.Facts, new List<IReadOnlyList<Plane>>());
        for (var cell = 0; cell < PatchesAcross * PatchesAcross; cell++)
        {
            var (left, top) = ((int)((cell % PatchesAcross + 0.5) / PatchesAcross * facts.Width) - Patch / 2, (int)((cell / PatchesAcross + 0.5) / PatchesAcross * facts.Height) - Patch / 2);
            (left, top) = (Math.Max(0, left), Math.Max(0, top));
            var (width, height) = (Math.Min(Patch, facts.Width - left), Math.Min(Patch, facts.Height - top));
            patches.Add([.. frames.Select((f, k) => f.Of(images[k].Image.ReadWindow(left, top, width, height), left, top).Light)]);
        }
        var lamps = UnknownLamps.Estimate(patches, sources.Elevation, hasBoards);
        var one = known.FindIndex(l => l is not null);
        return one < 0 || lamps[one].AngleTo(known[one]!.Value) < lamps[one].AngleTo(Opposite(known[one]!.Value)) ? lamps : [.. lamps.Select(Opposite)];
    }

    private static Lamp Opposite(Lamp lamp) => new(-lamp.X, -lamp.Y, lamp.Z);

    /// <summary>The board under the same lamp; or, where no board's lamp is known, the one in the same place of the list.</summary>
    private static InputImage? BoardOf(InputImage image, int place, int count, IReadOnlyList<InputImage> boards) =>
        boards.All(b => b.Lamp is null) ? boards.Count == count ? boards[place] : null : boards.FirstOrDefault(b => b.Lamp is not null && b.Lamp == image.Lamp);
}
