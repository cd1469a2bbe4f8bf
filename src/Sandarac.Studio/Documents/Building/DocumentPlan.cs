using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Which sections each kind of document has, in the order that the field asks for, and how each is written. A studio's template may order them otherwise.</summary>
internal static class DocumentPlan
{
    private static readonly Dictionary<string, Func<Draft, DocumentKind, Section?>> Writers = new()
    {
        ["circumstances"] = (d, _) => FieldSections.Circumstances(d),
        ["states"] = (d, _) => StatesSection.Of(d),
        ["condition-plan"] = (d, _) => PlanSection.Of(d),
        ["findings"] = (d, kind) => FindingsSection.Of(d, kind == DocumentKind.Proposal ? Phrase.FindingsProposal : Phrase.SectionFindings),
        ["cleaning-tests"] = (d, _) => CleaningSection.Of(d),
        ["proposed-treatment"] = (d, _) => ProposalSection.Of(d),
        ["treatment"] = (d, _) => TreatmentSection.Of(d),
        ["photographs"] = (d, kind) => PhotographsSection.Pictures(d, kind == DocumentKind.Proposal ? Phrase.PhotographsBefore : Phrase.SectionPhotographs),
        ["stratigraphy"] = (d, _) => SamplesSection.Of(d),
        ["build-up"] = (d, _) => SamplesSection.BuildUp(d),
        ["dating"] = (d, _) => DatingSection.Of(d),
        ["panel"] = (d, _) => PanelSection.Of(d),
        ["readings"] = (d, kind) => ReadingsSection.Of(d, isWhole: kind == DocumentKind.First),
        ["alignment"] = (d, _) => PhotographsSection.Alignment(d),
        ["methods"] = (d, _) => MethodsSection.Of(d),
        ["warnings"] = (d, _) => MethodsSection.Warnings(d),
        ["files"] = (d, _) => FilesSection.Of(d),
        ["signatures"] = (d, kind) => FieldSections.Signatures(d, Roles(kind)),
        ["held"] = (d, kind) => HeldSection.Of(d, kind),
    };

    /// <summary>The names of all sections.</summary>
    public static IReadOnlyCollection<string> Names => Writers.Keys;

    /// <summary>Sections of a kind in their own order. The documents' order of contents: reference to the sources of <see cref="HeldSection"/>.</summary>
    public static IReadOnlyList<string> Of(DocumentKind kind) => kind switch
    {
        DocumentKind.First => ["photographs", "alignment", "readings", "files"],
        DocumentKind.Examination => ["circumstances", "findings", "condition-plan", "photographs", "stratigraphy", "build-up", "dating", "panel", "readings", "alignment", "methods", "warnings", "files", "signatures", "held"],
        DocumentKind.Condition => ["circumstances", "findings", "condition-plan", "states", "photographs", "alignment", "methods", "warnings", "files", "signatures", "held"],
        DocumentKind.Proposal => ["circumstances", "findings", "condition-plan", "photographs", "cleaning-tests", "proposed-treatment", "methods", "warnings", "files", "signatures", "held"],
        DocumentKind.Treatment => ["circumstances", "treatment", "cleaning-tests", "findings", "condition-plan", "states", "photographs", "methods", "warnings", "files", "signatures", "held"],
        DocumentKind.Loan => ["circumstances", "states", "findings", "condition-plan", "photographs", "alignment", "warnings", "files", "signatures", "held"],
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No such kind of document."),
    };

    /// <summary>A section; null when there is nothing to say.</summary>
    public static Section? Write(string name, Draft draft, DocumentKind kind) => Writers[name](draft, kind);

    /// <summary>What a kind is called.</summary>
    public static Phrase Title(DocumentKind kind) => kind switch
    {
        DocumentKind.First => Phrase.KindFirst,
        DocumentKind.Examination => Phrase.KindExamination,
        DocumentKind.Condition => Phrase.KindCondition,
        DocumentKind.Proposal => Phrase.KindProposal,
        DocumentKind.Treatment => Phrase.KindTreatment,
        _ => Phrase.KindLoan,
    };

    private static IReadOnlyList<Phrase> Roles(DocumentKind kind) => kind switch
    {
        DocumentKind.Proposal => [Phrase.RoleConservator, Phrase.RoleOwner],
        DocumentKind.Loan => [Phrase.RoleLender, Phrase.RoleBorrower],
        _ => [Phrase.RoleConservator],
    };
}
