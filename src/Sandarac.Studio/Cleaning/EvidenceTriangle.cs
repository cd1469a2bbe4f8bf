using System.Xml.Linq;
using Sandarac.Materials.Cleaning;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Decisions.Drawing;
using Sandarac.Studio.Plans.Drawing;

namespace Sandarac.Studio.Cleaning;

/// <summary>What the tests say of one layer, on the Teas triangle: where every round region that agrees with them holds a place, where none does, where they do not settle it, and the tests with their numbers.</summary>
public static class EvidenceTriangle
{
    /// <summary>Height and width of a cell, points.</summary>
    private const int Step = 2;

    private const double SignSize = 1.5, Words = 2.6;

    private static readonly (Belongs Belongs, string Grey, string Words)[] Shades = [(Belongs.Inside, "#bdbdbd", "would act, as far as round regions go"), (Belongs.Open, "#ececec", "not settled by the tests"), (Belongs.Outside, "#ffffff", "would not act, as far as round regions go")];

    /// <summary>The drawing as SVG, mm as its unit.</summary>
    /// <param name="evidence">Of the layer that is looked at.</param>
    /// <param name="original">Of the painter's own paint: places that touch it are crossed.</param>
    /// <param name="told">Puts what the drawing says into the language of the page; as it is by default.</param>
    public static string Draw(LayerEvidence evidence, LayerEvidence original, Func<string, string>? told = null)
    {
        var rows = Legend(evidence, original).ToList();
        var height = TeasTriangle.Top + TeasTriangle.Rise + 16 + 4.4 * rows.Count;
        return Ink.Sheet(TeasTriangle.Width, height, "Cleaning tests on the Teas triangle", Ink.Rectangle(0, 0, TeasTriangle.Width, height, Ink.White, "none", 0),
            evidence.Teas.Any ? Cells(evidence) : null, TeasTriangle.Rules(), original.Layer == evidence.Layer || !original.Teas.Any ? null : Crossed(original),
            Marks(evidence.DidNot, acted: false), Marks(evidence.Acted, acted: true),
            rows.Select((r, i) => new[] { r.Sign(TeasTriangle.Left + 2, TeasTriangle.Top + TeasTriangle.Rise + 14 + 4.4 * i), Ink.Words(told?.Invoke(r.Words) ?? r.Words, TeasTriangle.Left + 7, TeasTriangle.Top + TeasTriangle.Rise + 15 + 4.4 * i, Words) })).ToString(SaveOptions.DisableFormatting);
    }

    /// <summary>Runs of cells of one shade, row by row of equal dispersion.</summary>
    private static IEnumerable<XElement?> Cells(LayerEvidence evidence) =>
        from row in Enumerable.Range(0, 100 / Step).Select(r => r * Step)
        from run in Runs(row, evidence)
        let shade = Shades.First(s => s.Belongs == run.Belongs)
        where shade.Belongs != Belongs.Outside
        select Ink.Path($"M{Corner(row, run.From)}L{Corner(row, run.To)}L{Corner(row + Step, Math.Min(run.To, 100 - row - Step))}L{Corner(row + Step, Math.Min(run.From, 100 - row - Step))}Z", shade.Grey, 0.1, fill: shade.Grey);

    private static IEnumerable<(Belongs Belongs, int From, int To)> Runs(int row, LayerEvidence evidence)
    {
        (Belongs Belongs, int From, int To)? run = null;
        for (var polar = 0; polar < 100 - row; polar += Step)
        {
            var here = evidence.InTeas(Middle(row, polar));
            if (run is { } last && last.Belongs == here) run = last with { To = polar + Step };
            else
            {
                if (run is { } ended) yield return ended;
                run = (here, polar, polar + Step);
            }
        }
        if (run is { } end) yield return end;
    }

    private static IEnumerable<XElement?> Crossed(LayerEvidence original) =>
        from row in Enumerable.Range(0, 100 / (2 * Step)).Select(r => 2 * r * Step)
        from polar in Enumerable.Range(0, (100 - row) / (2 * Step)).Select(p => 2 * p * Step)
        let place = Middle(row, polar)
        where original.InTeas(place) == Belongs.Inside
        select Cross(TeasTriangle.Place(place), 0.8, 0.25);

    private static TeasFractions Middle(int row, int polar) => new(row + Step / 2.0, polar + Step / 4.0, 100 - row - Step / 2.0 - polar - Step / 4.0);

    /// <summary>One sign for all tests of one agent, with their numbers: signs at one place would hide each other's.</summary>
    private static IEnumerable<XElement> Marks(IEnumerable<TestedAgent> tests, bool acted) => tests.Where(t => t.Teas is not null).GroupBy(t => t.Teas!).Select(place =>
    {
        var (x, y) = TeasTriangle.Place(place.Key);
        var (numbers, further) = (string.Join(", ", place.Select(t => t.Test.Content.Number)), place.Any(t => TestFlags.WentFurther(t.Test.Content)));
        return Ink.Element("g", new XAttribute("class", "test"), Ink.Title($"Test {numbers}: {place.First().Mixture!.Text}"), Ink.Circle(x, y, SignSize, acted ? Ink.Black : Ink.White, Ink.Black, 0.4),
            further ? Cross((x, y), 2.6, 0.5) : null, Ink.Words(numbers, x + SignSize + 1.2, y + 1, 3, 600));
    });

    private static IEnumerable<(Func<double, double, XElement> Sign, string Words)> Legend(LayerEvidence evidence, LayerEvidence original)
    {
        yield return ((x, y) => Ink.Circle(x, y, SignSize, Ink.Black, Ink.Black, 0.4), "acted, with the test's number");
        yield return ((x, y) => Ink.Circle(x, y, SignSize, Ink.White, Ink.Black, 0.4), "nothing seen");
        if (evidence.Acted.Concat(evidence.DidNot).Any(t => TestFlags.WentFurther(t.Test.Content))) yield return ((x, y) => Cross((x, y), 2, 0.5)!, "went further than planned");
        if (evidence.Teas.Any)
            foreach (var shade in Shades) yield return ((x, y) => Ink.Rectangle(x - 2, y - 1.4, 4, 2.8, shade.Grey, Ink.Quiet, 0.2), shade.Words);
        if (original.Layer != evidence.Layer && original.Acted.Count > 0 && original.Teas.Any) yield return ((x, y) => Cross((x, y), 0.8, 0.25)!, "crossed: would touch the painter's paint, as far as round regions go");
    }

    private static XElement? Cross((double X, double Y) at, double half, double width) =>
        Ink.Path($"M{Ink.Text(at.X - half)} {Ink.Text(at.Y - half)}L{Ink.Text(at.X + half)} {Ink.Text(at.Y + half)}M{Ink.Text(at.X - half)} {Ink.Text(at.Y + half)}L{Ink.Text(at.X + half)} {Ink.Text(at.Y - half)}", Ink.Black, width);

    private static string Corner(int dispersion, int polar)
    {
        var (x, y) = TeasTriangle.Place(new(dispersion, polar, 100 - dispersion - polar));
        return $"{Ink.Text(x)} {Ink.Text(y)}";
    }
}
