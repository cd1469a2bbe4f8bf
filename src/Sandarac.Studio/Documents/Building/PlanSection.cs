using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Plans;
using Sandarac.Studio.Plans.Drawing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>The condition plan: zones of the findings on the painted face, with its legend and the table of areas.</summary>
internal static class PlanSection
{
    /// <summary>Fits the text's width and two thirds of its height.</summary>
    private static readonly PlanSize Size = new(162, 140);

    public static Section Of(Draft draft)
    {
        if (PlanOf(draft) is not { } plan || plan.Findings.All(f => f.Zones.Count == 0)) return new Section(draft[Phrase.SectionPlan], new Paragraph(draft[Phrase.NoZones]));
        var terms = PlanAreas.Of(plan);
        return new Section(draft[Phrase.SectionPlan],
            new Plates([new Plate(Drawing.Of(ConditionPlanDrawing.Svg(draft.Studio, plan, size: Size)), draft[Phrase.PlanDrawn], draft.Phrases.Of(Phrase.PlanAlt, plan.Findings.Sum(f => f.Zones.Count)))]),
            new Table(draft[Phrase.PlanTable],
                [new Column(draft[Phrase.ColumnTerm], Share: 1.6), new Column(draft[Phrase.SectionFindings]), new Column(draft[Phrase.ColumnArea], ColumnKind.Number), new Column(draft[Phrase.ColumnShare], ColumnKind.Number), new Column(draft[Phrase.ColumnLength], ColumnKind.Number)],
                [.. terms.Select(t => Row(draft, $"{t.Appearance.Code} {t.Appearance.Name}", string.Join(", ", t.Numbers), t.Extent)), Row(draft, draft[Phrase.PlanTogether], "", PlanAreas.Whole(plan, terms))]),
            new Paragraph(string.Join(' ', terms.Select(t => t.Extent.Extent).Where(e => e.AreaMm2 > 0).Select(e => e.Note).Distinct()), ParagraphLook.Small));
    }

    /// <summary>Where a finding is, and how much of the face that takes.</summary>
    public static Prose Zones(Draft draft, Finding finding)
    {
        if (PlanOf(draft)?.Findings.FirstOrDefault(f => f.Id == finding.Id) is not { Zones.Count: > 0 } placed) return draft[Phrase.NoZone];
        return new Prose([.. placed.Zones.SelectMany((z, i) => Extent(draft, PlanAreas.Of(PlanOf(draft)!, [z])).Spans.Prepend(new Span($"{(i > 0 ? "; " : "")}{z.Name} ")))]);
    }

    /// <summary>A painting without a size has no plane, and no plan.</summary>
    private static ConditionPlan? PlanOf(Draft draft) => draft.Painting is { WidthMm: > 0, HeightMm: > 0 } ? draft.Plan.Value : null;

    private static IReadOnlyList<Prose> Row(Draft draft, string term, string findings, PlanExtent extent) => [term, findings, Area(draft, extent), Share(draft, extent), Length(draft, extent)];

    private static Prose Extent(Draft draft, PlanExtent extent) => extent.Extent.AreaMm2 > 0 ? "(" + Area(draft, extent) + Prose.Of("\u00A0mm2", SpanLook.Small) + ", " + Share(draft, extent) + Prose.Of("\u00A0%", SpanLook.Small) + ")"
        : extent.LengthMm > 0 ? "(" + Length(draft, extent) + Prose.Of("\u00A0mm", SpanLook.Small) + ")" : Prose.Empty;

    private static Prose Area(Draft draft, PlanExtent extent) => extent.Extent.AreaMm2 > 0 ? Prose.Measured(extent.Extent.AreaMm2, extent.Extent.AreaUncertaintyMm2, draft.Phrases) : Prose.Empty;

    private static Prose Share(Draft draft, PlanExtent extent) => extent.Extent.AreaMm2 > 0 ? Prose.Measured(100 * extent.Extent.FaceShare, 100 * extent.Extent.FaceShareUncertainty, draft.Phrases) : Prose.Empty;

    private static Prose Length(Draft draft, PlanExtent extent) => extent.LengthMm > 0 ? Prose.Measured(extent.LengthMm, extent.LengthUncertaintyMm, draft.Phrases) : Prose.Empty;
}
