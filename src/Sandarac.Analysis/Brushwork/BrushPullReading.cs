using System.Globalization;
using NetTopologySuite.Geometries;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Relief;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>What happens along a pull of the brush: how lightness and relief rise or fall, and whether the hand stopped at even distances.</summary>
public sealed class BrushPullReading : Reading
{
    private static readonly DocumentParameter Lines = new("lines", "Lines along pulls", "Lines in mm, each drawn along a pull in the direction of the hand, with the property class: what it is called.", "GeoJSON", Marks.Canonical);
    private static readonly LengthParameter Breadth = new("breadth", "Breadth", "Values are averaged across the line over this breadth: somewhat less than the stroke's.", 2, 0, 100);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "brush-pull",
        Version = 1,
        Title = "Along a pull of the brush",
        Summary = "Follows lines drawn along pulls of the brush: whether paint thins and lightness changes on the way, and whether the hand stopped at even distances.",
        Citation = "Trend: least squares, the interval widened for neighbouring places that are alike (Bartlett, J. Royal Statistical Society 98 (1935) 536). Stops: ridges across the pull that stand out more than dents do, of which at most a tenth are noise. Rhythm: spread of the distances against 4000 draws of stops strewn at random (Poisson process). Surface: see the reading relief. Papers from memory, not re-read.",
        Limits = "It tells of the line that was drawn: a line that leaves the stroke, or crosses cracks, losses or another stroke, tells of those. Relief is the height of the surface, not the thickness of one layer of paint: what lies beneath and the form of the support add to its trend, and its long waves are weak. A rhythm is reported when the spread of distances is at most a quarter and random stops are as even in at most one of a hundred cases; fewer than five stops say nothing. It describes a movement, never whose hand made it.",
        Inputs = PaintedSurface.Slots,
        Parameters = [.. LampSources.Parameters, Lines, Breadth],
        Rasters = [],
        Figures =
        [
            new("length", "Length of the line", "mm", "As drawn; exact."),
            new("lightness-trend", "Lightness along the pull", "L* per cm", "Slope of L* along the line; half-width of its interval of about 95 %. The note says whether it rises or falls beyond doubt."),
            new("relief-trend", "Relief along the pull", "um per cm", "Slope of the height along the line; half-width of its interval of about 95 %. Falling is consistent with paint that gives out, and with a surface that slopes."),
            new("stops", "Stops of the hand", "1", "Ridges across the pull, counted; at most about a tenth of them are noise. The note says where they lie."),
            new("period", "Period of the stops", "mm", "Mean distance, given only when stops come evenly beyond chance; half-width of its interval of about 95 %."),
            new("evenness", "Spread of the stops' distances", "1", "Standard deviation over the period; the note says how often stops strewn at random are as even."),
        ],
        Reach = new Reach.Whole(PaintedSurface.MostPixels),
        OnPlane = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var marks = Marks.Read(context.Value(Lines));
        if (marks.All.Count == 0) return new Outcome { NoAnswer = "No line is given: draw one along a pull of the brush." };
        if (marks.All.Any(m => m.Geometry is not LineString)) throw new InputProblem("lines", Lines.Name, "What is given is not a line.", "Give single lines.");
        var set = RakingSet.Of(context);
        var threads = new ParallelOptions { MaxDegreeOfParallelism = context.Tiling.Threads, CancellationToken = context.Cancellation };
        if (PaintedSurface.Of(set, context, threads) is not var (surface, _, warnings)) return new Outcome { NoAnswer = "No place is lit by three lamps." };
        context.Begin(0.5, 1);
        context.Report(1);
        return new Outcome
        {
            Figures = [.. marks.All.SelectMany((m, i) => Figures(Name(marks, i), (LineString)m.Geometry, surface, context.Value(Breadth)))],
            Warnings = warnings,
        };
    }

    /// <summary>What a line is called; numbered where several are called the same.</summary>
    private static string Name(Marks marks, int line)
    {
        var own = marks.All[line].Class;
        return marks.All.Count(m => m.Class == own) == 1 ? marks.Classes[own] : FormattableString.Invariant($"{marks.Classes[own]} {marks.All.Take(line + 1).Count(m => m.Class == own)}");
    }

    private static IEnumerable<Figure> Figures(string name, LineString line, Surface surface, double breadth)
    {
        Pull Along(Plane plane) => Pull.Along(plane, line, surface.Mm, breadth);
        var (lightness, height) = (Along(surface.Colour[0]), Along(surface.Height));
        yield return new("length", line.Length, null, "as drawn: exact", name);
        yield return Trend("lightness-trend", name, lightness, "lightens", "darkens");
        yield return Trend("relief-trend", name, height, "rises", "falls");
        if (!height.SaysAnything)
        {
            foreach (var figure in new[] { "stops", "period", "evenness" }) yield return new(figure, null, null, NoData, name);
            yield break;
        }
        var stops = Stops.Of(height);
        var where = string.Join(", ", stops.Select(s => s.ToString("0.#", CultureInfo.InvariantCulture)));
        yield return new("stops", stops.Count, null, stops.Count == 0 ? "none stands out" : $"at {where} mm", name);
        var rhythm = PullRhythm.Of(stops);
        yield return rhythm is { IsRhythm: true }
            ? new("period", rhythm.PeriodMm, rhythm.Uncertainty, Chance(rhythm), name)
            : new("period", null, null, rhythm is null ? "fewer than five stops: no answer" : $"no rhythm: {Chance(rhythm)}", name);
        yield return new("evenness", rhythm?.Unevenness, null, rhythm is null ? "fewer than five stops: no answer" : Chance(rhythm), name);
    }

    private const string NoData = "too little of the line has data: no answer";

    private static Figure Trend(string figure, string name, Pull pull, string rising, string falling) => PullTrend.Of(pull) switch
    {
        null => new(figure, null, null, NoData, name),
        { Uncertainty: double.PositiveInfinity } => new(figure, null, null, "neighbouring places are too alike over this length: no answer", name),
        var t => new(figure, 10 * t.PerMm, 10 * t.Uncertainty, !t.IsCertain ? "neither rises nor falls beyond doubt" : t.PerMm > 0 ? rising : falling, name),
    };

    private static string Chance(PullRhythm rhythm) => string.Create(CultureInfo.InvariantCulture, $"distances spread by {100 * rhythm.Unevenness:0} %; stops strewn at random are as even in {100 * rhythm.P:0.0#} % of cases");
}
