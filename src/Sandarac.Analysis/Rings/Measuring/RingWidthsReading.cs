using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>Proposes the ring boundaries along a line on a photograph of end grain and measures the rings between them.</summary>
public sealed class RingWidthsReading : Reading
{
    private const double NotGiven = -1, FarthestPixel = 1e6, LeastLength = 64, MostLength = 60000, LeastNarrowest = 3;
    private const string Dark = "dark", Light = "light";

    /// <summary>Fewer boundaries are no row of rings.</summary>
    private const int FewestBoundaries = 4;

    private static readonly NumberParameter FromX = End("from-x", "oldest ring, from the left"), FromY = End("from-y", "oldest ring, from the top"), ToX = End("to-x", "youngest ring, from the left"), ToY = End("to-y", "youngest ring, from the top");

    private static readonly LengthParameter Band = new("band", "Breadth of the band", "Over which the picture is averaged along the rings, half on either side of the line.", 3, 0.05, 50);

    private static readonly LengthParameter Narrowest = new("narrowest", "Narrowest ring", "Narrower rings are smoothed away and not counted.", 0.5, 0.02, 20);

    private static readonly ChoiceParameter Latewood = new("latewood", "Latewood is", "dark: as in most photographs of end grain; light: as in a radiograph that shows dense wood light, or where the earlywood's pores are dark.", Dark, [Dark, Light]);

    private static readonly NumberParameter Scale = new("mm-per-pixel", "Size of a pixel", "Where the photograph states none, or a wrong one: a ruler in the picture tells it. 0 for the photograph's own.", "mm", 0, 0, 10);

