using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Infrared;
using Sandarac.Analysis.Lines;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.LineComparison;

/// <summary>Which dark lines two photographs share, which only one of them shows, and how far the shared ones lie apart.</summary>
public sealed class LineComparisonReading : Reading
{
    /// <summary>Doubt about each end of a line, line widths: a third of the averaging's standard deviation along it.</summary>
    private const double EndDoubt = 1;

    private static readonly LengthParameter LineWidth = new("line-width", "Width of a line", "Lines about this wide are looked for: from half to twice of it. It sets the scale of the line pictures too.", 1, 0.1, 20);
    private static readonly NumberParameter LineContrast = new("line-contrast", "Line darker by", "A line counts when it is somewhere this much darker than beside it; it is followed down to two fifths of that.", "%", 15, 2, 90);
    private static readonly LengthParameter LineLength = new("line-length", "Shortest line", "Shorter lines are left out.", 8, 1, 1000);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "line-comparison",
        Version = 1,
        Title = "Line work of two photographs",
        Summary = "Finds dark lines in two aligned photographs in any lights and says which both show, which only one shows, how long they are, and how far the shared ones lie apart.",
        Citation = "Lines: second derivatives of a Gaussian, Steger, IEEE PAMI 20 (1998) 113, averaged along 36 directions; hysteresis after Canny, IEEE PAMI 8 (1986) 679. Shift: least squares of distances across the lines with weights of Holland and Welsch, Communications in Statistics A6 (1977) 813; intervals by leaving out one line at a time (jackknife). All from memory.",
        Limits = "A line is a dark ridge, whatever made it: drawing, brush strokes, cracks, edges of relief in raking light. Both photographs show a line when the second has at least half of its depth in the same place and direction: lines more than half a line's width apart count as two, so photographs must be aligned to a fraction of a line's width, and a line that one light shows weakly counts as one light's. What only one photograph shows may be too soft in the other: give two of like sharpness. The shift says how lines lie in both together, misalignment included; along lines that all run one way it is not told. A line ends where it has half of its median depth: what fades out is cut off there. Nothing is looked for within three line widths of the border.",
        Inputs =
        [
            new("first", "A photograph in any light; colour bands are averaged.", []),
            new("second", "Another photograph of the same place, aligned to it, in the same or another light.", []),
        ],
        Parameters = [LineWidth, LineContrast, LineLength],
        Rasters =
        [
            new("lines-first", "Lines of the first photograph, dark ones positive", "ln", ["ln"]),
            new("lines-second", "Lines of the second photograph, dark ones positive", "ln", ["ln"]),
        ],
        Figures =
        [
            new("line-length", "Length of lines", "mm", "By which photograph shows them: the first only, both, the second only. Counted along the lines; the uncertainty is a line width at each end; which lines exceed the least contrast and length is not in it."),
            new("lines", "Lines", "1", "The same lines, counted; exact."),
            new("offset", "Distance between shared lines", "mm", "Median distance across the lines between their middles in both photographs, whichever way; interval by leaving out one line at a time."),
            new("shift", "Shift of the second photograph's lines", "mm", "To the right and down, from the distances across lines of all directions; interval by leaving out one line at a time. No answer where all lines run one way."),
        ],
        Reach = new Reach.Whole(LineGrid.MostPixels),
        OnPlane = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var (first, second) = (LightFrame.In("first", context), LightFrame.In("second", context));
        var grid = LineGrid.Of(first, context.Pixels(LineWidth, first.Image));
        if (!grid.ShowsLines) return new Outcome { NoAnswer = grid.TooFine(context.Value(LineWidth)) };
        var (factor, mm, shape) = grid;
        var reduced = ReducedLight.Of(first, second, factor, context);
        var strong = InfraredLight.Depth(context.Value(LineContrast));
        var shortest = context.Value(LineLength) / mm;
        var found = LineWork.Of(InfraredLight.Logarithm(reduced.Other), InfraredLight.Logarithm(reduced.Visible), shape, strong, shortest,
            new ParallelOptions { MaxDegreeOfParallelism = context.Tiling.Threads, CancellationToken = context.Cancellation });
        IReadOnlyList<TracedLine> Ended(IReadOnlyList<TracedLine> lines) => [.. lines.Select(l => l.Ended()).Where(l => l.Length >= shortest)];
        var work = found with { FirstOnly = Ended(found.FirstOnly), Both = Ended(found.Both), SecondOnly = Ended(found.SecondOnly) };
        if (!work.First.Strength.Data.Any(float.IsFinite) || !work.Second.Strength.Data.Any(float.IsFinite)) return new Outcome { NoAnswer = "One of the photographs has no data." };
        Write(context, first.Image, work, factor);
        return new Outcome
        {
            Candidates = [.. Candidates(work.FirstOnly, first.Image, second.Image, mm, strong), .. Candidates(work.SecondOnly, second.Image, first.Image, mm, strong)],
            Figures = [.. Lengths(work, mm, shape), .. Offsets(LineOffset.Of(work.Both, work.Second, shape), mm)],
        };
    }

    private static IEnumerable<Candidate> Candidates(IReadOnlyList<TracedLine> lines, InputImage shows, InputImage other, double mm, double strong) => lines.Select(line =>
    {
        var (here, there) = (LineWords.Darker(line.Points.Select(p => p.Strength)), LineWords.Darker(line.Points.Select(p => p.Other)));
        var sure = line.Points.Count(p => p.Strength >= strong && p.Other < LineWork.Shown / 2 * p.Strength) / (double)line.Points.Count;
        var reason = string.Create(CultureInfo.InvariantCulture, $"A line {mm * line.Length:0} mm long, {here:0} % darker than beside it in {Named(shows)}; in {Named(other)} {LineWords.There(there)}.");
        return new Candidate(LineWords.Geometry(line, mm), Kind(shows), sure, reason);
    });

    private static string Kind(InputImage shows) => shows.Light is { } light ? $"line-only-in-{light.Code.ToLowerInvariant()}" : "line-only-in-one";

    private static string Named(InputImage image) => image.Light is { } light ? $"{light.Code} ({image.Name})" : image.Name;

    private static IEnumerable<Figure> Lengths(LineWork work, double mm, LineShape shape)
    {
        foreach (var (subject, lines) in ((string, IReadOnlyList<TracedLine>)[])[("first only", work.FirstOnly), ("both", work.Both), ("second only", work.SecondOnly)])
        {
            yield return new Figure("line-length", mm * lines.Sum(l => l.Length), 2 * EndDoubt * shape.Width * mm * lines.Count, null, subject);
            yield return new Figure("lines", lines.Count, null, "counted: exact", subject);
        }
    }

    private static IEnumerable<Figure> Offsets(LineOffset? offset, double mm)
    {
        const string few = "fewer than three shared lines: no answer";
        yield return offset is null ? new Figure("offset", null, null, few) : new Figure("offset", mm * offset.Across.Value, mm * offset.Across.Uncertainty);
        foreach (var (subject, shift) in new[] { ("to the right", offset?.Right), ("down", offset?.Down) })
            yield return shift is { } s ? new Figure("shift", mm * s.Value, mm * s.Uncertainty, null, subject) : new Figure("shift", null, null, offset is null ? few : "the lines run one way: no answer", subject);
    }

    private static void Write(RunContext context, InputImage first, LineWork work, int factor)
    {
        var facts = first.Image.Facts;
        foreach (var (name, strength) in ((string, Plane)[])[("lines-first", work.First.Strength), ("lines-second", work.Second.Strength)])
        {
            var field = new CellField(strength, factor, factor);
            TiledRun.ForEach([first], 0, (tile, _) => [field.Window(tile.Left, tile.Top, tile.Width, tile.Height)], context.CreateRaster(name, facts.Width, facts.Height, first.Scale), context);
        }
    }
}
