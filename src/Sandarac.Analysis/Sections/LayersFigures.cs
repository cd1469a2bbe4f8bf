using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections.Aligning;

namespace Sandarac.Analysis.Sections;

/// <summary>The figures of a section's layers.</summary>
internal static class LayersFigures
{
    private const string Counted = "counted", NotCalibrated = "not calibrated: the camera's own colours";

    private static readonly (string Name, string Title, Func<LayerThickness, double> Of)[] Statistics =
    [
        ("mean", "mean", t => t.Mean), ("median", "median", t => t.Quantile(0.5)), ("sd", "standard deviation", t => t.Deviation), ("p5", "5th percentile", t => t.Quantile(0.05)),
        ("p95", "95th percentile", t => t.Quantile(0.95)), ("min", "least", t => t.Quantile(0)), ("max", "greatest", t => t.Quantile(1)),
    ];

    public static IReadOnlyList<FigureOutput> Declared { get; } =
    [
        new("layers", "Layers", "1", "Counted from the bottom. Proposed boundaries are worth their description (minimum description length); no interval."),
        .. Statistics.Select(s => new FigureOutput($"thickness-{s.Name}", $"Thickness, {s.Title}", "um", "Perpendicular to the layer's local direction, along its whole length, times cos of the cut's obliquity. The interval combines scale, place of both boundaries (a quarter of their steps' width, at least half a pixel, common practice, no source; and what grains and noise make of it: their variance over the step's square, times the length of a grain) and obliquity.")),
        .. Statistics.Select(s => new FigureOutput($"thickness-{s.Name}-px", $"Thickness, {s.Title}", "px", "As in um, where there is no scale; without the scale's part in the interval.")),
        new("sublayers", "Sublayers", "1", "Parts of a layer told apart by a weak boundary: too little of a difference for a layer of its own, worth its description (minimum description length), and there along most of the length. Their figures stand under the layer's number and a letter from the bottom, as layer 2a. No interval."),
        new("coverage", "Coverage", "%", "Share of the section's length in which the layer is there."),
        new("n", "Places measured", "1", "Columns of the micrograph in which the layer is there. Neighbouring ones are not independent."),
        new("lightness", "Lightness L*", "1", "Mean of the layer in the visible image, CIELAB, D65. Not calibrated unless the file was."),
        new("red-green", "a*", "1", "As lightness."),
        new("yellow-blue", "b*", "1", "As lightness."),
        new("luminescence-lightness", "Luminescence, L*", "1", "As lightness, in the ultraviolet image: relative to its own white."),
        new("luminescence-red-green", "Luminescence, a*", "1", "As lightness, in the ultraviolet image."),
        new("luminescence-yellow-blue", "Luminescence, b*", "1", "As lightness, in the ultraviolet image."),
        new("varnish-coats", "Coats consistent with varnish", "1", "Layers from the surface down that luminesce more strongly than the resin and have no grains, dirt between them left out. Counted in ultraviolet; no figure where such layers lie only under others."),
        new("step-width", "Width of the boundaries' steps", "px", "Median over boundaries, from 10 to 90 %: blur, and boundaries that are not sharp themselves."),
        new("um-per-pixel", "Micrometres per pixel", "um", "The scale that was used; its origin in the note."),
        new("turn", "Turn of the strata", "degrees", "Of the mean direction against the image's rows, clockwise."),
        .. MicrographAlignment.Declared,
    ];

