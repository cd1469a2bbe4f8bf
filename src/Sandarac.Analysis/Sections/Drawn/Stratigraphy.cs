using System.Globalization;
using System.Net;
using System.Text;

namespace Sandarac.Analysis.Sections.Drawn;

/// <summary>Draws samples' layers as columns side by side, to one scale, as SVG: own hatch by kind of layer, its colour as a strip beside, material and thickness as text.</summary>
public static class Stratigraphy
{
    private const double ColumnWidth = 96, TextWidth = 210, Gap = 24, Left = 64, Top = 64, Height = 440, Line = 30, Strip = 10;

    private const string Ink = "#222222";

    /// <summary>The drawing; the same samples give the same text.</summary>
    /// <param name="samples">At least one, each with at least one layer.</param>
    /// <exception cref="ArgumentException">No sample, a sample without layers, or a thickness that is not greater than 0.</exception>
    public static string Svg(IReadOnlyList<DrawnSample> samples)
    {
        if (samples.Count == 0 || samples.Any(s => s.Layers.Count == 0 || s.Layers.Any(l => !(l.MeanUm > 0 && double.IsFinite(l.MeanUm)))))
            throw new ArgumentException("Each sample needs layers of a thickness greater than 0.", nameof(samples));
        var tallest = samples.Max(s => s.Layers.Sum(l => l.MeanUm));
        var scale = Height / tallest;
        var lines = samples.Max(s => s.Layers.Count);
        var bottom = Top + Math.Max(Height, lines * Line);
        var width = Left + samples.Count * (ColumnWidth + TextWidth + Gap);
        LayerKind[] kinds = [.. samples.SelectMany(s => s.Layers).Select(l => l.Kind).Distinct().Order()];
        var legend = Legend(kinds, width, bottom + 46);
        var height = legend[^1].Y + 38;
        var svg = new StringBuilder();
        svg.Append(Invariant($"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width:0} {height:0}\" width=\"{width:0}\" height=\"{height:0}\" font-family=\"'Source Sans 3', sans-serif\" font-size=\"13\" fill=\"{Ink}\" role=\"img\" aria-label=\"Layers of {samples.Count} samples, to scale\">"));
        svg.Append("<defs>").Append(Hatches.Definitions(kinds)).Append("</defs>").Append(Invariant($"<rect width=\"{width:0}\" height=\"{height:0}\" fill=\"#ffffff\"/>"));
        Ruler(svg, tallest, scale, bottom);
        for (var i = 0; i < samples.Count; i++) Column(svg, samples[i], Left + i * (ColumnWidth + TextWidth + Gap), bottom, scale);
        foreach (var (kind, x, y) in legend) Entry(svg, kind, x, y);
        return svg.Append("</svg>").ToString();
    }

    private static void Ruler(StringBuilder svg, double tallest, double scale, double bottom)
    {
        var step = Step(tallest / 6);
        for (var um = 0.0; um <= tallest; um += step)
        {
            var y = bottom - um * scale;
            svg.Append(Invariant($"<path d=\"M{Left - 16:0.#} {y:0.##}H{Left - 8:0.#}\" stroke=\"{Ink}\"/><text x=\"{Left - 20:0.#}\" y=\"{y + 4:0.##}\" text-anchor=\"end\">{um:0.##}</text>"));
        }
        svg.Append(Invariant($"<path d=\"M{Left - 8:0.#} {bottom:0.##}V{bottom - tallest * scale:0.##}\" stroke=\"{Ink}\"/><text x=\"{Left - 20:0.#}\" y=\"{bottom - tallest * scale - 12:0.##}\" text-anchor=\"end\">um</text>"));
    }

