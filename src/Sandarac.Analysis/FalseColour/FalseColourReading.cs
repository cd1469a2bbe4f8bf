using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;

namespace Sandarac.Analysis.FalseColour;

/// <summary>Infrared false colour: infrared shown as red, red as green, green as blue.</summary>
public sealed class FalseColourReading : Reading
{
    private static readonly ChoiceParameter White = new("white", "White", "What counts as white in each band: the file's full scale, or the value below which this percentage of the band's pixels lies. A percentile makes up for exposures that differ between the two photographs.",
        "percentile-99.5", ["full-scale", "percentile-99", "percentile-99.5", "percentile-99.9"]);

    private const string Counted = "counted over all pixels: exact";
    private static readonly string[] Shown = ["infrared", "red", "green"];

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "false-colour",
        Version = 1,
        Title = "Infrared false colour",
        Summary = "Shows infrared as red, red as green and green as blue, so that paints which look alike but reflect infrared differently come apart.",
        Citation = "Band order as conservation institutes use it (table of image types of icvbc.cnr.it, read); Moon, Schilling and Thirkettle, A note on the use of false-color infrared photography in conservation, Studies in Conservation 37 (1992) 42-52 (from memory, not re-read).",
        Limits = "Colours compare within one picture only: they depend on both exposures, the infrared band, and the chosen white. Values are used as the files hold them, tone curves included. A colour is consistent with several pigments and names none. Where the images are out of register, edges show coloured fringes.",
        Inputs =
        [
            new("infrared", "The infrared photograph or reflectogram; several bands are averaged.", [Light.Infrared, Light.Reflectogram]),
            new("visible", "The visible-light photograph, in colour.", [Light.Visible]),
        ],
        Parameters = [White],
        Rasters = [new("false-colour", "Infrared false colour", "relative", ["R", "G", "B"], Light.FalseColour)],
        Figures =
        [
            new("valid-share", "Pixels with data in both images", "1", "Counted over all pixels; exact."),
            new("white-level", "Value taken as white", "counts", "One for each band; a percentile counted over all pixels, or the file's full scale. Exact."),
            new("above-white-share", "Pixels at or above white", "1", "One for each band: these lose their differences in the picture. Exact."),
        ],
        Reach = new Reach.Pointwise(),
        RunsOnExamine = true,
        OnPlane = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var (infrared, visible) = (context.Inputs("infrared")[0], context.Inputs("visible")[0]);
        if (Bands.Count(visible.Image.Facts) < 3)
            throw new InputProblem("not-colour", visible.Name, $"{visible.Name} has no red and green bands.", "Give a colour photograph as visible.");
        InputImage[] images = [infrared, visible];
        var (width, height) = (visible.Image.Facts.Width, visible.Image.Facts.Height);
        Plane[] Shift(Plane[][] windows) => FalseColourBands.Shift(Bands.Of(windows[0], infrared.Image.Facts), Bands.Of(windows[1], visible.Image.Facts));
        var counts = BandCounts.Of(images, 3, images.All(i => Bands.AreSmallIntegers(i.Image.Facts)), Shift, context);
        if (counts[0].Total == 0) return new Outcome { NoAnswer = "No pixel has data in both images." };
        double[] whites = [.. counts.Select((c, b) => Level(context.Value(White), c, b == 0 ? infrared : visible))];
        if (whites.Any(w => w <= 0)) return new Outcome { NoAnswer = $"The {Shown[Array.FindIndex(whites, w => w <= 0)]} band is black throughout." };
        var writer = context.CreateRaster("false-colour", width, height, visible.Scale ?? infrared.Scale);
        TiledRun.ForEach(images, 0, (_, windows) => FalseColourBands.Relative(Shift(windows), whites), writer, context);
        return new Outcome { Figures = Figures(counts, whites) };
    }

    private static double Level(string white, BandCounts counts, InputImage image) => white == "full-scale"
        ? image.Image.Facts.FullScale
        : counts.Quantile(double.Parse(white["percentile-".Length..], CultureInfo.InvariantCulture) / 100);

    private static Figure[] Figures(IReadOnlyList<BandCounts> counts, double[] whites) =>
    [
        new("valid-share", (double)counts[0].Total / (counts[0].Total + counts[0].Missing), null, Counted),
        .. whites.Select((w, b) => new Figure("white-level", w, null, Counted, Shown[b])),
        .. whites.Select((w, b) => new Figure("above-white-share", counts[b].ShareFrom(w), null, Counted, Shown[b])),
    ];
}