    public static IEnumerable<Figure> Of(MeasuredSection section, SectionScale? scale, double obliquity, double obliquityUncertainty)
    {
        yield return new Figure("layers", section.Layers, null, Counted);
        for (var layer = 1; layer <= section.Layers; layer++)
        {
            var parts = section.Sublayers.Where(p => p.Layer == layer).ToArray();
            foreach (var figure in OfLayer(section, section.Of(layer), section.Look(layer), Subject(layer), scale, obliquity, obliquityUncertainty)) yield return figure;
            if (parts.Length > 0) yield return new Figure("sublayers", parts.Length, null, Counted, Subject(layer));
            foreach (var figure in parts.SelectMany(p => OfLayer(section, (p.Upper, p.Lower), p.Look, $"{Subject(layer)}{p.Letter}", scale, obliquity, obliquityUncertainty))) yield return figure;
        }
        if (section.Luminesces) yield return VarnishCoats.Count(section) is { } coats ? new Figure("varnish-coats", coats, null, Counted) : new Figure("varnish-coats", null, null, "not countable: what looks like varnish lies only under other layers");
        yield return new Figure("step-width", double.IsFinite(section.StepWidth) ? section.StepWidth : null, null, "a measure of uncertainty itself");
        yield return scale is null ? new Figure("um-per-pixel", null, null, "no scale") : new Figure("um-per-pixel", scale.UmPerPixel, scale.UmPerPixel * scale.Relative, scale.Origin);
        yield return new Figure("turn", section.Frame.Degrees, null, "searched in steps of half a degree");
    }

    /// <summary>Half-width of the 95 % interval of a thickness, pixels as measured on the cut.</summary>
    public static double Uncertainty(double px, (Boundary Upper, Boundary Lower) of, double relativeScale, double obliquity, double obliquityUncertainty)
    {
        double Radians(double degrees) => Math.Clamp(degrees, 0, 89) * Math.PI / 180;
        var cos = Math.Cos(Radians(obliquity));
        var places = cos * Math.Sqrt(Math.Pow(of.Upper.Offset, 2) + Math.Pow(of.Lower.Offset, 2));
        var tilt = px * Math.Max(cos - Math.Cos(Radians(obliquity + obliquityUncertainty)), Math.Cos(Radians(obliquity - obliquityUncertainty)) - cos);
        return Math.Sqrt(places * places + Math.Pow(px * cos * relativeScale, 2) + tilt * tilt);
    }

    private static IEnumerable<Figure> OfLayer(MeasuredSection section, (Boundary Upper, Boundary Lower) of, LayerLook look, string subject, SectionScale? scale, double obliquity, double obliquityUncertainty)
    {
        if (LayerThickness.Between(of.Upper, of.Lower) is { } thickness)
        {
            var (cos, um) = (Math.Cos(obliquity * Math.PI / 180), scale?.UmPerPixel ?? 1);
            foreach (var (name, _, value) in Statistics)
            {
                var px = value(thickness);
                var spread = name == "sd" ? (double?)null : um * Uncertainty(px, of, scale?.Relative ?? 0, obliquity, obliquityUncertainty);
                var isOpen = spread is double.PositiveInfinity;
                yield return new Figure($"thickness-{name}{(scale is null ? "-px" : "")}", um * cos * px, isOpen ? null : spread, name == "sd" ? "spread along the section" : isOpen ? "no interval: a boundary shows no step" : null, subject);
            }
            yield return new Figure("coverage", 100 * thickness.Coverage, null, Counted, subject);
            yield return new Figure("n", thickness.Values.Length, null, Counted, subject);
        }
        foreach (var figure in Colours(look, 0, "", subject, NotCalibrated)) yield return figure;
        if (section.Luminesces && look.Light[1].Length == 3)
            foreach (var figure in Colours(look, 1, "luminescence-", subject, Words(look.Light[1]))) yield return figure;
    }

    private static IEnumerable<Figure> Colours(LayerLook look, int image, string prefix, string subject, string note)
    {
        var lab = look.Lab(image);
        yield return new Figure(prefix + "lightness", lab.L, null, note, subject);
        if (look.Light[image].Length != 3) yield break;
        yield return new Figure(prefix + "red-green", lab.A, null, note, subject);
        yield return new Figure(prefix + "yellow-blue", lab.B, null, note, subject);
    }

    /// <summary>A colour in words.</summary>
    public static string Words(double[] light) => Micrographs.Named(light)?.ToString() ?? "no colour";

    /// <summary>"layer 3".</summary>
    public static string Subject(int layer) => string.Create(CultureInfo.InvariantCulture, $"layer {layer}");
}
