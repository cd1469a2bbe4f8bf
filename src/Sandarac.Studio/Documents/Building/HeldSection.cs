using Sandarac.Analysis.Lights;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>What the field asks of each kind of document, and whether the record held it: the Commentaries 24 to 27 to the Guidelines for Practice of the American Institute for Conservation (read, partly in excerpts),
/// EN 16095:2012 (scope read), and for loans note 10/6 of the Canadian Conservation Institute (read).</summary>
internal static class HeldSection
{
    private const string Any = "AIC Commentary 24", Examination = "AIC Commentary 25", Plan = "AIC Commentary 26", Report = "AIC Commentary 27", Condition = "EN 16095:2012", Loan = "CCI Note 10/6";

    private sealed record Requirement(Phrase Need, string Source, Func<Draft, bool> IsHeld);

    private static readonly Requirement[] Always =
    [
        new(Phrase.NeedPurpose, Any, d => d.Fields.Purpose.Length > 0), new(Phrase.NeedAuthor, Any, d => d.Fields.Author.Length > 0), new(Phrase.NeedDate, Any, _ => true), new(Phrase.NeedTitle, Any, d => d.Painting.Title.Length > 0),
        new(Phrase.NeedNumber, Any, d => !string.IsNullOrWhiteSpace(d.Painting.AccessionNumber)), new(Phrase.NeedOwner, Any, d => d.Fields.Owner.Length > 0), new(Phrase.NeedMaker, Any, d => d.Fields.Maker.Length > 0),
        new(Phrase.NeedDating, Any, d => IdentityFacts.Years(d) is not null), new(Phrase.NeedSize, Any, d => d.Painting.WidthMm > 0), new(Phrase.NeedMarks, Any, d => d.Fields.Marks.Length > 0),
    ];

    private static readonly Requirement[] Examining =
    [
        new(Phrase.NeedFindings, Examination, HasFindings), new(Phrase.NeedAccessories, Examination, d => d.Fields.Accessories.Length > 0), new(Phrase.NeedCircumstances, Examination, d => d.Fields.Circumstances.Length > 0), new(Phrase.NeedMethods, Examination, HasMethods),
    ];

    private static readonly Requirement[] BeforeTreatment =
    [
        new(Phrase.NeedPastTreatment, Examination, d => d.Fields.PastTreatment.Length > 0), new(Phrase.NeedReferences, Examination, d => d.Fields.References.Length > 0), new(Phrase.NeedBefore, Examination, HasPicture),
    ];

    public static Section Of(Draft draft, DocumentKind kind) => new(draft[Phrase.SectionHeld], new Paragraph(draft[Phrase.HeldHow]),
        new Table(draft[Phrase.HeldTable], [new Column(draft[Phrase.ColumnRequired], Share: 3), new Column(draft[Phrase.ColumnAskedBy]), new Column(draft[Phrase.ColumnHeld], Share: 0.6)],
            [.. Asked(kind).Select(r => (IReadOnlyList<Prose>)[draft[r.Need], r.Source, r.IsHeld(draft) ? draft[Phrase.Yes] : Prose.Of(draft[Phrase.Missing], SpanLook.Strong)])]));

    private static IEnumerable<Requirement> Asked(DocumentKind kind) => Always.Concat(kind switch
    {
        DocumentKind.Examination => [.. Examining, .. BeforeTreatment],
        DocumentKind.Condition => [new(Phrase.NeedContext, Condition, d => d.Fields.Circumstances.Length > 0), new(Phrase.NeedCondition, Condition, HasFindings), new(Phrase.NeedPictures, Condition, HasPicture), new(Phrase.NeedMethods, Examination, HasMethods)],
        DocumentKind.Proposal =>
        [
            .. Examining, .. BeforeTreatment, new(Phrase.NeedCourse, Plan, d => Options(d).Any(o => o.Steps.Count > 0)), new(Phrase.NeedMaterials, Plan, d => Options(d).SelectMany(o => o.Steps).Any(s => s.Materials.Length > 0)),
            new(Phrase.NeedTime, Plan, d => Options(d).Any(o => o.Hours is not null)), new(Phrase.NeedCost, Plan, d => Options(d).Any(o => o.Cost is not null)), new(Phrase.NeedApproval, Plan, HasApproval),
        ],
        DocumentKind.Treatment =>
        [
            new(Phrase.NeedActions, Report, d => d.Treatment.Value.Entries.Count > 0), new(Phrase.NeedAfter, Report, d => d.Content.States.Any(s => s.Content is { Occasion: Occasion.AfterTreatment, Photographs.Count: > 0 })),
            new(Phrase.NeedVariations, Report, d => HasApproval(d) && d.Treatment.Value.Entries.Count > 0), new(Phrase.NeedAdded, Report, d => d.Treatment.Value.Entries.Any(e => e.Content.Materials.Count > 0)), new(Phrase.NeedNewFindings, Report, d => d.Treatment.Value.Entries.Any(e => e.Content.NewlySeen.Length > 0)),
        ],
        DocumentKind.Loan =>
        [
            new(Phrase.NeedBaseline, Loan, d => d.Content.States.Any(s => s.Content.BaselineId is null)), new(Phrase.NeedUpdate, Loan, d => d.Content.States.Any(s => s.Content.BaselineId is not null)), new(Phrase.NeedPictures, Loan, HasPicture),
            new(Phrase.NeedBothSign, Loan, d => d.Content.Seals.Any(s => s.Signatures.Select(g => g.Organisation).Distinct().Count() > 1)),
        ],
        _ => Array.Empty<Requirement>(),
    });

    private static IEnumerable<ProposalOption> Options(Draft draft) => draft.Treatment.Value.Standing.SelectMany(p => p.Content.Options);

    /// <summary>An approval whose text can still be read as what was approved.</summary>
    private static bool HasApproval(Draft draft) => draft.Treatment.Value.Mandate.InForce.Count > 0;

    private static bool HasFindings(Draft draft) => draft.Content.Findings.Count > 0;

    private static bool HasMethods(Draft draft) => draft.Content.Runs.Any(r => r.State is RunState.Done or RunState.NoAnswer);

    private static bool HasPicture(Draft draft) => draft.Content.Photographs.Any(p => p.Subject == PhotographSubject.Painting);
}
