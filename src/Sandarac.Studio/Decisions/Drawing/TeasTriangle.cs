using System.Globalization;
using System.Xml.Linq;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Plans.Drawing;

namespace Sandarac.Studio.Decisions.Drawing;

/// <summary>The Teas triangle as SVG: dispersion 100 at the top, polar at the lower right, hydrogen at the lower left, each side ruled by tens.</summary>
public static class TeasTriangle
{
    internal const double Side = 120, Left = 14, Top = 12, Width = Side + 2 * Left;

    internal static readonly double Rise = Side * Math.Sqrt(3) / 2;

    /// <summary>The drawing.</summary>
    /// <param name="plot">What it shows; what has no Teas fractions is left out.</param>
    public static string Draw(SolventPlot plot)
    {
        var named = plot.Mixture?.Parts.Select(p => p.Solvent).ToHashSet() ?? [];
        TeasArea[] areas = [.. (plot.Regions ?? []).OfType<TeasArea>()];
        var (legend, legendHeight) = SolventMark.Legend(plot with { Target = plot.Target as TeasTarget }, Left, Top + Rise + 16, areas, []);
        var height = Top + Rise + 16 + legendHeight;
        return Ink.Sheet(Width, height, "Teas triangle", Ink.Rectangle(0, 0, Width, height, Ink.White, "none", 0), Rules(), areas.Select((a, i) => Area(a, i + 1)),
            plot.Solvents.Where(s => s.Teas is not null).OrderBy(named.Contains).Select(s => Marked(s, s.Teas!.Value, named.Contains(s))),
            SolventMark.Drift(plot.Drift, m => m.Teas.Value is { } t ? Place(t) : null),
            plot.Target is TeasTarget target ? At(target.Fractions, SolventMark.Target) : null, plot.Mixture?.Teas.Value is { } mixed ? At(mixed, SolventMark.Mixture) : null, legend).ToString(SaveOptions.DisableFormatting);
    }

    /// <summary>Where a point lies on the sheet, mm: dispersion 100 at the upper corner, polar 100 at the lower right, hydrogen 100 at the lower left.</summary>
    internal static (double X, double Y) Place(TeasFractions t)
    {
        var sum = t.Dispersion + t.Polar + t.Hydrogen;
        var (d, p) = (t.Dispersion / sum, t.Polar / sum);
        return (Left + Side * (p + d / 2), Top + Rise * (1 - d));
    }

    private static XElement At(TeasFractions t, Func<double, double, XElement> sign) => sign(Place(t).X, Place(t).Y);

    private static XElement Marked(Solvent solvent, TeasFractions t, bool isNamed) => SolventMark.Solvent(Place(t).X, Place(t).Y, string.Create(CultureInfo.InvariantCulture, $"{solvent.Name}: fd {t.Dispersion:0.#}, fp {t.Polar:0.#}, fh {t.Hydrogen:0.#}"), isNamed ? solvent.Name : null);

    private static XElement Area(TeasArea area, int number) => Ink.Element("g", new XAttribute("class", "region"), Ink.Title($"{area.Name}. {area.Source}"),
        Ink.Path($"M{string.Join('L', area.Corners.Select(c => $"{Ink.Text(Place(c).X)} {Ink.Text(Place(c).Y)}"))}Z", Ink.Quiet, 0.4, [2, 1], "#ececec"),
        SolventMark.Region(area.Corners.Average(c => Place(c).X), area.Corners.Average(c => Place(c).Y), number));

    internal static IEnumerable<XElement?> Rules()
    {
        for (var tens = 10; tens < 100; tens += 10)
        {
            yield return Rule(new(tens, 100 - tens, 0), new(tens, 0, 100 - tens));
            yield return Rule(new(100 - tens, tens, 0), new(0, tens, 100 - tens));
            yield return Rule(new(100 - tens, 0, tens), new(0, 100 - tens, tens));
            yield return Number(new(tens, 100 - tens, 0), tens, 1.2, -0.2, "start");
            yield return Number(new(0, tens, 100 - tens), tens, 0, 3.6, "middle");
            yield return Number(new(100 - tens, 0, tens), tens, -1.2, -0.2, "end");
        }
        yield return Ink.Path($"M{Corner(new(100, 0, 0))}L{Corner(new(0, 100, 0))}L{Corner(new(0, 0, 100))}Z", Ink.Black, 0.4);
        yield return Ink.Words("fd", Left + Side * 0.75 + 7, Top + Rise / 2, SolventMark.Size, 600);
        yield return Ink.Words("fh", Left + Side * 0.25 - 7, Top + Rise / 2, SolventMark.Size, 600, "end");
        yield return Ink.Words("fp", Left + Side / 2, Top + Rise + 8, SolventMark.Size, 600, "middle");
        yield return Ink.Words("fd dispersion 100", Place(new(100, 0, 0)).X, Top - 3, SolventMark.Size, 600, "middle");
        yield return Ink.Words("fp polar 100", Left + Side, Top + Rise + 8, SolventMark.Size, 600, "middle");
        yield return Ink.Words("fh hydrogen 100", Left, Top + Rise + 8, SolventMark.Size, 600, "middle");
    }

    private static XElement? Rule(TeasFractions from, TeasFractions to) => Ink.Path($"M{Corner(from)}L{Corner(to)}", "#c6c6c6", 0.15);

    private static XElement Number(TeasFractions at, int tens, double x, double y, string anchor) => Ink.Words($"{tens}", Place(at).X + x, Place(at).Y + y, SolventMark.Small, anchor: anchor, fill: Ink.Quiet);

    private static string Corner(TeasFractions t) => $"{Ink.Text(Place(t).X)} {Ink.Text(Place(t).Y)}";
}
