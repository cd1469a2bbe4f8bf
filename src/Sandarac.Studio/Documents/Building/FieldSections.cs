using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Sections that people fill in, because the record has no place for their contents. What nobody filled in says so; nothing is made up for it.</summary>
internal static class FieldSections
{
    public static Section Circumstances(Draft draft) => new(draft[Phrase.SectionCircumstances], Filled(draft,
        (Phrase.Purpose, draft.Fields.Purpose), (Phrase.Circumstances, draft.Fields.Circumstances), (Phrase.Accessories, draft.Fields.Accessories), (Phrase.PastTreatment, draft.Fields.PastTreatment), (Phrase.References, draft.Fields.References)));

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
