using Sandarac.Imaging;
using Sandarac.Materials.Terms;

namespace Sandarac.Studio.Plans.Drawing;

/// <summary>Draws what differs between two states: area that was gained and area that was lost, each with a hatch of plus and minus signs and an outline of its own; what stayed is outlined finely. All in black.</summary>
public static class DifferenceDrawing
{
    private static readonly Appearance Gained = Own("New", new ZoneOutline([], 0.7), Hatch.Parse(0, "3x3", "", "M.4 .75H1.3M.85 .3V1.2M1.9 2.25H2.8M2.35 1.8V2.7")), Lost = Own("Gone", new ZoneOutline([2.2, 1.1], 0.7), Hatch.Parse(0, "3x2.4", "M.3 .6H1.3M1.8 1.8H2.8", ""));

    private static readonly ZoneOutline Kept = new([], 0.2);

    /// <summary>Draws the later state's face with what differs from the earlier.</summary>
    /// <param name="studio">The studio.</param>
    /// <param name="difference">The difference.</param>
    /// <param name="light">What lies under it, as for <see cref="ConditionPlanDrawing.Svg"/>.</param>
    /// <param name="size">How large; null for an upright A4 page.</param>
    /// <exception cref="InputProblem">As for <see cref="ConditionPlanDrawing.Svg"/>.</exception>
    public static string Svg(OpenStudio studio, PlanDifference difference, string? light = null, PlanSize? size = null) => Draw(difference, Underlay.Of(studio, difference.After, light), ConditionPlanDrawing.Checked(size));

    internal static string Draw(PlanDifference difference, Underlay? underlay, PlanSize size)
    {
        var sheet = new PlanSheet(difference.After, size, underlay);
        foreach (var (area, appearance) in new[] { (difference.Lost, Lost), (difference.Gained, Gained) })
        {
            var placed = sheet.Face.Place(area);
            sheet.Hatch(appearance, placed);
            sheet.Line(Ink.PathOf(placed), appearance);
        }
        foreach (var finding in difference.Findings) sheet.Outline(finding.Finding with { Appearance = Of(finding) }, $"{finding.Number} {finding.Finding.Appearance.Code}{Sign(finding.Became)}");
        List<LegendRow> rows = [.. new[] { (Gained, Became.New, "area that only the later state has", difference.Gained), (Lost, Became.Gone, "area that only the earlier state has", difference.Lost) }
            .Select(r => new LegendRow(PlanLegend.Draw(r.Item1), r.Item1.Name, r.Item3, $"{Numbers(difference, r.Item2)}{PlanWords.Area(r.Item4.Area, null)}"))];
        rows.Add(new LegendRow([Ink.Rectangle(0.2, 0.2, PlanLegend.SwatchWidth - 0.4, PlanLegend.SwatchHeight - 0.4, Ink.White, Ink.Black, Kept.WidthMm)], "Outline of a finding that is in both states", "as it stands in the later state", $"{Numbers(difference, Became.Same, "same")}{Numbers(difference, Became.Changed, "changed")}".TrimEnd(':', ' ')));
        sheet.Note("After a number: + new, \u2212 gone, * changed. Whether an area differs by more than its uncertainty is said in the table of differences.");
        return sheet.Finish($"Difference between \"{difference.Before.Name}\" and \"{difference.After.Name}\": {ConditionPlanDrawing.Heading(difference.After)}", rows);
    }

    private static Appearance Own(string name, ZoneOutline outline, Hatch hatch) => Appearance.Note with { Key = name, Name = name, Code = "", Outline = outline, Hatch = hatch };

    /// <summary>Areas are outlined by what was gained and lost; lines and points have no area and are drawn by what became of the finding.</summary>
    private static Appearance Of(FindingDifference finding) => finding.Became switch { Became.New => Gained, Became.Gone => Lost, _ => Appearance.Note with { Outline = Kept } };

    private static string Sign(Became became) => became switch { Became.New => " +", Became.Gone => " \u2212", Became.Changed => " *", _ => "" };

    private static string Numbers(PlanDifference difference, Became became, string word = "findings") => difference.Findings.Where(f => f.Became == became).Select(f => f.Number).ToList() is { Count: > 0 } numbers ? $"{word} {string.Join(", ", numbers.Take(12))}{(numbers.Count > 12 ? " \u2026" : "")}: " : "";
}
