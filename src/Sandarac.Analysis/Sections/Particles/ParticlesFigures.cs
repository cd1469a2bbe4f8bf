using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Numbers;

namespace Sandarac.Analysis.Sections.Particles;

/// <summary>The figures of a layer's grains.</summary>
internal static class ParticlesFigures
{
    /// <summary>Grains from which quantiles are given, and classes of Saltykov's unfolding.</summary>
    private const int Fewest = 20, Classes = 12;

    private const string Counted = "counted";

    private static readonly int[] Percent = [10, 50, 90];

    public static IReadOnlyList<FigureOutput> Declared { get; } =
    [
        new("grains", "Grains", "1", "Counted after touching ones are split; those cut off by the layer's border or the image are counted, and left out of sizes and shapes."),
        new("grains-cut", "Of them cut off", "1", "Counted."),
        .. Both("um"), .. Both("px"),
        new("sphere-mean", "Mean diameter as spheres", "um", "By number, of spheres whose random sections would be these (Saltykov). Only when asked for; no interval."),
        new("sphere-mean-px", "Mean diameter as spheres", "px", "As in um, where there is no scale."),
        new("aspect", "Aspect ratio", "1", "Median of longer over shorter axis of the ellipse with the same second moments."),
        new("circularity", "Circularity", "1", "Median of 4 pi area / perimeter squared; 1 for a disc, some 5 % less where grains touch: what parts them leaves their necks on them, the more so the noisier the rims; the perimeter itself is right to 0.3 %."),
        new("area-share", "Share of the layer's area", "%", "All grains, and those of each class of colour. Grains below the least diameter, and those that differ too little from the medium, are not in it: it is a lower bound."),
    ];

    public static IEnumerable<Figure> Of(LayerGrains layer, string subject, double? umPerPixel, bool asSpheres)
    {
        MeasuredGrain[] whole = [.. layer.Grains.Where(g => !g.IsCut)];
        yield return new Figure("grains", layer.Grains.Count, null, Counted, subject);
        yield return new Figure("grains-cut", layer.Grains.Count - whole.Length, null, Counted, subject);
        var unit = umPerPixel is null ? "-px" : "";
        double[] diameters = [.. whole.Select(g => g.Diameter * (umPerPixel ?? 1))];
        foreach (var byArea in (bool[])[false, true])
            foreach (var percent in Percent)
                yield return Size($"d{percent}-{(byArea ? "area" : "number")}{unit}", diameters, percent, byArea, umPerPixel is not null, subject);
        if (asSpheres && diameters.Length >= Fewest) yield return new Figure("sphere-mean" + unit, Saltykov.MeanDiameter(Saltykov.Unfold(diameters, Classes)), null, "no interval", subject);
        if (whole.Length >= Fewest)
        {
            yield return Middle("aspect", [.. whole.Select(g => g.Aspect)], subject);
            yield return Middle("circularity", [.. whole.Select(g => g.Circularity)], subject);
        }
        const string bound = "a lower bound: fines are not counted";
        yield return new Figure("area-share", 100.0 * layer.Grains.Sum(g => g.Area) / layer.AreaPixels, null, bound, subject);
        foreach (var colour in layer.ByColour()) yield return new Figure("area-share", 100.0 * colour.Sum(g => g.Area) / layer.AreaPixels, null, bound, $"{subject}, {colour.Key}");
    }

    private static Figure Size(string name, double[] diameters, int percent, bool byArea, bool inUm, string subject)
    {
        if (diameters.Length < Fewest) return new Figure(name, null, null, FormattableString.Invariant($"fewer than {Fewest} whole grains: no answer"), subject);
        var size = GrainSize.Of(diameters, percent / 100.0, byArea);
        var range = FormattableString.Invariant($"{size.Lower:0.00} to {size.Upper:0.00}");
        return new Figure(name, size.Value, size.Uncertainty, inUm && percent == 50 && byArea ? $"{range}; {Fineness(size.Value)}" : range, subject);
    }

    /// <summary>In words, by the diameter that halves the area: common practice differs, no source; ours.</summary>
    internal static string Fineness(double um) => um switch { < 1.5 => "very fine", < 5 => "fine", < 15 => "medium", < 40 => "coarse", _ => "very coarse" };

    private static Figure Middle(string name, double[] values, string subject) => new(name, Robust.Median(values), Robust.MedianUncertainty(values), null, subject);

    private static IEnumerable<FigureOutput> Both(string unit) => from byArea in (bool[])[false, true]
                                                                   from percent in Percent
                                                                   select new FigureOutput($"d{percent}-{(byArea ? "area" : "number")}{(unit == "px" ? "-px" : "")}", FormattableString.Invariant($"D{percent} by {(byArea ? "area" : "number")}"), unit,
                                                                       "Equivalent circular diameter in the section, as it is seen: the mean of random sections through equal spheres is 0.785 of their diameter. Bootstrap interval over grains; the note holds it. Words for fineness stand beside the figure only.");
}