    private static readonly NumberParameter Obliquity = new("obliquity", "Angle of the cut", "Between the photographed surface and the plane straight across the stem; widths are multiplied by its cosine. How boundaries lean within the photograph is measured and corrected by itself.", "degrees", 0, 0, 60);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "ring-widths",
        Version = 2,
        Title = "Ring widths",
        Summary = "Proposes the boundaries of growth rings along a line on a photograph or radiograph of end grain, and measures the rings.",
        Citation = "Lean of the boundaries by the structure tensor (Bigun and Granlund, ICCV 1987, from memory); boundaries as rises of the averaged profile against noise and neighbours, their places by the steepest rise, brought back to where it lay before blur by how it moves from one smoothing to the next; intervals by the jackknife over lanes: ours, measured on drawn end grain only.",
        Limits = "A proposal: a person who knows wood checks every boundary, and looks for rings that are absent, false or too narrow, before anything is dated. Tested on drawn wood, not yet on real photographs. Sees steps from latewood to earlywood that cross most of the band: choose the side that is dark. Wood whose pores hide the boundary, rings narrower than stated, rings bent within the band and dirt have boundaries that are missed or false; regular saw marks look like rings. The scale's own error is not in the widths.",
        Inputs = [new("wood", "A photograph or radiograph of end grain with a scale, as sharp as can be.", [])],
        Parameters = [FromX, FromY, ToX, ToY, Scale, Band, Narrowest, Latewood, Obliquity],
        Rasters = [],
        Figures =
        [
            new("rings", "Whole rings", "1", "Between the first and the last boundary. Counted; what was missed or false is not in it."),
            new("mean-width", "Mean ring width", "mm", "Of the whole rings, across the boundaries. Its interval is that of the two ends, over the number of rings."),
            new("ring-width", "Ring width", "mm", "For each whole ring, the oldest first: distance of its two boundaries across them. 95 % interval from how the lanes of the band differ and from what blur leaves open; whether the boundary is one is not in it."),
            new("boundary-x", "Boundary on the line, from the left of the photograph", "px", "For each boundary, the oldest first; interval along the line as that of the widths. Where rings are narrow for the sharpness of the photograph, all boundaries lie some tenths of a pixel too near to the younger ring, which widths do not feel."),
            new("boundary-y", "Boundary on the line, from the top of the photograph", "px", "As boundary-x."),
            new("lean", "Lean of the boundaries", "degrees", "Against a right angle to the line, mean of all; widths are corrected for each by itself. Its spread is the uncertainty."),
            new("sharper", "Boundaries sharper on the side of the next ring", "1", "Share whose rise is steeper than the fall before it: near 1 where direction and latewood are stated rightly, near 0 where one of them is reversed."),
        ],
        Reach = new Reach.Blocks(256),
        OnPlane = false,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var image = Scaled(context.Inputs("wood")[0], context.Value(Scale));
        var (band, narrowest) = (context.Pixels(Band, image), context.Pixels(Narrowest, image));
        if (narrowest < LeastNarrowest)
            throw new InputProblem("rings-too-fine", Narrowest.Name, FormattableString.Invariant($"The narrowest ring covers {narrowest:0.0} pixels of {image.Name}; {LeastNarrowest} are needed."), "Photograph closer, or state wider rings.");
        var line = Line(context, image);
        var strip = RingStrip.Read(image, line, band, context);
        strip = context.Value(Latewood) == Light ? strip with { Values = strip.Values.Select(v => -v) } : strip;
        var slopes = RingSlope.Of(strip);
        context.Report(0.8);
        var profile = RingProfile.Of(strip.Straightened(slopes), Math.Max(1, narrowest / 5));
        var boundaries = new RingSearch(profile, slopes).Find();
        return boundaries.Count < FewestBoundaries
            ? new Outcome { Figures = [new("rings", null, null, "none found")], NoAnswer = $"No row of rings was found along this line: {(boundaries.Count == 0 ? "no boundary crosses" : $"{boundaries.Count} boundaries cross")} the band." }
            : MeasuredRings.Tell(line, boundaries, strip.Across(strip.Values.Height - 1), image.Scale!.Value.MmPerPixel * Math.Cos(context.Value(Obliquity) * Math.PI / 180));
    }

    /// <summary>The line that is followed where none is given: along the middle of the longer side, from the left or from the top.</summary>
    /// <param name="width">Of the photograph, pixels.</param>
    /// <param name="height">Of the photograph, pixels.</param>
    public static IReadOnlyList<Point2> MiddleLine(int width, int height) => width >= height ? [new(0, height / 2.0), new(width, height / 2.0)] : [new(width / 2.0, 0), new(width / 2.0, height)];

    /// <summary>The size of a pixel that a run of this reading took; null when it had none.</summary>
    /// <param name="parameters">The run's parameters.</param>
    /// <param name="own">What its photograph states.</param>
    public static double? ScaleOf(IReadOnlyDictionary<string, string> parameters, double? own) =>
        parameters.TryGetValue(Scale.Name, out var text) && double.Parse(text, CultureInfo.InvariantCulture) is > 0 and var given ? given : own;

    private static InputImage Scaled(InputImage image, double mmPerPixel) => mmPerPixel > 0 ? image with { Scale = new PixelScale(mmPerPixel, ScaleOrigin.Measured) }
        : image.Scale is not null ? image : throw new InputProblem("no-scale", Scale.Name, $"{image.Name} does not state how large its pixels are.", "Draw a line along a ruler in the photograph and say how long it is, or give the size of a pixel.");

    /// <summary>The line; along the middle where none was given.</summary>
    private static RingLine Line(RunContext context, InputImage image)
    {
        var (width, height) = (image.Image.Facts.Width, image.Image.Facts.Height);
        double[] given = [context.Value(FromX), context.Value(FromY), context.Value(ToX), context.Value(ToY)];
        if (given.All(v => v == NotGiven)) return new RingLine(MiddleLine(width, height)[0], MiddleLine(width, height)[1]);
        var (from, to) = (new Point2(given[0], given[1]), new Point2(given[2], given[3]));
        if (given.Any(v => v < 0) || Math.Max(from.X, to.X) > width || Math.Max(from.Y, to.Y) > height || from.DistanceTo(to) is < LeastLength or > MostLength)
            throw new InputProblem("ring-line", FromX.Name, FormattableString.Invariant($"The line does not lie on {image.Name} ({width} x {height} pixels), or is shorter than {LeastLength} or longer than {MostLength} pixels."), "Give all of from-x, from-y, to-x and to-y in pixels of the photograph, from the oldest ring to the youngest.");
        return new RingLine(from, to);
    }

    private static NumberParameter End(string name, string where) => new(name, $"Line, {where}", $"Line across the rings, {where}; -1 for a line along the middle of the photograph.", "px", NotGiven, NotGiven, FarthestPixel);
}
