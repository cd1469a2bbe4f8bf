using System.Globalization;
using NetTopologySuite.Geometries;
using NetTopologySuite.Simplify;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Numbers;
using Sandarac.Analysis.Sections.Aligning;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>A section's boundaries at full size, from the surface down, and its layers' looks.</summary>
/// <param name="Finding">The layers as they were found.</param>
/// <param name="Frame">The boundaries' frame.</param>
/// <param name="Boundaries">The boundaries.</param>
/// <param name="Luminesces">Whether the second image in which they were looked for is under ultraviolet.</param>
/// <param name="Sublayers">Parts of layers.</param>
internal sealed record MeasuredSection(SectionFinding Finding, StrataFrame Frame, IReadOnlyList<Boundary> Boundaries, bool Luminesces, IReadOnlyList<Sublayer> Sublayers)
{
    /// <summary>Fewest profiles that show strata.</summary>
    private const int LeastProfiles = 8;

    /// <summary>Boundaries that jump more steeply than this from profile to profile are none.</summary>
    private const double MostRoughness = 0.6;

    /// <summary>Steps wider than this share of the longer side show no layers.</summary>
    private const double MostBlur = 1 / 40.0;

    /// <summary>Vertices nearer than this to the line between others are left out, pixels.</summary>
    private const double Tolerance = 0.1;

    public static readonly DocumentParameter Clicks = new("clicks", "Clicks and edits", "Points through which boundaries pass and lines along which they run, in pixels of the first image from its upper left corner, y down, as a GeoJSON feature collection, in the order in which they were made; those with the same property \"boundary\" are of one boundary. "
        + "A point with the property \"edit\": \"remove\" takes the boundary there out.", "GeoJSON", Steering.Canonical);

    public static readonly ChoiceParameter Which = new("boundaries", "Boundaries", "proposed: those that are found, those that are clicked or drawn held to that and others added. clicked: only those with a click or a drawn stretch, surface and lower edge among them.", "proposed", ["proposed", "clicked"]);

    public static readonly NumberParameter LeastDifference = new("least-difference", "Least difference", "Neighbouring layers whose mean colours differ by less in every light are one: CIELAB distance.", null, 4, 0, 50);

    public static readonly NumberParameter LeastCoverage = new("least-coverage", "Least coverage", "What covers a smaller share of the section is no layer.", "%", 12, 0, 90);

    /// <summary>Layers.</summary>
    public int Layers => Boundaries.Count - 1;

    /// <summary>Median width of the steps, pixels; NaN when none could be measured.</summary>
    public double StepWidth => Robust.Median(Boundaries.Select(b => b.Width).Where(double.IsFinite));

    /// <summary>A layer's boundaries; layers are counted from 1 at the bottom.</summary>
    public (Boundary Upper, Boundary Lower) Of(int layer) => (Boundaries[Layers - layer], Boundaries[Layers - layer + 1]);

    /// <summary>A layer's look; 0 is what lies below the section, the number of layers and one more what lies above.</summary>
    public LayerLook Look(int layer) => Finding.Looks[Layers + 1 - layer];

