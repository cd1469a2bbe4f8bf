using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Sections that people fill in, because the record has no place for their contents. What nobody filled in says so; nothing is made up for it.</summary>
internal static class FieldSections
{
    public static Section Circumstances(Draft draft) => new(draft[Phrase.SectionCircumstances], Filled(draft,
        (Phrase.Purpose, draft.Fields.Purpose), (Phrase.Circumstances, draft.Fields.Circumstances), (Phrase.Accessories, draft.Fields.Accessories), (Phrase.PastTreatment, draft.Fields.PastTreatment), (Phrase.References, draft.Fields.References)));

    public static Section Proposed(Draft draft) => new(draft[Phrase.SectionTreatmentPlan],
    [
        .. Filled(draft, (Phrase.Course, draft.Fields.Course), (Phrase.Materials, draft.Fields.Materials), (Phrase.TimeEstimate, draft.Fields.TimeEstimate), (Phrase.Cost, draft.Fields.Cost), (Phrase.Approval, draft.Fields.Approval)),
        new Note(NoteKind.Remark, draft[Phrase.DeviationRule]),
    ]);

    public static Section CarriedOut(Draft draft)
    {
        List<Block> blocks = [new Paragraph(Prose.Of(draft[Phrase.Actions], SpanLook.Strong))];
        blocks.Add(draft.Fields.Actions.Count > 0 ? new BulletList([.. draft.Fields.Actions.Select(a => (Prose)a)]) : new Paragraph(Prose.Of(draft[Phrase.NotRecorded], SpanLook.Emphasis)));
        blocks.AddRange(Filled(draft, (Phrase.Variations, draft.Fields.Variations), (Phrase.AddedMaterials, draft.Fields.AddedMaterials), (Phrase.NewFindings, draft.Fields.NewFindings)));
        return new Section(draft[Phrase.SectionTreatment], blocks);
    }

    /// <summary>Lines to sign on: those that a person gave, else those that the kind of document asks for.</summary>
    public static Section Signatures(Draft draft, params IReadOnlyList<Phrase> roles) => new(draft[Phrase.SectionSignatures],
        new Signatures(draft.Fields.Signatures.Count > 0 ? [.. draft.Fields.Signatures.Select(s => new SignatureLine(s.Role, s.Name, s.At))] : [.. roles.Select(r => new SignatureLine(draft[r], r == Phrase.RoleConservator ? draft.Fields.Author : ""))]));

    private static List<Block> Filled(Draft draft, params ReadOnlySpan<(Phrase Name, string Text)> fields)
    {
        List<Fact> facts = [];
        var isWhole = true;
        foreach (var (name, text) in fields)
        {
            isWhole &= text.Length > 0;
            facts.Add(new Fact(draft[name], text.Length > 0 ? text : Prose.Of(draft[Phrase.NotRecorded], SpanLook.Emphasis)));
        }
        return isWhole ? [new Facts(facts)] : [new Facts(facts), new Paragraph(draft[Phrase.NotHeldNote], ParagraphLook.Small)];
    }
}
