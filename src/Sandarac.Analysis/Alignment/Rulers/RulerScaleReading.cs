using NetTopologySuite.Geometries;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Rulers;

/// <summary>Finds a ruler in a photograph and says how large a pixel is there.</summary>
public sealed class RulerScaleReading : Reading
{
    private const string Checked = "fifths-and-tenths", Unchecked = "any";
    private const double NotGiven = -1, FarthestPixel = 1e6;

    private static readonly NumberParameter Spacing = new("tick-spacing", "Distance of ticks", "Distance of the closest ticks on the ruler.", "mm", 1, 0.01, 1000);

    private static readonly ChoiceParameter Lengths = new("longer-ticks", "Longer ticks",
        "fifths-and-tenths: every fifth tick must be longer and every tenth longer still, as on a ruler in millimetres, which checks the distance. any: ticks of any length; the line must then be given.", Checked, [Checked, Unchecked]);

    private static readonly NumberParameter FromX = End("from-x", "first point, from the left"), FromY = End("from-y", "first point, from the top"),
        ToX = End("to-x", "second point, from the left"), ToY = End("to-y", "second point, from the top");

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "ruler-scale",
        Version = 1,
        Title = "Scale from a ruler",
        Summary = "Finds the divisions of a ruler in a photograph and gives millimetres per pixel.",
        Citation = "Ripples by the power spectra of overlapping squares under Hann's window (Welch, IEEE Transactions on Audio and Electroacoustics 15 (1967) 70); places by local phase (Fleet and Jepson, International Journal of Computer Vision 5 (1990) 77); a line under perspective after Hartley and Zisserman (2004) 2.5; Tukey's biweight (Holland and Welsch, Communications in Statistics A6 (1977) 813); uncertainty by leaving out parts (jackknife, Tukey 1958). All from memory.",
        Limits = "Holds for the ruler's own place, plane and direction: what lies a hundredth of the camera's distance nearer appears one hundredth larger. Needs 30 ticks in a straight row, more than 2.2 pixels apart after larger photographs are brought down to 6000 pixels, and not so blurred that single ticks run into one another. Every fifth and tenth tick must be longer, so a scale of other divisions has no answer unless its line and spacing are given; one of tenths of an inch looks like one in millimetres. The ruler's own error is not in the uncertainty.",
        Inputs = [new("ruler", "A photograph in which a ruler lies.", [])],
        Parameters = [Spacing, Lengths, FromX, FromY, ToX, ToY],
        Rasters = [],
        Figures =
        [
            new("mm-per-pixel", "Millimetres per pixel", "mm", "Along the ruler, at its middle tick; 95 % interval by leaving out each of 16 parts of the ruler, with Student's t."),
            new("ticks", "Ticks", "1", "In one row without more than one missing. Counted."),
            new("length", "Length of ruler that is seen", "mm", "From the first of these ticks to the last. Counted."),
            new("foreshortening", "Foreshortening", "1", "By how much a millimetre is smaller at the last tick than at the first, as a share; 0 when the ticks do not show any. Its interval is as for mm-per-pixel."),
            new("residual-rms", "Residual of the ticks", "px", "Root mean square distance of the ticks used from where an even ruler has them. It is itself a measure of uncertainty."),
            new("longer-ticks", "How far longer ticks stand out", "1", "Least difference of every fifth and tenth tick from the shorter ones, in standard errors; 5 is demanded."),
            new("end-x", "End of the row of ticks, from the left of the photograph", "px", "For the first and the last tick, on the middle of the shortest ticks; along the ruler as sure as the residual, across it as long as a tick."),
            new("end-y", "End of the row of ticks, from the top of the photograph", "px", "As end-x."),
        ],
        Reach = new Reach.Whole(6000),
        OnPlane = false,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var image = context.Inputs("ruler")[0];
        var near = Near(context);
        var checkLengths = context.Value(Lengths) == Checked;
        if (!checkLengths && near is null)
            throw new InputProblem("ruler-line", Lengths.Name, "Without longer ticks any regular pattern looks like a ruler.", "Give the line along the ticks with --from-x, --from-y, --to-x and --to-y.");
        if (RulerSearch.Find(image, ((Reach.Whole)Declaration.Reach).LongestSide, near, checkLengths, context) is { } ruler) return Tell(ruler, context.Value(Spacing));
        return new Outcome { NoAnswer = $"No ruler was found: no straight row of {TickTrace.Fewest} even ticks{(checkLengths ? " of which every fifth is longer and every tenth longer still" : " along this line")}." };
    }

    private static Outcome Tell(FoundRuler ruler, double spacing)
    {
        var (fit, half) = (ruler.Fit, (ruler.Ticks - 1) / 2.0);
        var mmPerPixel = spacing / (Math.Abs(fit.Distance(0)) * ruler.Factor);
        var (first, last) = (ruler.At(-half), ruler.At(half));
        const string counted = "counted";
        Figure Place(string name, double value, string end) => new(name, value, null, "along the ruler as sure as the residual, across it half a tick's length", end);
        return new Outcome
        {
            Figures =
            [
                new("mm-per-pixel", mmPerPixel, mmPerPixel * fit.Uncertainty),
                new("ticks", ruler.Ticks, null, counted),
                new("length", (ruler.Ticks - 1) * spacing, null, counted),
                new("foreshortening", fit.Foreshortening(half), fit.ForeshorteningUncertainty),
                new("residual-rms", ruler.Factor * Math.Sqrt(fit.Residuals.Sum(r => r * r) / fit.Residuals.Length), null, "a measure of uncertainty itself"),
                new("longer-ticks", ruler.Errors, null, ruler.Errors is null ? "not asked for" : "itself a test"),
                Place("end-x", first.X, RulerScale.First), Place("end-x", last.X, RulerScale.Last),
                Place("end-y", first.Y, RulerScale.First), Place("end-y", last.Y, RulerScale.Last),
            ],
            Candidates = [new Candidate(new LineString([new Coordinate(first.X, first.Y), new Coordinate(last.X, last.Y)]), "ruler", 1,
                FormattableString.Invariant($"{ruler.Ticks} even ticks{(ruler.Errors is { } e ? $", every fifth and tenth longer by {e:0} standard errors" : "")}"))],
        };
    }

    private static (Point2, Point2)? Near(RunContext context)
    {
        double[] given = [context.Value(FromX), context.Value(FromY), context.Value(ToX), context.Value(ToY)];
        if (given.All(v => v == NotGiven)) return null;
        var (from, to) = (new Point2(given[0], given[1]), new Point2(given[2], given[3]));
        if (given.Any(v => v < 0) || from.DistanceTo(to) < Ripples.Side)
            throw new InputProblem("ruler-line", FromX.Name, "A line along the ruler has two points, at least 64 pixels apart.", "Give all of --from-x, --from-y, --to-x and --to-y, in pixels.");
        return (from, to);
    }

    private static NumberParameter End(string name, string where) => new(name, char.ToUpperInvariant(where[0]) + where[1..], $"Line along the ticks, {where}; -1 to look everywhere.", "px", NotGiven, NotGiven, FarthestPixel);
}
