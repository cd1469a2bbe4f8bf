using System.Xml.Linq;
using Sandarac.Imaging;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Documents;

namespace Sandarac.Studio.Plans.Drawing;

/// <summary>
/// Draws a condition plan as SVG in millimetres: the painted face, over any aligned light or as an outline drawing, with the zones of a state's findings by hatch, outline and letters; numbers; rulers, a bar, which way is up;
/// and a legend of what is used. Everything but the picture under it is lines: hatches are cut at their zone's border, no pattern, filter or font is needed to see them, so that a browser and a PDF writer draw the same.
/// </summary>
public static class ConditionPlanDrawing
{
    /// <summary>Draws a plan.</summary>
    /// <param name="studio">The studio.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="light">What lies under it: a layer's id, a light's code, or "none"; null for the state's own photograph, else visible light.</param>
    /// <param name="size">How large; null for an upright A4 page.</param>
    /// <exception cref="InputProblem">"unknown-layer"; a size that no paper has ("plan-size").</exception>
    public static string Svg(OpenStudio studio, ConditionPlan plan, string? light = null, PlanSize? size = null) => Draw(plan, Underlay.Of(studio, plan, light), Checked(size));

    /// <summary>The small picture of an appearance that legends and lists show.</summary>
    public static string Swatch(Appearance appearance) => PlanLegend.Swatch(appearance).ToString(SaveOptions.DisableFormatting);

    /// <summary>A size that paper has.</summary>
    /// <exception cref="InputProblem">It has not ("plan-size").</exception>
    internal static PlanSize Checked(PlanSize? size)
    {
        size ??= new PlanSize();
        return new[] { size.WidthMm, size.FaceHeightMm }.All(s => s is >= PlanSize.LeastMm and <= PlanSize.MostMm) ? size
            : throw new InputProblem("plan-size", "widthMm", $"A sheet of {size.WidthMm} mm with room for {size.FaceHeightMm} mm of the face cannot be drawn.", $"Give {PlanSize.LeastMm} to {PlanSize.MostMm} mm.");
    }

    /// <summary>Draws it over a picture, or without.</summary>
    internal static string Draw(ConditionPlan plan, Underlay? underlay, PlanSize size)
    {
        var (sheet, areas) = (new PlanSheet(plan, size, underlay), PlanAreas.Of(plan));
        // One hatch for all zones of a term: where they overlap, it does not double.
        foreach (var term in areas) sheet.Hatch(term.Appearance, sheet.Face.Place(term.Area));
        var outside = plan.Findings.Sum(f => sheet.Outline(f, $"{f.Number} {f.Appearance.Code}"));
        Notes(plan, areas, outside, underlay).ForEach(sheet.Note);
        return sheet.Finish(Heading(plan), [.. areas.Select(PlanLegend.Of)]);
    }

    /// <summary>"Condition before treatment, 4 May 2026, studio 2: 12 findings".</summary>
    internal static string Heading(ConditionPlan plan)
    {
        var found = PlanWords.Count(plan.Findings.Count, "finding");
        if (plan.State?.Content is not { } state) return $"Condition, {plan.Name}, {Words.Date(plan.AsOf)}: {found}";
        string[] parts = [state.Name, PlanWords.Of(state.Occasion) is var word && word != state.Name.Trim() ? word : "", state.On is { } day ? PlanWords.Day(day) : "", state.Place];
        return $"Condition, {string.Join(", ", parts.Where(p => p.Length > 0))}: {found}; as recorded {Words.Time(plan.AsOf)}{(plan.IsSealed ? ", sealed" : "")}";
    }

    private static List<string> Notes(ConditionPlan plan, IReadOnlyList<TermExtent> areas, int outside, Underlay? underlay)
    {
        var without = plan.Findings.Where(f => f.Zones.Count == 0).Select(f => f.Number).ToList();
        List<string> notes = [];
        if (plan.Findings.Count == 0) notes.Add("No finding is on record for this state.");
        if (without.Count > 0) notes.Add($"Without a zone, so not on the plan: {(without.Count <= 20 ? string.Join(", ", without) : PlanWords.Count(without.Count, "finding"))}.");
        if (outside > 0) notes.Add($"{PlanWords.Count(outside, "zone")} {(outside == 1 ? "lies" : "lie")} outside the painted face and {(outside == 1 ? "is" : "are")} not drawn.");
        if (areas.Any(a => a.Extent.Extent.AreaMm2 > 0)) notes.Add($"Places that several findings cover count once: together {PlanWords.Extent(PlanAreas.Whole(plan, areas))}. {(areas.FirstOrDefault(a => a.Extent.Extent.AreaMm2 > 0)!.Extent.Extent.Note)}");
        notes.Add(underlay is null ? "Drawn without a picture." : $"Under it, pale: {underlay.Label}.");
        return notes;
    }
}
