using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>What is said of a relief in figures.</summary>
internal static class ReliefFigures
{
    private const string Description = "a description", Counted = "counted: exact";

    /// <summary>The figures, as a declaration lists them.</summary>
    public static IReadOnlyList<FigureOutput> Declared { get; } =
    [
        new("lamps", "Lamps", "1", "Photographs used. Counted; exact."),
        new("measured", "Measured share", "%", "Share of the pixels with a normal: lit by three lamps at least. Counted; exact."),
        new("confidence", "Median confidence", "1", "Share of the light that the fit explains, times the share of usable lamps (of those beyond two). A description."),
        new("unexplained", "Light not explained", "%", "For each photograph, mean absolute difference between its light and what all together say it should show, of its light. A description."),
        new("shift", "Shift against the others", "px", "For each photograph, how far it lies beside what all together say it should show. Shifts beyond a pixel come out too small."),
        new("slope", "Mean slope", "degrees", "Mean angle between surface and plane. A description."),
        new("height-scale", "Heights multiplied by", "1", "By a known step; its interval from the spread of heights beside the step. 1 without a step: heights are then relative."),
        new("form-range", "Range of the form taken away", "um", "Greatest less smallest value of the polynomial. It holds the support's own form and the lamps' errors, which nothing tells apart."),
        new("height-range", "Range of height", "um", "Between the 0.1 and 99.9 percent quantiles, form taken away. The note says whether it is relative."),
        new("sa", "Sa, mean absolute height", "um", "ISO 25178-2, by band of wavelengths; a band finer than two pixels is not measured. A description of the map."),
        new("sq", "Sq, root mean square height", "um", "As Sa."),
        new("ssk", "Ssk, skewness", "1", "As Sa: negative where furrows rule, positive where ridges do."),
        new("sku", "Sku, kurtosis", "1", "As Sa: 3 for normally spread heights."),
        new("least-height", "Least height of a place", "um", "What places had to exceed: the parameter or five robust standard deviations."),
        new("thick-places", "Places left out as thick paint", "1", "Places as high whose slopes vary more than twice as much as in the middle of the painting: thick paint hides what the support does there. Counted; exact."),
        new("places", "Places proposed", "1", "By kind. Counted; exact."),
        new("place-area", "Their area", "mm2", "By kind, in pixels; uncertain by half a pixel along the outline, as each candidate says."),
    ];

    /// <summary>The figures of a run.</summary>
    public static IReadOnlyList<Figure> Of(RakingSet set, ReliefPass pass, Plane height, double form, KnownStep? step, PixelScale scale, Deformation places, ParallelOptions parallel)
    {
        var relative = step is null ? "relative: no known step calibrates it" : "calibrated by the known step";
        var known = height.Data.Count(float.IsFinite);
        return
        [
            new("lamps", set.Images.Count, null, Counted),
            new("measured", 100.0 * known / height.Data.Length, null, Counted),
            new("confidence", Robust.Median(Sparse.Values(pass.Confidence)), null, Description),
            .. set.Images.Select((image, k) => new Figure("unexplained", 100 * pass.Frames[k].Unexplained, null, Description, image.Name)),
            .. set.Images.Select((image, k) => pass.Frames[k].Pixels(set.Images.Count) is { } shift ? new Figure("shift", shift, null, Description, image.Name)
                : new Figure("shift", null, null, "three photographs or an even surface tell nothing: no answer", image.Name)),
            new("slope", MeanSlope(pass), null, Description),
            step is null ? new("height-scale", 1, null, relative) : new("height-scale", step.Factor, step.Uncertainty),
            new("form-range", form, null, relative),
            new("height-range", Robust.Quantile(Sparse.Values(height), 0.999) - Robust.Quantile(Sparse.Values(height), 0.001), null, relative),
            .. WaveBand.All.SelectMany(band => OfBand(band, height, 1000 * scale.MmPerPixel, relative, parallel)).OrderBy(f => Array.IndexOf(["sa", "sq", "ssk", "sku"], f.Name)),
            new("least-height", places.Limit, null, relative),
            new("thick-places", places.ThickPlaces, null, Counted),
            .. places.Candidates.GroupBy(c => c.Kind).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => new Figure("places", g.Count(), null, Counted, g.Key)),
            .. places.Candidates.GroupBy(c => c.Kind).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => new Figure("place-area", g.Sum(c => c.Geometry.Area), null, "see each candidate", g.Key)),
        ];
    }

    private static IEnumerable<Figure> OfBand(WaveBand band, Plane height, double pixelUm, string relative, ParallelOptions parallel)
    {
        string[] names = ["sa", "sq", "ssk", "sku"];
        if (band.Of(height, pixelUm, parallel) is not { } map || HeightParameters.Of(map) is not { } p)
            return names.Select(n => new Figure(n, null, null, FormattableString.Invariant($"not measured: a pixel covers {pixelUm:0.#} um, and two pixels are the shortest wave they show"), band.Name));
        var seen = band.ShortestSeen(pixelUm)!.Value;
        var note = seen > band.ShortestUm ? FormattableString.Invariant($"{relative}; waves of {seen:0} um and more only") : relative;
        return names.Zip([p.Sa, p.Sq, p.Ssk, p.Sku], (n, v) => double.IsFinite(v) ? new Figure(n, v, null, note, band.Name) : new Figure(n, null, null, "a level surface has none", band.Name));
    }

    private static double MeanSlope(ReliefPass pass)
    {
        var (sum, count) = (0.0, 0L);
        for (var i = 0; i < pass.Right.Data.Length; i++)
        {
            var square = pass.Right.Data[i] * pass.Right.Data[i] + pass.Down.Data[i] * pass.Down.Data[i];
            if (float.IsFinite(square)) (sum, count) = (sum + MathF.Atan(MathF.Sqrt(square)), count + 1);
        }
        return sum / count * 180 / Math.PI;
    }
}
