using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>A reading's inputs, opened: originals, or plane images for readings on the plane.</summary>
internal sealed class InputSet : IDisposable
{
    private readonly Dictionary<string, IReadOnlyList<InputImage>> _images = [];
    private readonly List<RunSource> _sources = [];

    private InputSet()
    {
    }

    /// <summary>Images by slot, as a reading takes them.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<InputImage>> Images => _images;

    /// <summary>The same, as a run remembers them.</summary>
    public IReadOnlyList<RunSource> Sources => _sources;

    /// <summary>Where the inputs lie on the plane; null for a reading in the photographs' own pixels.</summary>
    public Box? Extent { get; private set; }

    /// <summary>Opens photographs as they are now.</summary>
    /// <exception cref="InputProblem">No such photograph in this painting, or not aligned.</exception>
    public static InputSet Open(OpenStudio studio, StudioDb db, Declaration declaration, Guid paintingId, IReadOnlyDictionary<string, IReadOnlyList<Guid>> inputs)
    {
        var painting = db.RequirePainting(paintingId);
        return Fill(inputs.Select(slot => (slot.Key, slot.Value.Select(id => SourceOf(db, declaration, painting, slot.Key, id)))), studio, db);
    }

    /// <summary>Opens exactly what a run read.</summary>
    /// <exception cref="InputProblem">An object is missing or damaged.</exception>
    public static InputSet Open(OpenStudio studio, StudioDb db, Run run) =>
        Fill(run.Inputs.GroupBy(i => i.Slot).Select(g => (g.Key, g.AsEnumerable())), studio, db);

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (var image in _images.Values.SelectMany(i => i)) image.Image.Dispose();
    }

    private static InputSet Fill(IEnumerable<(string Slot, IEnumerable<RunSource> Sources)> slots, OpenStudio studio, StudioDb db)
    {
        var set = new InputSet();
        try
        {
            foreach (var (slot, sources) in slots) set.Add(studio, db, slot, [.. sources]);
        }
        catch
        {
            set.Dispose();
            throw;
        }
        if (set._sources.Count > 0)
        {
            var first = set._sources[0];
            set.Extent = db.Alignments.AsNoTracking().Where(a => a.PhotographId == first.PhotographId && a.PlaneExtent != null).AsEnumerable()
                .FirstOrDefault(a => a.PlaneImage?.Sha256 == first.Sha256)?.PlaneExtent;
        }
        return set;
    }

    private void Add(OpenStudio studio, StudioDb db, string slot, IReadOnlyList<RunSource> sources)
    {
        List<InputImage> images = [];
        _images[slot] = images;
        foreach (var source in sources)
        {
            studio.Objects.OpenRead(source.Sha256).Dispose();
            images.Add(new InputImage(source.FileName, ImageFile.Open(studio.Objects.PathOf(source.Sha256)), source.Light is null ? null : Light.Find(source.Light),
                source.MmPerPixel is { } mm ? new PixelScale(mm, source.ScaleOrigin ?? ScaleOrigin.Assumed) : null, source.Sha256) { Original = OriginalOf(studio, db, source), Lamp = source.Lamp });
            _sources.Add(source);
        }
    }

    /// <summary>The photograph of which a plane image was made; the image's hash says by which alignment.</summary>
    private static OriginalView? OriginalOf(OpenStudio studio, StudioDb db, RunSource source)
    {
        var alignment = db.Alignments.AsNoTracking().Where(a => a.PhotographId == source.PhotographId).AsEnumerable().FirstOrDefault(a => a.PlaneImage?.Sha256 == source.Sha256);
        if (alignment is not { Map: HomographyMap map, PlaneExtent: { } extent, PlaneImage: { } image }) return null;
        var photograph = db.Photographs.AsNoTracking().First(p => p.Id == source.PhotographId);
        if (photograph.Pyramid is not { } pyramid) return null;
        var perMm = image.Width / extent.Width;
        return new OriginalView(studio.Objects.PathOf(pyramid.Sha256), photograph.Facts.Bands - (photograph.Facts.HasAlpha ? 1 : 0),
            map.Then(new Homography([perMm, 0, -extent.Left * perMm, 0, perMm, -extent.Top * perMm, 0, 0, 1])));
    }

    private static RunSource SourceOf(StudioDb db, Declaration declaration, Painting painting, string slot, Guid photographId)
    {
        var source = PlacedSourceOf(db, declaration, painting, slot, photographId, out var photograph);
        return declaration.Inputs.Any(s => s.Name == slot && s.ByLamp) ? source with { Lamp = LampAngles.Of(photograph.AzimuthDeg, photograph.LightSide, photograph.ElevationDeg) } : source;
    }

    private static RunSource PlacedSourceOf(StudioDb db, Declaration declaration, Painting painting, string slot, Guid photographId, out Photograph photograph)
    {
        photograph = db.Photographs.AsNoTracking().Include(p => p.Alignments).FirstOrDefault(p => p.Id == photographId && p.PaintingId == painting.Id)
            ?? throw new InputProblem("unknown-photograph", photographId.ToString(), "There is no such photograph of this painting.", "The painting's page lists its photographs.");
        var alignment = photograph.Alignments.InForce();
        // A part's scale must not change once the mosaic has placed it: the same parts make the same mosaic.
        if (declaration.Inputs.FirstOrDefault(s => s.Name == slot) is { InOwnPixels: true })
            return new RunSource(slot, photographId, photograph.FileName, photograph.Sha256, photograph.Light, photograph.Facts.Scale?.MmPerPixel, photograph.Facts.Scale?.Origin);
        if (!declaration.OnPlane)
        {
            // Finding the corners comes before the scale that follows from them: with it, each alignment would ask for the corners anew.
            PixelScale? scale = declaration.Id == FaceFinding.ReadingId ? null : alignment?.MmPerPixel is { } mm ? new PixelScale(mm, painting.SizeOrigin) : photograph.Facts.Scale;
            return new RunSource(slot, photographId, photograph.FileName, photograph.Sha256, photograph.Light, scale?.MmPerPixel, scale?.Origin);
        }
        return alignment is { PlaneImage: { } image, PlaneExtent: { } extent }
            ? new RunSource(slot, photographId, photograph.FileName, image.Sha256, photograph.Light, extent.Width / image.Width, painting.SizeOrigin)
            : throw new InputProblem("not-aligned", photograph.FileName, $"{photograph.FileName} is not aligned: {alignment?.Reason ?? "nobody has tried yet"}.", "Set its corners on the Easel first.");
    }
}
