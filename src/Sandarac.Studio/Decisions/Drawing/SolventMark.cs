using System.Xml.Linq;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Plans.Drawing;

namespace Sandarac.Studio.Decisions.Drawing;

/// <summary>Signs that both plots share. Lengths are mm on the sheet; each kind has a shape of its own, so that it can be told in grey print.</summary>
internal static class SolventMark
{
    public const double Size = 3, Small = 2.5;

    private const double Gap = 0.9, Step = 4.2;

    /// <summary>Ways shorter than this, mm, have no room for a second figure.</summary>
    private const double Room = 4;

    /// <summary>A ring for a solvent by itself; its place is told by the tooltip, its name is written for a part of the mixture.</summary>
    public static XElement Solvent(double x, double y, string says, string? name) => Ink.Element("g", new XAttribute("class", "solvent"), Ink.Title(says), Ink.Circle(x, y, 0.75, Ink.White, name is null ? Ink.Quiet : Ink.Black, name is null ? 0.25 : 0.4),
        name is null ? null : Clear(Ink.Words(name, x + 0.75 + Gap, y + 0.9, Size)));

    /// <summary>A square that is full, for the mixture.</summary>
    public static XElement Mixture(double x, double y) => Ink.Element("g", new XAttribute("class", "mixture"), Ink.Title("the mixture"), Ink.Rectangle(x - 1.1, y - 1.1, 2.2, 2.2, Ink.Black, Ink.White, 0.3));

    /// <summary>A cross for a target.</summary>
    public static XElement Target(double x, double y) => Ink.Element("g", new XAttribute("class", "target"), Ink.Title("target"), Ink.Path($"M{Ink.Text(x - 1.6)} {Ink.Text(y)}H{Ink.Text(x + 1.6)}M{Ink.Text(x)} {Ink.Text(y - 1.6)}V{Ink.Text(y + 1.6)}", Ink.Black, 0.45));

    /// <summary>The way of the drift, with a tick where half and nine tenths of the volume are gone.</summary>
    public static XElement? Drift(EvaporationDrift? drift, Func<Mixture, (double X, double Y)?> place)
    {
        if (drift is null) return null;
        var way = drift.Points.Select(p => (p.EvaporatedPercent, At: place(p.Left))).Where(p => p.At is not null).Select(p => (p.EvaporatedPercent, At: p.At!.Value)).ToList();
        if (way.Count < 2) return null;
        var (half, end) = (way.MinBy(p => Math.Abs(p.EvaporatedPercent - 50)), way.MinBy(p => Math.Abs(p.EvaporatedPercent - 90)));
        return Ink.Element("g", new XAttribute("class", "drift"), Ink.Path($"M{string.Join('L', way.Select(p => $"{Ink.Text(p.At.X)} {Ink.Text(p.At.Y)}"))}", Ink.Black, 0.5),
            Math.Abs(half.At.X - end.At.X) + Math.Abs(half.At.Y - end.At.Y) < Room ? null : Gone(half), Gone(end));

        static XElement[] Gone((double Percent, (double X, double Y) At) p) => [Ink.Circle(p.At.X, p.At.Y, 0.8, Ink.White, Ink.Black, 0.35), Clear(Ink.Words($"{p.Percent:0} %", p.At.X - 1.5, p.At.Y + 0.8, Small, anchor: "end"))];
    }

    /// <summary>Words with white around them, over whatever lies there.</summary>
    private static XElement Clear(XElement words)
    {
        words.Add(new XAttribute("stroke", Ink.White), Ink.Mm("stroke-width", 0.7), new XAttribute("paint-order", "stroke"));
        return words;
    }

    /// <summary>The number of a region, in a box.</summary>
    public static XElement[] Region(double x, double y, int number) => [Ink.Rectangle(x - 1.6, y - 1.6, 3.2, 3.2, Ink.White, Ink.Quiet, 0.2), Ink.Words($"{number}", x, y + 0.9, Size, 600, "middle", Ink.Quiet)];

    /// <summary>What the signs mean, a line each.</summary>
    /// <param name="plot">What is shown.</param>
    /// <param name="x">Its left edge, mm.</param>
    /// <param name="y">Its first line, mm.</param>
    /// <param name="regions">The regions that are drawn, in the order of their numbers.</param>
    /// <param name="outside">Names of what lies outside the axes.</param>
    public static (IReadOnlyList<XElement> Drawn, double Height) Legend(SolventPlot plot, double x, double y, IReadOnlyList<SolubilityRegion> regions, IReadOnlyList<string> outside)
    {
        List<(Func<double, IEnumerable<XElement>> Sign, string Text)> rows = [];
        if (plot.Mixture is { } mixture) rows.Add((at => [Mixture(x + 2, at)], mixture.Text));
        if (plot.Drift is not null) rows.Add((at => [Ink.Path($"M{Ink.Text(x)} {Ink.Text(at)}H{Ink.Text(x + 4)}", Ink.Black, 0.5)!], "as it evaporates: half and nine tenths of the volume gone"));
        if (plot.Target is not null) rows.Add((at => [Target(x + 2, at)], "target"));
        if (plot.Solvents.Count > 0) rows.Add((at => [Solvent(x + 2, at, "solvent", null)], "solvents by themselves"));
        rows.AddRange(regions.Select((r, i) => ((Func<double, IEnumerable<XElement>>)(at => Region(x + 2, at, i + 1)), $"{r.Name} ({r.Source}{(r.IsVerified ? "" : "; not verified")})")));
        if (outside.Count > 0) rows.Add((_ => [], $"Outside the axes: {string.Join(", ", outside)}."));
        return ([.. rows.SelectMany((r, i) => r.Sign(y + Step * i).Append(Ink.Words(r.Text, x + 6, y + Step * i + 0.9, Size)))], Step * rows.Count);
    }
}
