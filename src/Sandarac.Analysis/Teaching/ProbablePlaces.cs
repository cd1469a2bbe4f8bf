using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Unexplained;

namespace Sandarac.Analysis.Teaching;

/// <summary>An area that is proposed.</summary>
/// <param name="Class">Its class.</param>
/// <param name="Candidate">The proposal.</param>
/// <param name="AreaMm2">Its area.</param>
internal sealed record ProbablePlace(int Class, Candidate Candidate, double AreaMm2);

/// <summary>Finds areas in which a class is probable.</summary>
internal static class ProbablePlaces
{
    /// <summary>A class that fills more than this share of the image is the rest, not a place in it.</summary>
    private const double Rest = 0.5;

    /// <summary>Areas of all classes that are separable and are not the rest, largest first within a class.</summary>
    /// <param name="map">Probabilities.</param>
    /// <param name="lesson">What was learnt.</param>
    /// <param name="threshold">Probability that must be exceeded.</param>
    /// <param name="leastSide">Side of the smallest square, pixels of the image.</param>
    public static IReadOnlyList<ProbablePlace> Of(ProbabilityMap map, Lesson lesson, double threshold, double leastSide)
    {
        var side = leastSide / map.Factor;
        return [.. Enumerable.Range(0, lesson.Classes).Where(k => lesson.Assessment!.NotToldFrom(k).Count == 0 && map.LikeliestShare(k) <= Rest)
            .SelectMany(k => DarkParts.Of(map.Planes[k].Select(p => -p), (float)-threshold, Math.Max(1, (int)(side * side))).Select(part => Place(map, lesson, k, part)))];
    }

    private static ProbablePlace Place(ProbabilityMap map, Lesson lesson, int k, DarkPart part)
    {
        var (probability, area) = (part.Pixels.Average(i => map.Planes[k].Data[i]), part.Pixels.Count * map.MmPerPixel * map.MmPerPixel);
        var recognised = lesson.Assessment!.Recognised[k];
        var reason = string.Create(CultureInfo.InvariantCulture, $"Looks like the marks of \"{lesson.Marks.Classes[k]}\": probability {probability:0.00} on average over {area:0} mm2. Of marks held out {100 * recognised.Value:0} % were recognised ({100 * recognised.Lower:0} to {100 * recognised.Upper:0} %).");
        return new ProbablePlace(k, new Candidate(PartOutline.Of(part, map.Planes[k].Width, map.MmPerPixel), KindOf(lesson.Marks.Classes[k]), probability, reason), area);
    }

    /// <summary>"Varnish gap" becomes "varnish-gap".</summary>
    private static string KindOf(string name) => string.Join('-', new string([.. name.ToLowerInvariant().Select(c => char.IsLetterOrDigit(c) ? c : ' ')]).Split(' ', StringSplitOptions.RemoveEmptyEntries)) is { Length: > 0 } kind ? kind : "taught";
}
