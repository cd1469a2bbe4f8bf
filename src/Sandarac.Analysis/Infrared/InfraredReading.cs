using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Lines;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Infrared;

/// <summary>What visible light does not explain in infrared: lines and areas that are darker or brighter than paint of their colour is elsewhere.</summary>
public sealed class InfraredReading : Reading
{
    /// <summary>Parts along the longer side whose medians are the level: only lamps change it, and a changed passage must not fill half of a part.</summary>
    private const int LevelParts = 3;

    private static readonly LengthParameter LineWidth = new("line-width", "Width of a line", "Lines about this wide are looked for: from half to twice of it. It sets the scale of the line picture too.", 1, 0.1, 20);
    private static readonly NumberParameter LineContrast = new("line-contrast", "Line darker by", "A line is proposed when it is somewhere this much darker in infrared than beside it; it is followed down to two fifths of that.", "%", 15, 2, 90);
    private static readonly LengthParameter LineLength = new("line-length", "Shortest line", "Shorter lines are left out.", 8, 1, 1000);
    private static readonly NumberParameter AreaContrast = new("area-contrast", "Area darker or brighter by", "An area is proposed when infrared is this much darker or brighter than its visible colour lets expect.", "%", 12, 2, 90);
    private static readonly LengthParameter AreaSize = new("area-size", "Smallest area", "Areas smaller than a square of this side are left out.", 20, 1, 1000);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "infrared",
        Version = 1,
        Title = "Infrared that the colour does not explain",
        Summary = "Predicts infrared from visible colour, shows what is left, and proposes dark lines and areas that visible light does not show: candidates for underdrawing and for changes in composition.",
        Citation = "Logarithm of infrared as a second-degree polynomial of visible colour within blocks (fixed effects), weights of Holland and Welsch, Communications in Statistics A6 (1977) 813. Lines: second derivatives of a Gaussian, Steger, IEEE PAMI 20 (1998) 113, averaged along 36 directions; hysteresis after Canny, IEEE PAMI 8 (1986) 679.",
        Limits = "A candidate is a place to look at, not a finding. Dark brush strokes below the surface, bristle marks in dark paint, retouching and later additions look the same as drawing or as a change; drawing under paint that stops infrared (carbon black, thick lead white at these wavelengths), in a material that infrared does not see (iron-gall ink, red chalk), or just under a line of the surface, is not found. On the invented painting less than half of the length proposed is drawing, and about half of the drawing is found; sure candidates are right more often than doubtful ones. Lines come out up to three line widths too long at either end. Photographs must be aligned to a fraction of a line's width. Nothing is looked for within three line widths of the border.",
        Inputs =
        [
            new("infrared", "The infrared photograph or reflectogram; several bands are averaged.", [Light.Infrared, Light.Reflectogram]),
            new("visible", "The photograph in visible light.", [Light.Visible]),
            new("infrared-board", "An even board in infrared, same camera in the same place, if there is one.", [Light.Infrared, Light.Reflectogram], 0, InOwnPixels: true, BoardOf: "infrared"),
            new("visible-board", "An even board in visible light, if there is one.", [Light.Visible], 0, InOwnPixels: true, BoardOf: "visible"),
        ],
        Parameters = [LineWidth, LineContrast, LineLength, AreaContrast, AreaSize],
        Rasters =
        [
            new("unexplained", "Infrared that the colour does not explain", "ln", ["ln"]),
            new("lines", "Lines in infrared, dark ones positive", "ln", ["ln"]),
        ],
        Figures =
        [
            new("scatter", "Spread of what the colour does not explain", "%", "Robust standard deviation within blocks of 24 reduced pixels. A description, not an estimate."),
            new("line-length", "Length of lines", "mm", "By which photograph shows them: infrared only (the candidates), both, visible only. Counted along the lines; which lines exceed the least contrast and length is not in it."),
            new("line-candidates", "Lines proposed", "1", "Counted; exact."),
            new("area-candidates", "Areas proposed", "1", "Counted; exact."),
            new("area", "Their area", "mm2", "Darker and brighter ones by themselves, counted in pixels of some 2 mm; uncertain by half a pixel along the outline."),
        ],
        Reach = new Reach.Whole(LineGrid.MostPixels),
        OnPlane = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var (infrared, visible) = (LightFrame.In("infrared", context), LightFrame.In("visible", context));
        var grid = LineGrid.Of(infrared, context.Pixels(LineWidth, infrared.Image));
        var (factor, mm, shape) = grid;
        var reduced = ReducedLight.Of(infrared, visible, factor, context);
        var light = InfraredLight.Mean(reduced.Other);
        if (ColourModel.Fit(light, reduced.Visible) is not { } model) return new Outcome { NoAnswer = "Too few pixels have data in both photographs, or the visible one has a single tone." };
        var unexplained = model.Unexplained(light, reduced.Visible);
        if (LevelField.Of(unexplained, LevelParts) is not { } level) return new Outcome { NoAnswer = "A large part of the painting has no data in one of the photographs." };
        level.SubtractFrom(unexplained, 0, 0, 1);
        var lines = !grid.ShowsLines ? null : LineWork.Of(InfraredLight.Logarithm([light]), InfraredLight.Logarithm(reduced.Visible), shape,
            InfraredLight.Depth(context.Value(LineContrast)), context.Value(LineLength) / mm, new ParallelOptions { MaxDegreeOfParallelism = context.Tiling.Threads, CancellationToken = context.Cancellation });
        Write(context, infrared, visible, model, level, lines?.First.Strength, factor);
        var areas = new ChangedAreas(unexplained, factor, infrared.Image.Scale, InfraredLight.Depth(context.Value(AreaContrast)), context.Value(AreaSize));
        return new Outcome
        {
            Candidates = [.. HiddenLines.Candidates(lines?.FirstOnly ?? [], mm, InfraredLight.Depth(context.Value(LineContrast))), .. areas.Candidates],
            Figures = [new("scatter", 100 * model.Scatter, null, "a description"), .. OfLines(lines, mm), new("area-candidates", areas.Candidates.Count, null, Counted), .. areas.Figures],
            Warnings = lines is null ? [new Warning("lines-too-fine", grid.TooFine(context.Value(LineWidth)))] : [],
        };
    }

    private const string Counted = "counted: exact";

    private static IEnumerable<Figure> OfLines(LineWork? lines, double mm)
    {
        Figure Length(string subject, IReadOnlyList<TracedLine>? found) => found is null
            ? new("line-length", null, null, "lines cover too few pixels: no answer", subject)
            : new("line-length", mm * found.Sum(l => l.Length), null, "counted along the lines found", subject);
        return [Length("infrared only", lines?.FirstOnly), Length("both", lines?.Both), Length("visible only", lines?.SecondOnly),
            new("line-candidates", lines?.FirstOnly.Count, null, lines is null ? "lines cover too few pixels: no answer" : Counted)];
    }

    private static void Write(RunContext context, LightFrame infrared, LightFrame visible, ColourModel model, CellField level, Plane? strength, int factor)
    {
        var (facts, scale) = (infrared.Image.Image.Facts, infrared.Image.Scale);
        var lines = strength is null ? null : context.CreateRaster("lines", facts.Width, facts.Height, scale);
        var field = strength is null ? null : new CellField(strength, factor, factor);
        TiledRun.ForEach([infrared.Image, visible.Image], 0, (tile, windows) =>
        {
            var rest = model.Unexplained(InfraredLight.Mean(infrared.Of(windows[0], tile.Left, tile.Top)), visible.Of(windows[1], tile.Left, tile.Top));
            level.SubtractFrom(rest, tile.Left, tile.Top, factor);
            if (lines is not null)
            {
                var window = field!.Window(tile.Left, tile.Top, tile.Width, tile.Height);
                lock (lines) lines.WriteWindow(tile.Left, tile.Top, [window]);
            }
            return [rest];
        }, context.CreateRaster("unexplained", facts.Width, facts.Height, scale), context);
    }
}
