using System.Globalization;
using NetTopologySuite.Geometries;
using NetTopologySuite.Simplify;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>A section's boundaries at full size, from the surface down, and its layers' looks.</summary>
internal sealed record MeasuredSection(SectionFinding Finding, StrataFrame Frame, IReadOnlyList<Boundary> Boundaries, IReadOnlyList<Sublayer> Sublayers)
{
    /// <summary>Smallest image, pixels.</summary>
    private const int LeastSide = 64;

    /// <summary>Fewest profiles that show strata.</summary>
    private const int LeastProfiles = 8;

    /// <summary>Boundaries that jump more steeply than this from profile to profile are none.</summary>
    private const double MostRoughness = 0.6;

    /// <summary>Steps wider than this share of the longer side show no layers.</summary>
    private const double MostBlur = 1 / 40.0;

    /// <summary>Vertices nearer than this to the line between others are left out, pixels.</summary>
    private const double Tolerance = 0.1;

    public static readonly IReadOnlyList<InputSlot> Slots =
    [
        new("visible", "The section in visible light.", [Lights.Light.Section, Lights.Light.Visible]),
        new("luminescence", "The same place under ultraviolet, on the same grid.", [Lights.Light.Section, Lights.Light.Luminescence], 0),
        new("electrons", "The same place by back-scattered electrons, on the same grid.", [], 0),
    ];

    public static readonly DocumentParameter Clicks = new("clicks", "Clicks", "Points through which boundaries pass, in pixels of the first image from its upper left corner, y down, as a GeoJSON feature collection; those with the same property \"boundary\" are of one boundary.", "GeoJSON", Steering.Canonical);

    public static readonly ChoiceParameter Which = new("boundaries", "Boundaries", "proposed: those that are found, those that are clicked held to the clicks and others added. clicked: only those with a click, surface and lower edge among them.", "proposed", ["proposed", "clicked"]);

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
    /// <exception cref="InputProblem">Images of different sizes, or too small ones; clicks beside the section.</exception>
    public static (MeasuredSection? Section, string? NoAnswer) Find(RunContext context)
    {
        InputImage[] images = [.. Slots.SelectMany(s => context.Inputs(s.Name))];
        Check(images);
        var micrographs = Micrographs.Of(images, context);
        context.Report(0.1);
        var workers = new ParallelOptions { MaxDegreeOfParallelism = context.Tiling.Threads, CancellationToken = context.Cancellation };
        var frame = StrataFrame.Find(micrographs, workers);
        var profiles = Profiles.Of(micrographs, frame, workers);
        if (profiles.Count < LeastProfiles) return (null, "No section: too little of the image lies across any strata.");
        var clicks = Steering.Read(context.Value(Clicks));
        var (chain, finding) = Search(frame, profiles, context);
        // Beside a small sample resin may outweigh its layers: more layers than there are still say where it ends.
        if ((finding ?? Found(frame, profiles, LayerSearch.Grown(profiles), context)) is { } whole && whole.Last - whole.First < profiles.Count - 1 && whole.Last - whole.First >= LeastProfiles)
        {
            // The sample ends within the image: what lies beside it must not have a say in what its layers are.
            profiles = profiles.Part(whole.First, whole.Last);
            (chain, finding) = Search(frame, profiles, context);
        }
        if (chain is null) return (null, "No section: the image is even.");
        IReadOnlyDictionary<int, List<(double, double)>> pins = new Dictionary<int, List<(double, double)>>();
        if (clicks.Boundaries.Count > 0)
        {
            int[][] proposed = finding is null ? [chain.Edges[0], chain.Edges[^1]] : [chain.Edges[0], .. finding.Edges, chain.Edges[^1]];
            var steered = SteeredLayers.Of(profiles, frame, proposed, [.. clicks.Boundaries.Select(b => b.Select(p => new Point2(p.X / micrographs.Factor, p.Y / micrographs.Factor)).ToArray())], context.Value(Which) == "clicked");
            finding = SectionFinding.Of(frame, profiles, steered.Edges);
            var full = frame.Enlarged(frame.ImageWidth * micrographs.Factor, frame.ImageHeight * micrographs.Factor);
            pins = steered.Pins.ToDictionary(e => e.Key, e => e.Value.Select(q => full.FromImage(Scaled(frame.ToImage(q.X, q.Y), micrographs.Factor))).Select(q => (q.X, q.Y)).ToList());
        }
        if (finding is null) return (null, "No section: no layers were found between what lies above and below, or all look alike.");
        if (clicks.Boundaries.Count == 0 && finding.Roughness > MostRoughness)
            return (null, string.Create(CultureInfo.InvariantCulture, $"No section: what was found does not run on as layers do (median slope {finding.Roughness:0.00} between neighbouring places)."));
        var (turned, boundaries) = BoundaryFollowing.Follow(finding, images, micrographs.Factor, pins, context);
        var section = new MeasuredSection(finding, turned, boundaries, Parts(finding, boundaries, images, micrographs.Factor, context));
        var longest = Math.Max(images[0].Image.Facts.Width, images[0].Image.Facts.Height);
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
    private static List<Sublayer> Parts(SectionFinding finding, IReadOnlyList<Boundary> boundaries, InputImage[] images, int factor, RunContext context)
    {
        var parts = new List<Sublayer>();
        if (Sections.Sublayers.Of(finding) is not var (split, weak)) return parts;
        var followed = BoundaryFollowing.Follow(split, images, factor, new Dictionary<int, List<(double, double)>>(), context).Boundaries;
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

    private static void Check(InputImage[] images)
    {
        var first = images[0].Image.Facts;
        foreach (var image in images)
        {
            var facts = image.Image.Facts;
            if (Math.Min(facts.Width, facts.Height) < LeastSide)
                throw new InputProblem("too-small", image.Name, $"{image.Name} has {facts.Width} x {facts.Height} pixels.", $"A section needs at least {LeastSide} pixels on the shorter side.");
            if ((facts.Width, facts.Height) != (first.Width, first.Height))
                throw new InputProblem("input-size", image.Name, $"{image.Name} is {facts.Width} x {facts.Height} pixels, {images[0].Name} is {first.Width} x {first.Height}: they do not share one grid.",
                    "Align them first: sandarac align VISIBLE OTHER --out ALIGNED.tif.");
        }
    }
}
