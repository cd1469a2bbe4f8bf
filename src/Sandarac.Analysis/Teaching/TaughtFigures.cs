using System.Globalization;
using Sandarac.Analysis.Declaring;

namespace Sandarac.Analysis.Teaching;

/// <summary>The figures of a lesson.</summary>
internal static class TaughtFigures
{
    private const string Counted = "counted: exact";

    public static IReadOnlyList<FigureOutput> Declared { get; } =
    [
        new("examples", "Separate examples", "1", "Marks of a class, those near each other counted as one; exact."),
        new("balanced-accuracy", "Recognised, all classes alike", "%", "Mean over the classes of the part of held-out examples that is recognised. Examples count alike, each is held out whole; interval from their number."),
        new("recognised", "Recognised", "%", "Part of a class's held-out examples that is recognised; interval from their number. The note says whether the class is separable from every other."),
        new("told-apart", "Told apart", "%", "Balanced accuracy between two classes alone, on held-out examples; 50 is chance."),
        new("confusion", "Taken for another", "%", "Part of a class's held-out examples that is taken for another class."),
        new("importance", "Carried by", "%", "How much less probability the right class gets on held-out marks when the values of a band (or of all bands of a layer) are those of other marks; as a share of all bands' (layers'). Those that repeat each other share it. No interval."),
        new("calibration-error", "Calibration error", "1", "Mean distance between the probability given and the share that was right, over ten bins, on held-out marks whose calibration was found without them. With few examples it is too large rather than too small; no interval."),
        new("reliability", "Right where this was said", "1", "For each bin of the likeliest class's probability: the share that was right, and in the note the mean probability given."),
        new("calibration-power", "Power of the calibration", "1", "The trees' shares raised to this power are the probabilities; fitted on held-out marks."),
        new("valid-share", "Pixels judged", "1", "Share of pixels with data in every layer; counted."),
        new("class-share", "Likeliest here", "%", "Share of the judged pixels in which the class is the likeliest. What is of no marked class is in it too."),
        new("candidates", "Places proposed", "1", "Counted; exact."),
        new("candidate-area", "Their area", "mm2", "Counted in pixels above the least probability; how sure the class is, its recognised part says."),
    ];

    public static IReadOnlyList<Figure> Of(Lesson lesson, Assessment assessment, ProbabilityMap map, IReadOnlyList<ProbablePlace> places)
    {
        var names = lesson.Marks.Classes;
        var classes = Enumerable.Range(0, lesson.Classes).ToArray();
        var bins = assessment.Reliability();
        return
        [
            .. classes.Select(k => new Figure("examples", lesson.Blocks[k], null, Counted, names[k])),
            Percent("balanced-accuracy", assessment.Balanced),
            .. classes.Select(k => Percent("recognised", assessment.Recognised[k], lesson.Verdict(k), names[k])),
            .. from a in classes
               from b in classes
               where a < b
               select Percent("told-apart", assessment.Between(a, b), null, $"{names[a]} and {names[b]}"),
            .. from a in classes
               from b in classes
               where a != b
               select new Figure("confusion", 100 * assessment.Taken(a, b), null, "see the recognised part for the interval", $"{names[a]} taken for {names[b]}"),
            .. Importance(lesson),
            new("calibration-error", Assessment.CalibrationError(bins), null, "few examples"),
            .. bins.Select((b, i) => (b, i)).Where(x => x.b.Weight > 0).Select(x => new Figure("reliability", x.b.Right, null,
                string.Create(CultureInfo.InvariantCulture, $"mean {x.b.Said:0.000}; {100 * x.b.Weight:0.0} % of the marks"), string.Create(CultureInfo.InvariantCulture, $"{x.i / 10.0:0.0} to {(x.i + 1) / 10.0:0.0}"))),
            new("calibration-power", lesson.Calibration.Power, null, "fitted"),
            new("valid-share", map.Judged / (double)map.Planes[0].Data.Length, null, Counted),
            .. classes.Select(k => new Figure("class-share", 100 * map.LikeliestShare(k), null, "see the recognised part", names[k])),
            .. classes.Select(k => new Figure("candidates", places.Count(p => p.Class == k), null, Counted, names[k])),
            .. classes.Select(k => new Figure("candidate-area", places.Where(p => p.Class == k).Sum(p => p.AreaMm2), null, "see the recognised part", names[k])),
        ];
    }

    /// <summary>Each band's share of what the bands carry, most first; then each layer's.</summary>
    public static IEnumerable<Figure> Importance(Lesson lesson)
    {
        var bands = lesson.Features.Layers.Bands;
        var carried = lesson.HeldOut!.Importance.Select(i => Math.Max(0, i)).ToArray();
        string[] layers = [.. bands.GroupBy(b => b.Layer).Select(g => g.First().LayerName)];
        var ofBands = Shares([.. bands.Select(b => b.Name)], carried[..bands.Count]);
        return layers.Length == bands.Count ? ofBands : [.. ofBands, .. Shares([.. layers.Select(l => "all of " + l)], carried[bands.Count..])];
    }

    private static IEnumerable<Figure> Shares(string[] names, double[] carried)
    {
        var sum = carried.Sum();
        return names.Zip(carried).OrderByDescending(x => x.Second).Select(x => sum > 0
            ? new Figure("importance", 100 * x.Second / sum, null, "no interval", x.First)
            : new Figure("importance", null, null, "no band carries anything: no answer", x.First));
    }

    /// <summary>The interval is lopsided: the note holds it, the half-width is to its farther end.</summary>
    private static Figure Percent(string name, Share share, string? note = null, string? subject = null) => new(name, 100 * share.Value, 100 * share.Uncertainty,
        string.Create(CultureInfo.InvariantCulture, $"{100 * share.Lower:0} to {100 * share.Upper:0} %{(note is null ? "" : ": " + note)}"), subject);
}
