using System.Globalization;
using System.Xml.Linq;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Plans.Drawing;

namespace Sandarac.Studio.Decisions.Drawing;

/// <summary>Hansen's space from three sides as SVG. Dispersion is drawn at twice the scale of the other two, as the distance counts it, so that regions are circles in all three.</summary>
public static class HansenProjections
{
    private const double MmPerUnit = 2.2, Left = 12, Top = 8, Gap = 12, Below = 12;

    /// <summary>What the axes show at least, MPa^0.5; they grow with what is plotted.</summary>
    private static readonly (double Low, double High) Dispersions = (12, 24), Polars = (0, 20), Hydrogens = (0, 26);

    private sealed record Axis(string Name, double Low, double High, double Scale, Func<HansenParameters, double> Value)
    {
        public double Length => (High - Low) * Scale;

        public double Of(HansenParameters h) => (Value(h) - Low) * Scale;

        public bool Shows(HansenParameters h) => Value(h) >= Low && Value(h) <= High;
    }

    /// <summary>The drawing.</summary>
    /// <param name="plot">What it shows; what has no Hansen parameters is left out.</param>
    public static string Draw(SolventPlot plot)
    {
        Axis d = Ruled("dD", 2, Dispersions, h => h.Dispersion, plot), p = Ruled("dP", 1, Polars, h => h.Polar, plot), h = Ruled("dH", 1, Hydrogens, x => x.Hydrogen, plot);
        var (second, third, down) = (Left + h.Length + Gap, Left + 2 * (h.Length + Gap), Top + Math.Max(p.Length, d.Length));
        HansenSphere[] spheres = [.. (plot.Regions ?? []).OfType<HansenSphere>()];
        var outside = plot.Solvents.Where(s => s.Hansen is { } at && !(d.Shows(at.Value) && p.Shows(at.Value) && h.Shows(at.Value))).Select(s => s.Name).ToList();
        var (legend, legendHeight) = SolventMark.Legend(plot with { Target = plot.Target as HansenTarget }, Left, down + Below + 2, spheres, outside);
        var (width, height) = (third + p.Length + 8, down + Below + 2 + legendHeight);
        return Ink.Sheet(width, height, "Hansen parameters from three sides, MPa^0.5", Ink.Rectangle(0, 0, width, height, Ink.White, "none", 0),
            Face(plot, spheres, h, p, Left, down), Face(plot, spheres, h, d, second, down), Face(plot, spheres, p, d, third, down), legend).ToString(SaveOptions.DisableFormatting);
    }

    private static Axis Ruled(string name, double factor, (double Low, double High) least, Func<HansenParameters, double> value, SolventPlot plot)
    {
        HansenParameters[] shown = [.. plot.Mixture?.Parts.Select(p => p.Solvent.Hansen?.Value).OfType<HansenParameters>() ?? [], .. plot.Target is HansenTarget t ? [t.Parameters] : Array.Empty<HansenParameters>()];
        var (low, high) = (shown.Select(value).Append(least.Low).Min(), shown.Select(value).Append(least.High).Max());
        return new(name, Math.Floor(low / 4) * 4, Math.Ceiling(high / 4) * 4, factor * MmPerUnit, value);
    }

    private static XElement Face(SolventPlot plot, IReadOnlyList<HansenSphere> spheres, Axis x, Axis y, double left, double bottom)
    {
        (double X, double Y) At(HansenParameters h) => (x.Of(h), -y.Of(h));
        var named = plot.Mixture?.Parts.Select(p => p.Solvent).ToHashSet() ?? [];
        var clip = $"face-{x.Name}-{y.Name}";
        return Ink.Group(left, bottom, Rules(x, y),
            Ink.Element("clipPath", new XAttribute("id", clip), Ink.Rectangle(0, -y.Length, x.Length, y.Length, "none", "none", 0)),
            Ink.Element("g", new XAttribute("clip-path", $"url(#{clip})"), spheres.Select((r, i) => Sphere(r, At(r.Centre), i + 1))),
            plot.Solvents.Where(s => s.Hansen is { } h && x.Shows(h.Value) && y.Shows(h.Value)).OrderBy(named.Contains).Select(s => SolventMark.Solvent(At(s.Hansen!.Value).X, At(s.Hansen.Value).Y, Says(s, s.Hansen.Value), named.Contains(s) ? s.Name : null)),
            SolventMark.Drift(plot.Drift, m => m.Hansen.Value is { } h ? At(h) : null),
            plot.Target is HansenTarget { Parameters: var t } ? SolventMark.Target(At(t).X, At(t).Y) : null, plot.Mixture?.Hansen.Value is { } mixed ? SolventMark.Mixture(At(mixed).X, At(mixed).Y) : null);
    }

    private static string Says(Solvent s, HansenParameters h) => string.Create(CultureInfo.InvariantCulture, $"{s.Name}: dD {h.Dispersion:0.#}, dP {h.Polar:0.#}, dH {h.Hydrogen:0.#}");

    /// <summary>A sphere's outline: Ra counts dispersion twice, so along it the radius is half in units and, at twice the scale, the same in mm.</summary>
    private static XElement Sphere(HansenSphere region, (double X, double Y) at, int number)
    {
        var radius = region.Radius * MmPerUnit;
        return Ink.Element("g", new XAttribute("class", "region"), Ink.Title($"{region.Name}. {region.Source}"),
            Ink.Path($"M{Ink.Text(at.X - radius)} {Ink.Text(at.Y)}a{Ink.Text(radius)} {Ink.Text(radius)} 0 1 0 {Ink.Text(2 * radius)} 0a{Ink.Text(radius)} {Ink.Text(radius)} 0 1 0 {Ink.Text(-2 * radius)} 0Z", Ink.Quiet, 0.4, [2, 1]),
            SolventMark.Region(at.X, at.Y, number));
    }

    private static IEnumerable<XElement?> Rules(Axis x, Axis y)
    {
        for (var v = x.Low; v <= x.High + 1e-9; v += x.Scale > MmPerUnit ? 2 : 4)
        {
            yield return Ink.Path($"M{Ink.Text((v - x.Low) * x.Scale)} 0V{Ink.Text(-y.Length)}", "#dcdcdc", 0.15);
            yield return Ink.Words($"{v:0}", (v - x.Low) * x.Scale, 3.2, SolventMark.Small, anchor: "middle", fill: Ink.Quiet);
        }
        for (var v = y.Low; v <= y.High + 1e-9; v += y.Scale > MmPerUnit ? 2 : 4)
        {
            yield return Ink.Path($"M0 {Ink.Text(-(v - y.Low) * y.Scale)}H{Ink.Text(x.Length)}", "#dcdcdc", 0.15);
            yield return Ink.Words($"{v:0}", -1.2, -(v - y.Low) * y.Scale + 0.8, SolventMark.Small, anchor: "end", fill: Ink.Quiet);
        }
        yield return Ink.Path($"M0 {Ink.Text(-y.Length)}V0H{Ink.Text(x.Length)}", Ink.Black, 0.35);
        yield return Ink.Words($"{x.Name}, MPa^0.5", x.Length, 7.4, SolventMark.Size, 600, "end");
        yield return Ink.Words($"{y.Name}, MPa^0.5", 0, -y.Length - 2, SolventMark.Size, 600);
    }
}