    /// <summary>Finds and follows the boundaries; or says why there is no answer.</summary>
    /// <param name="aligned">The micrographs.</param>
    /// <param name="context">The run.</param>
    /// <exception cref="Imaging.InputProblem">Clicks beside the section.</exception>
    public static (MeasuredSection? Section, string? NoAnswer) Find(AlignedMicrographs aligned, RunContext context)
    {
        var micrographs = Micrographs.Of(aligned.Images, context);
        context.Report(0.1);
        var workers = context.Workers;
        var frame = StrataFrame.Find(micrographs, workers);
        var profiles = Profiles.Of(micrographs, frame, workers);
        if (profiles.Count < LeastProfiles) return (null, "No section: too little of the image lies across any strata.");
        var steps = Steering.Read(context.Value(Clicks)).Steps;
        var (chain, finding) = Search(frame, profiles, context);
        // Beside a small sample resin may outweigh its layers: more layers than there are still say where it ends.
        if ((finding ?? Found(frame, profiles, LayerSearch.Grown(profiles), context)) is { } whole && whole.Last - whole.First < profiles.Count - 1 && whole.Last - whole.First >= LeastProfiles)
        {
            // The sample ends within the image: what lies beside it must not have a say in what its layers are.
            profiles = profiles.Part(whole.First, whole.Last);
            (chain, finding) = Search(frame, profiles, context);
        }
        if (chain is null) return (null, "No section: the image is even.");
        IReadOnlyList<Course> courses = [];
        if (steps.Count > 0)
        {
            int[][] proposed = finding is null ? [chain.Edges[0], chain.Edges[^1]] : [chain.Edges[0], .. finding.Edges, chain.Edges[^1]];
            var steered = SteeredLayers.Of(profiles, frame, proposed, steps, micrographs.Factor, context.Value(Which) == "clicked");
            finding = SectionFinding.Of(frame, profiles, steered.Edges);
            courses = steered.Courses;
        }
        if (finding is null) return (null, "No section: no layers were found between what lies above and below, or all look alike.");
        if (steps.Count == 0 && finding.Roughness > MostRoughness)
            return (null, string.Create(CultureInfo.InvariantCulture, $"No section: what was found does not run on as layers do (median slope {finding.Roughness:0.00} between neighbouring places)."));
        var full = frame.Enlarged(frame.ImageWidth * micrographs.Factor, frame.ImageHeight * micrographs.Factor);
        Point2 Enlarged(Point2 q) => full.FromImage(Scaled(frame.ToImage(q.X, q.Y), micrographs.Factor));
        HeldBoundary[] held = [.. courses.Select(c => new HeldBoundary([.. c.Pins.Select(Enlarged)], [.. c.Stretches.Select(s => s.Select(Enlarged).ToArray())]))];
        var (turned, boundaries) = BoundaryFollowing.Follow(finding, aligned.Images, micrographs.Factor, held, context);
        var section = new MeasuredSection(finding, turned, boundaries, aligned.Luminesces, Parts(finding, boundaries, aligned.Images, micrographs.Factor, context));
        var longest = Math.Max(aligned.Images[0].Grid.Width, aligned.Images[0].Grid.Height);
        return section.StepWidth > MostBlur * longest
            ? (null, string.Create(CultureInfo.InvariantCulture, $"Too blurred: the sharpest that layers show are steps {section.StepWidth:0} pixels wide."))
            : (section, null);
    }

    /// <summary>A boundary as a line in pixels of the first image.</summary>
    public LineString Line(Boundary boundary) => (LineString)DouglasPeuckerSimplifier.Simplify(new LineString([.. Places(boundary)]), Tolerance);

    /// <summary>A layer as an area in pixels of the first image; where it is not there its borders meet.</summary>
    public Geometry Area(int layer) => Area(Of(layer));

    /// <summary>What lies between two boundaries, the same way.</summary>
    public Geometry Area((Boundary Upper, Boundary Lower) between)
    {
        var (upper, lower) = between;
        Coordinate[] ring = [.. Line(upper).Coordinates, .. Line(lower).Coordinates.Reverse()];
        return new Polygon(new LinearRing([.. ring, ring[0].Copy()])).Buffer(0);
    }

    /// <summary>The parts of layers that hold weak boundaries; these are followed apart, so that they do not move the layers' own.</summary>
    private static List<Sublayer> Parts(SectionFinding finding, IReadOnlyList<Boundary> boundaries, IReadOnlyList<PlacedMicrograph> images, int factor, RunContext context)
    {
        var parts = new List<Sublayer>();
        if (Sections.Sublayers.Of(finding, context.Value(LeastDifference)) is not var (split, weak)) return parts;
        var followed = BoundaryFollowing.Follow(split, images, factor, [], context).Boundaries;
        for (var (e, layer, letter) = (split.Edges.Count - 2, 0, 'a'); e >= 0; e--)
        {
            (layer, letter) = weak.Contains(e + 1) ? (layer, (char)(letter + 1)) : (layer + 1, 'a');
            if (!weak.Contains(e) && !weak.Contains(e + 1)) continue;
            var (above, below) = (boundaries[finding.Layers - layer], boundaries[finding.Layers - layer + 1]);
            Boundary Held(int at, Boundary own) => weak.Contains(at) ? followed[at] with { Across = [.. followed[at].Across.Select((v, i) => Math.Clamp(v, above.Across[i], below.Across[i]))] } : own;
            parts.Add(new Sublayer(layer, letter, Held(e, above), Held(e + 1, below), split.Looks[e + 1]));
        }
        return parts;
    }

    private IEnumerable<Coordinate> Places(Boundary boundary) => boundary.Across.Select((v, i) => Frame.ToImage(boundary.From + i + 0.5, v)).Select(p => new Coordinate(p.X, p.Y));

    private static (LayerChain.Fitted? Chain, SectionFinding? Finding) Search(StrataFrame frame, Profiles profiles, RunContext context) =>
        LayerSearch.Find(profiles) is { } chain ? (chain, Found(frame, profiles, chain, context)) : (null, null);

    private static SectionFinding? Found(StrataFrame frame, Profiles profiles, LayerChain.Fitted? chain, RunContext context) =>
        chain is null ? null : SectionFinding.Of(frame, profiles, chain, context.Value(LeastDifference), context.Value(LeastCoverage) / 100);

    private static Point2 Scaled(Point2 p, double factor) => new(p.X * factor, p.Y * factor);
}
