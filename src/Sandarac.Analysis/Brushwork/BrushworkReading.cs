using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Relief;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>How the paint was laid: direction, body and strokes, by place and by zone.</summary>
public sealed class BrushworkReading : Reading
{
    private static readonly LengthParameter Scale = new("scale", "Scale of directions", "Standard deviation of the window over which furrows are taken together.", 2, 0.2, 50);
    private static readonly LengthParameter Shortest = new("shortest-wave", "Shortest wave of the relief", "Shorter waves are left out; three pixels where that is more, for the lens blurs them.", 0.5, 0.01, 50);
    private static readonly LengthParameter Longest = new("longest-wave", "Longest wave of the relief", "Longer waves are taken for the support's form, not for paint.", 8, 0.5, 200);
    private static readonly LengthParameter Window = new("window", "Window of the relief", "Standard deviation of the window in which relief is taken together.", 1.5, 0.2, 50);
    private static readonly NumberParameter Thin = new("thin-from", "Thin from", "Relief (Sq) from which paint is no longer called watery.", "um", 5, 0, 1000);
    private static readonly NumberParameter Full = new("body-from", "Body from", "Relief from which it is no longer called thin.", "um", 12, 0, 1000);
    private static readonly NumberParameter Impasto = new("impasto-from", "Impasto from", "Relief from which it is called impasto.", "um", 30, 0, 1000);
    private static readonly NumberParameter ColourStep = new("colour-step", "Colour step", "Colour difference per mm, measured after colour is evened out along the pull, that parts two strokes.", "CIELAB/mm", 3, 0.1, 100);
    private static readonly NumberParameter Smallest = new("smallest-stroke", "Smallest stroke", "Smaller pieces are no strokes.", "mm2", 4, 0.1, 10000);
    private static readonly LengthParameter Neighbourhood = new("neighbourhood", "Neighbourhood", "Strokes whose middles lie no farther apart are neighbours.", 20, 1, 1000);
    private static readonly LengthParameter ScrapeWidth = new("scrape-width", "Width of a scraped mark", "Furrows about this broad that cross the brush's are proposed.", 0.5, 0.05, 20);
    private static readonly NumberParameter ScrapeDepth = new("scrape-depth", "Depth of a scraped mark", "Least depth.", "um", 15, 1, 1000);
    private static readonly LengthParameter ScrapeLength = new("scrape-length", "Shortest scraped mark", "Shorter ones are left out.", 4, 0.5, 500);
    private static readonly DocumentParameter Zones = new("zones", "Zones", "Areas in mm with the property class, the zone's name: strokes are told for each, and each is compared with each.", "GeoJSON", Marks.Canonical);

