using NetTopologySuite.Algorithm.Locate;
using NetTopologySuite.Geometries;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections.Aligning;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Sections.Particles;

/// <summary>The grains in each layer of a paint section: how many, how large, what shape and colour.</summary>
public sealed class ParticlesReading : Reading
{
    private static readonly DocumentParameter Areas = new("areas", "Areas", "Layers or other areas as polygons in pixels of the visible image, a GeoJSON feature collection, each with the property \"class\": its name. Without them the layers are found as `layers` finds them.", "GeoJSON", Marks.Canonical);

    private static readonly NumberParameter LeastDiameter = new("least-diameter", "Smallest grain", "Grains of a smaller equivalent diameter are left out.", "px", 4, 1, 1000);

    private static readonly FlagParameter AsSpheres = new("as-spheres", "As spheres", "Also gives the mean diameter of spheres whose sections would be these.", false);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "particles",
        Version = 2,
        Title = "Particles of a section",
        Summary = "Separates the grains in each layer of a paint section, touching ones too, and gives their sizes, shapes and classes of colour.",
        Citation = "Threshold: Otsu, IEEE Trans. Systems, Man and Cybernetics 9 (1979) 62. Watershed: Vincent and Soille, IEEE PAMI 13 (1991) 583, markers by dynamics: Grimaud, SPIE 1769 (1992) 292. Distances: Meijster, Roerdink and Hesselink, ISMM 2000, 331. Intervals: Efron, Annals of Statistics 7 (1979) 1. Spheres: Saltykov, Stereometric Metallography (1958). All from memory, not re-read.",
        Limits = "Grains that differ from their medium by less than 4 CIELAB units in visible light, and those below the least diameter, are not counted; nor is what lies beneath the polished surface told from what lies in it, where the medium is clear. Overlapping grains whose neck is hardly narrower than they are stay one. A section cuts grains off their middles: diameters are those of the sections, on average 0.785 of equal spheres', and the correction holds for spheres only. "
            + "Large grains are cut off by a layer's border more often and are then left out of the sizes, which makes these too small in thin layers. Colour is the camera's and names nothing but a colour.",
        Inputs = [.. AlignedMicrographs.Slots, SectionScale.StageMicrometer],
        Parameters = [Areas, LeastDiameter, AsSpheres, MeasuredSection.Clicks, MeasuredSection.Which, MeasuredSection.LeastDifference, MeasuredSection.LeastCoverage, .. SectionScale.Parameters],
        Rasters = [new("grains", "Grains, numbered", "1", ["number"])],
        Figures = ParticlesFigures.Declared,
        Reach = new Reach.Whole(1600),
        OnPlane = false,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var image = context.Inputs("visible")[0];
        var scale = SectionScale.Of(context, image);
        var given = Marks.Read(context.Value(Areas));
        (string Name, Geometry Area)[] areas;
        Warning[] leftOut = [];
        if (given.All.Count > 0) areas = [.. given.All.Where(m => m.Geometry is IPolygonal).Select(m => (given.Classes[m.Class], m.Geometry))];
        else
        {
            using var micrographs = AlignedMicrographs.Of(context);
            leftOut = [.. micrographs.Alignments.Select(a => a.Warning).OfType<Warning>()];
            var (section, noAnswer) = MeasuredSection.Find(micrographs, context);
            if (section is null) return new Outcome { NoAnswer = noAnswer, Warnings = leftOut };
            areas = [.. Enumerable.Range(1, section.Layers).Select(l => (LayersFigures.Subject(l), section.Area(l)))];
        }
        var (facts, figures, first) = (image.Image.Facts, new List<Figure>(), 0);
        var numbered = new Plane(facts.Width, facts.Height);
        foreach (var (n, (name, area)) in areas.Index())
        {
            context.Report(0.5 + 0.5 * n / areas.Length);
            if (Grains(image, area, context.Value(LeastDiameter), numbered, first, context.Workers) is not { } grains) continue;
            first += grains.Grains.Count;
            figures.AddRange(ParticlesFigures.Of(grains, name, scale?.UmPerPixel, context.Value(AsSpheres)));
        }
        if (figures.Count == 0) return new Outcome { NoAnswer = "No grains: in no layer does anything stand out of its medium.", Warnings = leftOut };
        context.CreateRaster("grains", facts.Width, facts.Height, image.Scale).WriteWindow(0, 0, [numbered]);
        return new Outcome { Figures = figures, Warnings = [.. leftOut, .. Warnings(scale)] };
    }

    private static IEnumerable<Warning> Warnings(SectionScale? scale)
    {
        foreach (var warning in scale?.Warnings ?? []) yield return warning;
        if (scale is null) yield return new Warning("no-scale", "The micrograph has no scale: sizes are in pixels only.");
        yield return new Warning("sections-of-grains", "Diameters are those of the grains' sections: for equal spheres on average 0.785 of theirs.");
    }

    private static LayerGrains? Grains(InputImage image, Geometry area, double leastDiameter, Plane numbered, int first, ParallelOptions workers)
    {
        var box = area.EnvelopeInternal;
        var facts = image.Image.Facts;
        var (left, top) = (Math.Max(0, (int)box.MinX - 1), Math.Max(0, (int)box.MinY - 1));
        var (width, height) = (Math.Min(facts.Width, (int)box.MaxX + 2) - left, Math.Min(facts.Height, (int)box.MaxY + 2) - top);
        if (area.IsEmpty || width < 3 || height < 3) return null;
        var light = Micrographs.LightOf(new PlacedMicrograph(image, facts, null), left, top, width, height);
        var inside = new bool[width * height];
        var locator = new IndexedPointInAreaLocator(area);
        // The locator builds its index at the first question.
        locator.Locate(new Coordinate(left, top));
        Parallel.For(0, height, workers, y =>
        {
            for (var x = 0; x < width; x++) inside[y * width + x] = locator.Locate(new Coordinate(left + x + 0.5, top + y + 0.5)) == Location.Interior;
        });
        if (LayerGrains.Of(light, inside, leastDiameter, workers) is not { Grains.Count: > 0 } grains) return null;
        for (var i = 0; i < inside.Length; i++)
            if (grains.Labels[i] > 0) numbered[left + i % width, top + i / width] = first + grains.Labels[i];
        return grains;
    }
}
