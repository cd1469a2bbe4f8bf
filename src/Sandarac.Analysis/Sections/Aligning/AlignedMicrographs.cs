using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Analysis.Sections.Aligning;

/// <summary>
/// The micrographs of a section brought onto the visible one's grid. Structures of layers hardly change along them, so that a search over all turns finds many that
/// are alike: the strata's direction in each micrograph gives its turn, but for half a turn, before place and size are looked for.
/// </summary>
internal sealed class AlignedMicrographs : IDisposable
{
    /// <summary>A micrograph of the visible one's size that lies within so many pixels of its grid is taken as it is: resampling would cost more than it brings.</summary>
    private const double CloseEnough = 0.5;

    /// <summary>Smallest image, pixels.</summary>
    private const int LeastSide = PairAligner.LeastSide;

    public static readonly IReadOnlyList<InputSlot> Slots =
    [
        new("visible", "The section in visible light.", [Lights.Light.Section, Lights.Light.Visible]),
        new("luminescence", "The same place under ultraviolet; aligned to the visible one.", [Lights.Light.Section, Lights.Light.Luminescence], 0),
        new("electrons", "The same place by back-scattered electrons; aligned to the visible one.", [], 0),
    ];

    private readonly List<PyramidFile> _files = [];
    private readonly List<PlacedMicrograph> _images = [];
    private readonly List<MicrographAlignment> _alignments = [];
    private PairImage? _reference;

    private AlignedMicrographs()
    {
    }

    /// <summary>The micrographs that are used, the visible one first.</summary>
    public IReadOnlyList<PlacedMicrograph> Images => _images;

    /// <summary>How each of the others lies on it, used or not.</summary>
    public IReadOnlyList<MicrographAlignment> Alignments => _alignments;

    /// <summary>Whether the second of the images is under ultraviolet.</summary>
    public bool Luminesces { get; private set; }

    /// <summary>Aligns those of a run.</summary>
    /// <param name="context">The run; its inputs are <see cref="Slots"/>.</param>
    /// <exception cref="InputProblem">"too-small": a micrograph of a few pixels.</exception>
    public static AlignedMicrographs Of(RunContext context)
    {
        foreach (var image in Slots.SelectMany(s => context.Inputs(s.Name))) RequireSize(image);
        var visible = context.Inputs(Slots[0].Name)[0];
        var (luminescence, electrons) = (context.Inputs(Slots[1].Name) is [var u, ..] ? u : null, context.Inputs(Slots[2].Name) is [var e, ..] ? e : null);
        var aligned = new AlignedMicrographs();
        try
        {
            aligned._images.Add(new PlacedMicrograph(visible, visible.Image.Facts, null));
            if (luminescence is null && electrons is null) return aligned;
            if (luminescence is not null) aligned.Luminesces = aligned.Add(luminescence, MapModel.Similarity, false, context);
            // The axes of a scanned image are not of one scale as those of a lens are.
            if (electrons is not null) aligned.Add(electrons, MapModel.Affine, true, context);
            return aligned;
        }
        catch
        {
            aligned.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (var file in _files)
        {
            file.Dispose();
            File.Delete(file.Path);
        }
    }

    private static void RequireSize(InputImage image)
    {
        var facts = image.Image.Facts;
        if (Math.Min(facts.Width, facts.Height) < LeastSide)
            throw new InputProblem("too-small", image.Name, $"{image.Name} has {facts.Width} x {facts.Height} pixels.", $"A section needs at least {LeastSide} pixels on the shorter side.");
    }

    private bool Add(InputImage image, MapModel model, bool isGrey, RunContext context)
    {
        var (grid, facts) = (_images[0].Grid, image.Image.Facts);
        if ((facts.Width, facts.Height) == (grid.Width, grid.Height) && SameGrid.Check(_images[0].Image, image, model, CloseEnough, context) is { } same)
        {
            _alignments.Add(MicrographAlignment.Of(image.Name, same, true, (facts.Width, facts.Height), (grid.Width, grid.Height)));
            _images.Add(new PlacedMicrograph(image, grid, null, isGrey));
            return true;
        }
        var moving = Open(image, context);
        var found = Align(_reference ??= Open(_images[0].Image, context), moving, image, model, context);
        var isAsGiven = found.Map is { } map && (facts.Width, facts.Height) == (grid.Width, grid.Height) && Corners(grid.Width, grid.Height).All(c => map.ToPlane(c).DistanceTo(c) <= CloseEnough);
        var alignment = MicrographAlignment.Of(image.Name, found, isAsGiven, (facts.Width, facts.Height), (grid.Width, grid.Height));
        _alignments.Add(alignment);
        if (alignment.IsUsed) _images.Add(new PlacedMicrograph(image, grid, isAsGiven ? null : (moving.File, found.Map!), isGrey));
        return alignment.IsUsed;
    }

    /// <summary>On the grid as it is, if that holds; else by the strata's direction, and the other way up.</summary>
    private PairAlignment Align(PairImage reference, PairImage moving, InputImage image, MapModel model, RunContext context)
    {
        var parallel = context.Workers;
        PairAlignment? best = null;
        if ((moving.File.Width, moving.File.Height) == (reference.File.Width, reference.File.Height))
        {
            best = PairAligner.Align(AlignmentTarget.OfPixels(reference), moving, new PairOptions(model, Start: new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1]), Depth: SearchDepth.Quick), parallel);
            if (best.Verdict != PairVerdict.NotAligned) return best;
        }
        var visible = _images[0].Image;
        double[] likely = MicrographTags.Of(visible.Scale) is { } v && MicrographTags.Of(image.Scale) is { } m ? [m.MmPerPixel / v.MmPerPixel] : [];
        var turn = Math.IEEERemainder(Direction(image, context) - Direction(visible, context), 180);
        foreach (var degrees in new[] { turn, turn + 180 })
        {
            var turned = Turned(reference, degrees);
            var target = new AlignmentTarget(reference, turned, turned.Bounds(reference.File.Width, reference.File.Height));
            var found = PairAligner.Align(target, moving, new PairOptions(model, likely, Depth: SearchDepth.Likely), parallel);
            if (best is null || found.Verdict < best.Verdict) best = found with { Map = (found.Map as HomographyMap)?.Then(new Homography(turned.PixelToPlane).Inverse()) };
            if (best.Verdict == PairVerdict.Aligned) break;
        }
        return best!;
    }

    private static double Direction(InputImage image, RunContext context) => StrataFrame.Find(Micrographs.Of([new PlacedMicrograph(image, image.Image.Facts, null)], context), context.Workers).Degrees;

    /// <summary>A turn about the reference's middle, clockwise.</summary>
    private static HomographyMap Turned(PairImage reference, double degrees)
    {
        var (s, c) = Math.SinCos(degrees * Math.PI / 180);
        var (x, y) = (reference.File.Width / 2.0, reference.File.Height / 2.0);
        return new HomographyMap([c, -s, x - c * x + s * y, s, c, y - s * x - c * y, 0, 0, 1]);
    }

    private static Point2[] Corners(int width, int height) => [new(0, 0), new(width, 0), new(width, height), new(0, height)];

    private PairImage Open(InputImage image, RunContext context)
    {
        var path = Path.GetTempFileName();
        try
        {
            PyramidFile.Write(image.Image, path, null, context.Cancellation);
            _files.Add(PyramidFile.Open(path));
            return new PairImage(image.Name, _files[^1], Bands.Count(image.Image.Facts));
        }
        catch
        {
            File.Delete(path);
            throw;
        }
    }
}
