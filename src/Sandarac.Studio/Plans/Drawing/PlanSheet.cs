using System.Xml.Linq;
using NetTopologySuite.Geometries;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Places;

namespace Sandarac.Studio.Plans.Drawing;

/// <summary>How large a plan is drawn.</summary>
/// <param name="WidthMm">Breadth of the sheet; 190 mm fits an upright A4 page with its margins.</param>
/// <param name="FaceHeightMm">Most height of the face on it.</param>
public sealed record PlanSize(double WidthMm = 190, double FaceHeightMm = 180)
{
    /// <summary>As far as paper goes: A0.</summary>
    internal const double LeastMm = 60, MostMm = 1200;
}

/// <summary>A sheet with a painted face: identity above it, signs and labels on it, a legend and notes below.</summary>
/// <param name="plan">What it shows.</param>
/// <param name="size">How large.</param>
/// <param name="underlay">What lies under it; null for an outline drawing.</param>
internal sealed class PlanSheet(ConditionPlan plan, PlanSize size, Underlay? underlay)
{
    /// <summary>What is smaller on the sheet is shown by a sign: its hatch could not be seen.</summary>
    public const double LeastDrawnMm = 1;

    private const double Margin = 2, TitleSize = 4.2, LineSize = 2.8;

    private readonly List<XElement?> _zones = [];
    private readonly List<LabelAsk> _asks = [];
    private readonly List<string> _notes = [];
    private bool _hasDots, _hasSmall;

    public FaceOnSheet Face { get; } = new(plan.Painting, size.WidthMm - 2 * Margin - FaceFrame.Left - FaceFrame.Right, size.FaceHeightMm);

    private void Add(IEnumerable<XElement?> drawn) => _zones.AddRange(drawn);

    /// <summary>Adds a hatch over an area on the sheet.</summary>
    public void Hatch(Appearance appearance, Geometry area) => Add(PlanLegend.Hatched(appearance, area, underlay is not null));

    /// <summary>Adds an outline.</summary>
    public void Line(string path, Appearance appearance) => Add([underlay is null ? null : Ink.Path(path, Ink.White, appearance.Outline.WidthMm + Ink.CasingMm), Ink.Path(path, appearance.Ink, appearance.Outline.WidthMm, appearance.Outline.Dashes)]);

    /// <summary>Adds a note for below the legend.</summary>
    public void Note(string text) => _notes.Add(text);

    /// <summary>Outlines a finding's zones, puts signs for what is small, and asks for labels.</summary>
    /// <returns>How many of the zones lie outside the face, whole.</returns>
    public int Outline(PlanFinding finding, string label)
    {
        var (outside, asks) = (0, new List<(LabelAsk Ask, double Weight)>());
        foreach (var zone in finding.Zones)
        {
            var drawn = CoveredArea.Parts(zone.Geometry).SelectMany(p => CoveredArea.Parts((p.IsValid ? p : NetTopologySuite.Geometries.Utilities.GeometryFixer.Fix(p)).Intersection(plan.Face))).ToList();
            if (drawn.Count == 0) outside++;
            asks.AddRange(drawn.SelectMany(p => CoveredArea.Parts(Face.Place(p)) is var parts && parts.Any() ? parts : []).Select(p => Draw(p, finding.Appearance, label)));
        }
        _asks.AddRange(asks.OrderByDescending(a => a.Weight).Select((a, i) => a.Ask with { MayLead = i == 0 }));
        return outside;
    }

    /// <summary>The finished sheet.</summary>
    public string Finish(string heading, IReadOnlyList<LegendRow> rows)
    {
        var labels = PlanLabels.Place([.. _asks.OrderByDescending(a => a.MayLead).ThenByDescending(a => a.Room)], new Envelope(-1, Face.Width + FaceFrame.Right, -1, Face.Height + 1));
        var unplaced = _asks.Where(a => a.MayLead).Except(labels.Select(l => l.Ask)).ToList();
        if (unplaced.Count > 0) Note($"No room for {PlanWords.Count(unplaced.Count, "label")}{(unplaced.Count <= 12 ? $" ({string.Join(", ", unplaced.Select(a => a.Text))})" : "")}: a larger sheet, or a plan of fewer findings, has it.");
        var (title, below) = (Title(heading), PlanLegend.Draw([.. rows, .. Signs()], size.WidthMm - 2 * Margin));
        var (titleHeight, notes) = (title.Height + FaceFrame.Top, _notes.SelectMany(n => Ink.Lines(n, size.WidthMm - 2 * Margin, LineSize, 4)).ToList());
        var (legendTop, left) = (titleHeight + Face.Height + FaceFrame.Bottom, Margin + FaceFrame.Left);
        var notesTop = legendTop + below.Height + 3;
        return Ink.Sheet(size.WidthMm, notesTop + notes.Count * 3.6 + Margin, $"{heading}: {plan.Painting.Title}", Ink.Rectangle(0, 0, size.WidthMm, notesTop + notes.Count * 3.6 + Margin, Ink.White, "none", 0), title.Drawn,
            Ink.Group(left, titleHeight, underlay?.Draw(Face), FaceFrame.Draw(Face, plan.Painting), Ink.Element("g", new XAttribute("class", "zones"), _zones), Ink.Element("g", new XAttribute("class", "labels"), labels.Select(Label))),
            Ink.Group(Margin, legendTop, below.Drawn), notes.Select((n, i) => Ink.Words(n, Margin, notesTop + 3.6 * i, LineSize, fill: Ink.Quiet))).ToString(SaveOptions.DisableFormatting);
    }