    /// <summary>1, 2 or 5 times a power of ten, at least so much.</summary>
    private static double Step(double least)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10(least)));
        return power * (least <= power ? 1 : least <= 2 * power ? 2 : least <= 5 * power ? 5 : 10);
    }

    private static void Column(StringBuilder svg, DrawnSample sample, double x, double bottom, double scale)
    {
        svg.Append(Invariant($"<text x=\"{x:0.#}\" y=\"26\" font-size=\"16\" font-weight=\"600\">{Text(sample.Name)}</text><text x=\"{x:0.#}\" y=\"44\">{Text(sample.Place)}</text>"));
        var (edge, middles) = (bottom, new double[sample.Layers.Count]);
        for (var i = 0; i < sample.Layers.Count; i++)
        {
            var high = sample.Layers[i].MeanUm * scale;
            edge -= high;
            middles[i] = edge + high / 2;
            Layer(svg, sample.Layers[i], x, edge, high);
        }
        var places = Apart(middles, bottom);
        for (var i = 0; i < sample.Layers.Count; i++) Label(svg, sample.Layers[i], x + ColumnWidth, middles[i], places[i]);
    }

    /// <summary>A layer that is not everywhere is drawn in pieces that fill its share of the width.</summary>
    private static void Layer(StringBuilder svg, DrawnLayer layer, double x, double y, double high)
    {
        var (pieces, wide) = (layer.Coverage < 0.995 ? 3 : 1, ColumnWidth - Strip);
        var piece = wide / pieces * Math.Clamp(layer.Coverage, 0.02, 1);
        if (pieces > 1) svg.Append(Invariant($"<rect x=\"{x + Strip:0.##}\" y=\"{y:0.##}\" width=\"{wide:0.##}\" height=\"{high:0.##}\" fill=\"#ffffff\" stroke=\"{Ink}\" stroke-width=\"0.6\" stroke-dasharray=\"3 3\"/>"));
        for (var i = 0; i < pieces; i++)
            svg.Append(Invariant($"<rect x=\"{x + Strip + i * wide / pieces + (wide / pieces - piece) / 2:0.##}\" y=\"{y:0.##}\" width=\"{piece:0.##}\" height=\"{high:0.##}\" fill=\"url(#{Hatches.Id(layer.Kind)})\" stroke=\"{Ink}\" stroke-width=\"1\"/>"));
        if (layer.Colour is { } colour) svg.Append(Invariant($"<rect x=\"{x:0.##}\" y=\"{y:0.##}\" width=\"{Strip:0.##}\" height=\"{high:0.##}\" fill=\"{Text(colour)}\" stroke=\"{Ink}\" stroke-width=\"0.5\"/>"));
    }

    /// <summary>Middles of the labels: as near to their layers as they go without lying over one another.</summary>
    private static double[] Apart(double[] middles, double bottom)
    {
        var places = (double[])middles.Clone();
        places[0] = Math.Min(places[0], bottom - Line / 2);
        for (var i = 1; i < places.Length; i++) places[i] = Math.Min(places[i], places[i - 1] - Line);
        // Pushed out above the drawing: back down from the top.
        if (places[^1] < Top) places[^1] = Top;
        for (var i = places.Length - 2; i >= 0; i--) places[i] = Math.Max(places[i], places[i + 1] + Line);
        return places;
    }

    private static void Label(StringBuilder svg, DrawnLayer layer, double x, double from, double at)
    {
        svg.Append(Invariant($"<path d=\"M{x:0.##} {from:0.##}L{x + 14:0.##} {at:0.##}H{x + 20:0.##}\" stroke=\"{Ink}\" stroke-width=\"0.7\" fill=\"none\"/>"));
        svg.Append(Invariant($"<text x=\"{x + 24:0.##}\" y=\"{at - 1:0.##}\"><tspan font-weight=\"600\">{Text(layer.Number)}</tspan> {Text(layer.Material)}</text>"));
        svg.Append(Invariant($"<text x=\"{x + 24:0.##}\" y=\"{at + 13:0.##}\" font-size=\"11\">{Thickness(layer)}</text>"));
    }

    private static string Thickness(DrawnLayer layer)
    {
        var text = layer is { P5Um: { } low, P95Um: { } high } ? Invariant($"{layer.MeanUm:0.#} um, {low:0.#} to {high:0.#}") : Invariant($"{layer.MeanUm:0.#} um");
        return layer.Coverage < 0.995 ? text + Invariant($", in {100 * layer.Coverage:0} %") : text;
    }

    /// <summary>Where each kind's hatch is explained, in as many rows as the width asks for.</summary>
    private static (LayerKind Kind, double X, double Y)[] Legend(LayerKind[] kinds, double width, double y)
    {
        var (x, places) = (Left, new (LayerKind, double, double)[kinds.Length]);
        for (var i = 0; i < kinds.Length; i++)
        {
            var wide = 48 + 7.5 * Hatches.Label(kinds[i]).Length;
            if (x > Left && x + wide > width) (x, y) = (Left, y + Line);
            places[i] = (kinds[i], x, y);
            x += wide;
        }
        return places;
    }

    private static void Entry(StringBuilder svg, LayerKind kind, double x, double y) =>
        svg.Append(Invariant($"<rect x=\"{x:0.#}\" y=\"{y - 12:0.#}\" width=\"26\" height=\"16\" fill=\"url(#{Hatches.Id(kind)})\" stroke=\"{Ink}\"/><text x=\"{x + 32:0.#}\" y=\"{y:0.#}\">{Hatches.Label(kind)}</text>"));

    private static string Text(string text) => WebUtility.HtmlEncode(text);

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