    /// <summary>What the classes of <see cref="Body"/> are called, in their order.</summary>
    private static readonly string[] Bodies = ["watery", "thin", "body", "impasto"];

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "brushwork",
        Version = 1,
        Title = "Brushwork",
        Summary = "Tells from raking light which way the brush was pulled, how much body the paint has and where it was scraped, finds strokes as objects, and compares zones stroke by stroke.",
        Citation = "Directions: structure tensor of the slopes, Bigun and Granlund, ICCV 1987, 433. Relief: local Sq (ISO 25178-2) between two wavelengths (ISO 25178-3, Gaussian filter of ISO 16610-61). Strokes: basins (Vincent and Soille, IEEE PAMI 13 (1991) 583) of the colour's steepness evened out along the pull (Cabral and Leedom, SIGGRAPH 1993, 263); descriptors of Li, Yao, Hendriks and Wang, IEEE PAMI 34 (2012) 1159. Zones: Cliff's delta, Psychological Bulletin 114 (1993) 494, interval by drawing places of 20 mm (block bootstrap). All from memory, not re-read.",
        Limits = "Evidence of how paint was laid, never of whose hand laid it: restorers' paint, varnish, wear, weave and cracks have relief and direction too. Relief is the photographs': waves shorter than three pixels are left out, somewhat longer ones come out too low, and furrows nearer than three pixels have no distance. Where classes of body begin is common practice, no source: set the thresholds. A stroke here is an elongated piece of one colour along its furrows: strokes of one colour side by side are taken as one, a stroke crossed by another as two. Zones should be larger than a few strokes' length; the interval of a difference knows nothing of other paintings.",
        Inputs = PaintedSurface.Slots,
        Parameters = [.. LampSources.Parameters, Scale, Shortest, Longest, Window, Thin, Full, Impasto, ColourStep, Smallest, Neighbourhood, ScrapeWidth, ScrapeDepth, ScrapeLength, Zones],
        Rasters =
        [
            new("direction", "Direction of the brush", "degrees", ["anticlockwise from the horizontal"]),
            new("coherence", "How far furrows agree", "1", ["coherence"]),
            new("relief", "Relief of the paint (Sq)", "um", ["sq"]),
            new("body", "Body of the paint", "1", ["class"], Classes: Bodies),
            new("strokes", "Strokes, numbered", "1", ["number"]),
        ],
        Figures =
        [
            new("body-area", "Area by body", "cm2", "Counted in pixels; how surely a place is in its class, its distance from the thresholds says."),
            new("body-share", "Share by body", "%", "Of what has data; counted in pixels."),
            new("directed-share", "Share with a direction", "%", "Where furrows agree to one half or more; counted in pixels."),
            new("strokes", "Strokes", "1", "Counted; exact. Strokes whose middles lie in the zone."),
            .. BrushZone.Descriptors.Select(d => new FigureOutput(d.Name, d.Words, d.Unit, "Median of the zone's strokes; half-width of its interval of 95 % for independent strokes.")),
            new("stroke-direction", "Direction of strokes", "degrees", "Mean direction, anticlockwise from the horizontal; the note tells how far strokes spread."),
            new("difference", "Difference of zones", "1", "Cliff's delta: 1 when every stroke of the first zone has the larger value, 0 when neither is larger more often; half-width to the farther end of the interval, both ends in the note."),
            new("scraped", "Scraped marks proposed", "1", "Counted; exact."),
        ],
        Reach = new Reach.Whole(PaintedSurface.MostPixels),
        OnPlane = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var thresholds = new BodyThresholds(context.Value(Thin), context.Value(Full), context.Value(Impasto));
        if (!(thresholds.Thin <= thresholds.Full && thresholds.Full <= thresholds.Impasto))
            throw new InputProblem("body-thresholds", Full.Name, "The thresholds of body do not rise.", "Give thin-from, body-from and impasto-from in rising order.");
        if (!(context.Value(Longest) >= 2 * context.Value(Shortest)))
            throw new InputProblem("relief-waves", Longest.Name, "The longest wave of the relief is shorter than twice the shortest.", "Give a longer one.");
        var areas = Areas(context);
        var set = RakingSet.Of(context);
        var threads = new ParallelOptions { MaxDegreeOfParallelism = context.Tiling.Threads, CancellationToken = context.Cancellation };
        if (PaintedSurface.Of(set, context, threads) is not var (surface, factor, warnings)) return new Outcome { NoAnswer = "No place is lit by three lamps." };
        context.Begin(0.5, 0.6);
        double Pixels(LengthParameter length) => context.Value(length) / surface.Mm;
        var field = DirectionField.Of(surface.SlopeX, surface.SlopeY, Pixels(Scale), threads);
        var (texture, relief) = (ReliefTexture.Between(surface.Height, null, Pixels(Longest), threads), ReliefTexture.Between(surface.Height, Pixels(Shortest), Pixels(Longest), threads));
        var sq = ReliefTexture.LocalSq(relief, Pixels(Window), threads);
        context.Begin(0.6, 0.8);
        var strokes = Strokes.Of(surface, field, texture, relief, new StrokeSettings(context.Value(ColourStep), context.Value(Smallest), context.Value(Neighbourhood)), threads);
        context.Begin(0.8, 0.95);
        var scraped = ScrapedMarks.Of(texture, field, new ScrapeSettings(context.Value(ScrapeWidth), context.Value(ScrapeDepth), context.Value(ScrapeLength)), surface.Mm, threads);
        context.Begin(0.95, 1);
        BrushworkMaps.Write(context, set.Images[0], factor, field, sq, thresholds, strokes);
        context.Report(1);
        var zones = BrushZone.Of(strokes, areas);
        return new Outcome
        {
            Candidates = scraped ?? [],
            Figures =
            [
                .. OfBody(thresholds, sq, surface.Mm), Directed(field),
                .. zones.SelectMany(z => z.Figures()),
                .. zones.Skip(1).SelectMany((a, i) => zones.Skip(i + 2).SelectMany(a.Against)),
                new("scraped", scraped?.Count, null, scraped is null ? "such furrows cover fewer than two pixels: no answer" : "counted: exact"),
            ],
            Warnings = [.. warnings, .. TooFine(surface.Mm, context)],
        };
    }

    private static (string Name, NetTopologySuite.Geometries.Geometry Area)[] Areas(RunContext context)
    {
        var marks = Marks.Read(context.Value(Zones));
        if (marks.All.Any(m => m.Geometry is not NetTopologySuite.Geometries.IPolygonal))
            throw new InputProblem("zones", Zones.Name, "A zone is a line.", "Give areas.");
        return [.. marks.All.Select(m => (marks.Classes[m.Class], m.Geometry))];
    }

    private static IEnumerable<Figure> OfBody(BodyThresholds thresholds, Plane sq, double mm)
    {
        var (shares, pixels) = thresholds.Shares(sq);
        return Bodies.SelectMany((name, k) => new Figure[]
        {
            new("body-area", shares[k] * pixels * mm * mm / 100, null, "counted; see the thresholds", name),
            new("body-share", 100 * shares[k], null, "counted; see the thresholds", name),
        });
    }

    private static IEnumerable<Warning> TooFine(double mm, RunContext context)
    {
        var finest = ReliefTexture.FinestPixels * mm;
        if (finest > context.Value(Shortest)) yield return new Warning("relief-too-fine", FormattableString.Invariant($"Waves shorter than {finest:0.0#} mm are not in the relief: the photographs do not show them. Classes of body are compared only between photographs of one resolution."));
    }

    private static Figure Directed(DirectionField field)
    {
        var known = field.Coherence.Data.Count(c => !float.IsNaN(c));
        return new("directed-share", known == 0 ? null : 100.0 * field.Coherence.Data.Count(c => c >= 0.5f) / known, null, known == 0 ? "no data: no answer" : "counted");
    }
}