    private (LabelAsk Ask, double Weight) Draw(Geometry part, Appearance appearance, string label)
    {
        var (box, middle) = (part.EnvelopeInternal, part.InteriorPoint.Coordinate);
        if (part is Point || Math.Max(box.Width, box.Height) < LeastDrawnMm)
        {
            (_hasDots, _hasSmall) = (_hasDots || part is Point, _hasSmall || part is not Point);
            _zones.Add(part is Point ? Dot(middle.X, middle.Y, appearance.Ink) : Diamond(middle.X, middle.Y, appearance.Ink));
            return (new LabelAsk(label, middle, 0, true), part.Area);
        }
        Line(Ink.PathOf(part), appearance);
        return (new LabelAsk(label, middle, part is Polygon ? part.Boundary.Distance(part.Factory.CreatePoint(middle)) : 0, true), part.Area + part.Length / 1e3);
    }

    private (IReadOnlyList<XElement> Drawn, double Height) Title(string heading)
    {
        var painting = plan.Painting;
        List<XElement> drawn = [];
        var y = Margin + TitleSize;
        foreach (var line in Ink.Lines(painting.Title, size.WidthMm - 2 * Margin, TitleSize, 2))
        {
            drawn.Add(Ink.Words(line, Margin, y, TitleSize, 600));
            y += TitleSize * 1.2;
        }
        string facts = string.Join(", ", new[] { painting.Technique, $"{Words.Size(painting)} (height x width), {Words.Origin(painting.SizeOrigin)}", painting.AccessionNumber }.Where(t => !string.IsNullOrEmpty(t)));
        foreach (var line in Ink.Lines(facts, size.WidthMm - 2 * Margin, LineSize, 2).Concat(Ink.Lines(heading, size.WidthMm - 2 * Margin, LineSize, 3)))
        {
            drawn.Add(Ink.Words(line, Margin, y, LineSize));
            y += LineSize * 1.35;
        }
        return (drawn, y - LineSize * 0.6);
    }

    private IEnumerable<LegendRow> Signs()
    {
        const double X = PlanLegend.SwatchWidth / 2, Y = PlanLegend.SwatchHeight / 2;
        if (_hasDots) yield return new LegendRow([Dot(X, Y, Ink.Black)], "a point", "A place without extent, in its term's ink.", "");
        if (_hasSmall) yield return new LegendRow([Diamond(X, Y, Ink.Black)], "a small zone", $"Smaller on this sheet than {LeastDrawnMm:0} mm; the sign says where, not how large.", "");
    }

    private static XElement Dot(double x, double y, string ink) => Ink.Element("g", Ink.Circle(x, y, 0.9, Ink.White, ink, 0.35), Ink.Circle(x, y, 0.3, ink, "none", 0));

    private static XElement Diamond(double x, double y, string ink) => Ink.Path($"M{Ink.Text(x)} {Ink.Text(y - 1)}L{Ink.Text(x + 1)} {Ink.Text(y)}L{Ink.Text(x)} {Ink.Text(y + 1)}L{Ink.Text(x - 1)} {Ink.Text(y)}Z", ink, 0.35, fill: Ink.White)!;

    private static string Leader(Coordinate from, Coordinate to) => $"M{Ink.Text(from.X)} {Ink.Text(from.Y)}L{Ink.Text(to.X)} {Ink.Text(to.Y)}";

    private static XElement Label(PlacedLabel label)
    {
        var box = label.Box;
        return Ink.Element("g", label.LeaderEnd is not { } end ? null : new object?[] { Ink.Path(Leader(label.Ask.Anchor, end), Ink.White, 0.6), Ink.Path(Leader(label.Ask.Anchor, end), Ink.Black, 0.2) },
            Ink.Rectangle(box.MinX, box.MinY, box.Width, box.Height, Ink.White, Ink.Black, 0.15), Ink.Words(label.Ask.Text, (box.MinX + box.MaxX) / 2, box.MaxY - 0.8, PlanLabels.Size, 600, "middle"));
    }
}
