using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Teaching;

/// <summary>Where else the painting looks, in all aligned layers together, like what a person has marked.</summary>
public sealed class TaughtZonesReading : Reading
{
    private static readonly DocumentParameter MarksGiven = new("marks", "Marks", "Lines and areas as a GeoJSON feature collection, each feature with the property \"class\": two to eight classes, at least five places of each.", "GeoJSON", Marks.Canonical);

    private static readonly ChoiceParameter Unit = new("marks-unit", "Unit of the marks", "Whether the marks' coordinates are millimetres or pixels, from the upper left corner, y down.", "mm", ["mm", "px"]);

    /// <summary>How wide a line counts.</summary>
    public static LengthParameter StrokeWidth { get; } = new("stroke-width", "Width of a stroke", "How wide a line counts.", 1, 0.05, 50);

    internal static readonly LengthParameter Finest = new("finest", "Finest texture", "Standard deviation of the smallest window in which mean, deviation and steepness are taken; two more windows are two and four times as large.", 0.5, 0.05, 20);

    internal static readonly LengthParameter BlockDistance = new("block-distance", "Separate examples", "Marks of one class that lie nearer to each other count as one example; those nearer to held-out marks of their class are not learnt from.", 10, 0, 500);

    private static readonly IntegerParameter Trees = new("trees", "Trees", "Trees of the forest.", null, 100, 10, 1000);

    private static readonly NumberParameter Threshold = new("threshold", "Least probability", "Areas in which a class is more probable than this are proposed.", null, 0.7, 0.5, 0.999);

    private static readonly LengthParameter LeastSize = new("least-size", "Smallest size", "Areas smaller than a square of this side are left out.", 2, 0.1, 100);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "taught-zones",
        Version = 2,
        Title = "Taught zones",
        Summary = "Learns from marks of two or more classes what they look like in all layers together, shows where else it looks so, and says on marks it has not seen how far that can be trusted.",
        Citation = "Extremely randomised trees: Geurts, Ernst and Wehenkel, Machine Learning 63 (2006) 3. Held-out blocks instead of pixels: Roberts and others, Ecography 40 (2017) 913. Permutation importance: Breiman, Machine Learning 45 (2001) 5. Calibration by one power, the likeliest given the held-out marks and a normal prior of its logarithm: Guo, Pleiss, Sun and Weinberger, PMLR 70 (2017) 1321; its error: Naeini, Cooper and Hauskrecht, AAAI 2015, 2901. Intervals: Wilson, J. American Statistical Association 22 (1927) 209, and Newcombe, Statistics in Medicine 17 (1998) 873. All from memory, not re-read.",
        Limits = "It knows nothing but the marks: what is of no marked class is given to one of them all the same, so mark what the painting is elsewhere too. An area it proposes looks like the marks, and is a place to look at, no more. Probabilities hold as if all classes were equally common; a rare class is less probable than they say. "
            + "A class with fewer than five separate examples gives no answer. Two classes are called separable when the 95 % interval of the balanced accuracy between them lies above one half; classes that are not separable from every other are warned of and not proposed, nor is a class that fills more than half of the image. "
            + "A pixel without data in any layer is neither learnt from nor judged: leave out layers that show only a part. Uneven lamps are part of what is learnt. Lights that say the same share their importance. Of each mark 200 pixels are used at most.",
        Inputs = [new("layers", "Aligned images in any light; all their colour bands are used.", [], 1, 32)],
        Parameters = [MarksGiven, Unit, StrokeWidth, Finest, BlockDistance, Trees, Threshold, LeastSize],
        Rasters = [.. Enumerable.Range(1, Marks.MostClasses).Select(k => new RasterOutput(Raster(k), FormattableString.Invariant($"Probability of class {k}"), "relative", ["probability"]))],
        Figures = TaughtFigures.Declared,
        Reach = new Reach.Halo(500),
        OnPlane = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var marks = Marks.Read(context.Value(MarksGiven));
        if (marks.Classes.Count < 2) return new Outcome { NoAnswer = "Not enough examples: there are no marks of two classes." };
        var images = context.Inputs("layers");
        var width = context.Pixels(StrokeWidth, images[0]);
        var mm = images[0].Scale!.Value.MmPerPixel;
        var layers = TaughtLayers.Of(images, mm);
        var areas = Lesson.Areas(marks, context.Value(Unit) == "mm" ? 1 / mm : 1, width);
        var settings = new LessonSettings(context.Value(Finest), context.Value(Trees), context.Value(BlockDistance));
        var threads = new ParallelOptions { MaxDegreeOfParallelism = context.Tiling.Threads, CancellationToken = context.Cancellation };
        var lesson = Lesson.Learn(layers, marks, areas, settings, threads);
        if (lesson?.Assessment is not { } assessment || lesson.WhyNotEnough() is not null)
            return new Outcome { NoAnswer = lesson?.WhyNotEnough() ?? "Not enough examples: of some class no pixel with data in every layer is marked." };
        var map = Write(lesson, layers, context);
        var places = ProbablePlaces.Of(map, lesson, context.Value(Threshold), context.Pixels(LeastSize, images[0]));
        return new Outcome
        {
            Candidates = [.. places.Select(p => p.Candidate)],
            Figures = TaughtFigures.Of(lesson, assessment, map, places),
            Warnings = [.. Enumerable.Range(0, lesson.Classes).Where(k => assessment.NotToldFrom(k).Count > 0).Select(k => new Warning("not-separable", lesson.Verdict(k)))],
        };
    }

    private static ProbabilityMap Write(Lesson lesson, TaughtLayers layers, RunContext context)
    {
        var images = context.Inputs("layers");
        var writer = new OneEach([.. Enumerable.Range(1, lesson.Classes).Select(k => context.CreateRaster(Raster(k), layers.Width, layers.Height, images[0].Scale))]);
        var map = new ProbabilityMap(layers, lesson.Classes);
        TiledRun.ForEach(images, lesson.Features.Halo, (tile, windows) =>
        {
            var features = lesson.Features.Of(layers.Shares(windows), tile.Left - tile.OffsetX, tile.Top - tile.OffsetY);
            var probabilities = lesson.Probabilities(features, tile.Left, tile.Top, tile.Width, tile.Height);
            map.Take(probabilities, tile.Left, tile.Top);
            return probabilities;
        }, writer, context);
        return map;
    }

    private static string Raster(int number) => FormattableString.Invariant($"probability-{number}");

    private sealed class OneEach(IReadOnlyList<IRasterWriter> writers) : IRasterWriter
    {
        public void WriteWindow(int left, int top, IReadOnlyList<Plane> bands)
        {
            for (var k = 0; k < writers.Count; k++) writers[k].WriteWindow(left, top, [bands[k]]);
        }
    }
}
