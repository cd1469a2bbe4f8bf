using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Server.Pages.Language;
using Sandarac.Studio;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;
using Sandarac.Studio.Treatment;
using static Sandarac.Server.Pages.Language.PageText;

namespace Sandarac.Server.Pages.Treatment;

/// <summary>How proposals, steps and the log are told on the pages.</summary>
internal static class TreatmentWords
{
    public static IReadOnlyList<(string Value, string Words)> Kinds =>
    [
        ("Cleaning", Say("cleaning")), ("Consolidation", Say("consolidation")), ("Structural", Say("work on the support")), ("Filling", Say("filling")), ("Retouching", Say("retouching")), ("Varnishing", Say("varnishing")), ("Other", Say("other work")),
    ];

    public static IReadOnlyList<(string Value, string Words)> Uses => [("Used", Say("used")), ("Added", Say("added, stays")), ("Removed", Say("removed"))];

    public static string Of(StepKind kind) => Kinds.First(k => k.Value == $"{kind}").Words;

    public static string Of(MaterialUse use) => Uses.First(u => u.Value == $"{use}").Words;

    /// <summary>On what a step rests.</summary>
    public static string Of(StepStanding standing) => standing switch
    {
        StepStanding.Approved => Say("approved"),
        StepStanding.Departs => Say("departs from what was approved"),
        _ => Say("not approved"),
    };

    public static string Of(StepChange change) => change switch
    {
        StepChange.Same => Say("as approved"),
        StepChange.Changed => Say("changed"),
        StepChange.Added => Say("new"),
        _ => Say("left out"),
    };

    /// <summary>A part of a step that differs.</summary>
    public static string Part(string part) => part switch
    {
        "name" => Say("name"),
        "kind" => Say("kind"),
        "operation" => Say("operation"),
        "zones" => Say("zones"),
        "materials" => Say("materials"),
        "risks" => Say("risks"),
        "irreversible" => Say("what cannot be undone"),
        _ => Say("order"),
    };

    /// <summary>What an operation is called: a term in the language of the page, or the studio's own words.</summary>
    public static string Operation(string operation) => TermText.Name(operation);

    /// <summary>Kind and operation, once where they are called the same: "cleaning, varnish removal".</summary>
    public static string Work(StepKind kind, string operation) => string.Join(", ", new[] { Of(kind), Operation(operation) }.Distinct(StringComparer.CurrentCultureIgnoreCase));

    /// <summary>"20 to 30 h: the log of another painting".</summary>
    public static string Of(GroundedRange? range, string unit) => range is null ? Say("not stated") : Say("{0} to {1} {2}: {3}", Figure(range.Low), Figure(range.High), unit, range.Basis);

    /// <summary>"37.5 ± 1.2 %".</summary>
    public static string Share(DayProgress day) => Decimal(Rounding.Rounded(day.Percent, 100 * day.ShareUncertainty) switch
    {
        (var share, { } off) => $"{share} \u00B1 {off} %",
        var (share, _) => $"{share} %",
    });

    /// <summary>"isooctane, 20 mL, batch B7: used".</summary>
    public static string Of(LogMaterial material) => string.Join(", ", new[] { material.Name, material.Amount is { } amount ? $"{Figure(amount)} {material.Unit}" : "", material.Batch.Length > 0 ? Say("batch {0}", material.Batch) : "" }.Where(t => t.Length > 0)) + $": {Of(material.Use)}";

    /// <summary>"12.3 ± 0.8 cm2".</summary>
    public static string Area(ZoneExtent extent) => Findings.FindingWords.Area(extent);

    public static string Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";

    public static string Figure(double value) => Decimal(value.ToString("0.##", CultureInfo.InvariantCulture));

    /// <summary>Two significant figures: more would say more than is known.</summary>
    public static string About(double value) => Decimal(Rounding.Significant(value, 2));

    /// <summary>Names of zones; "the whole painting" for none.</summary>
    public static string Where(IReadOnlyList<Guid> zones, IReadOnlyDictionary<Guid, string> names) => zones.Count == 0 ? Say("the whole painting") : string.Join(", ", zones.Select(z => names.GetValueOrDefault(z, Say("one that is not there any more"))));

    /// <summary>Names of a painting's zones, deleted ones left out.</summary>
    public static IReadOnlyDictionary<Guid, string> ZoneNames(OpenStudio studio, Guid paintingId) => new Zones(studio).Of(paintingId).ToDictionary(z => z.Id, z => z.Name);

    /// <summary>A proposal's entries, as its history shows them.</summary>
    public static IReadOnlyList<(string Label, string Value)> Lines(ProposalContent c) =>
    [
        (Say("title"), c.Title), (Say("reason"), c.Reason), (Say("options"), string.Join("; ", c.Options.Select(o => $"{o.Name} ({string.Join(", ", o.Steps.Select(s => s.Name))}), {Of(o.Hours, "h")}, {Of(o.Cost, o.Currency)}"))),
        (Say("advised"), c.Options.FirstOrDefault(o => o.Id == c.AdvisedId)?.Name ?? ""), (Say("advice"), c.Advice),
    ];

    /// <summary>A step's entries.</summary>
    public static Func<TreatmentStepContent, IReadOnlyList<(string Label, string Value)>> StepLines(IReadOnlyDictionary<Guid, string> zones) => c =>
    [
        (Say("name"), c.Name), (Say("kind"), Of(c.Kind)), (Say("operation"), Operation(c.Operation)), (Say("zones"), Where(c.Zones, zones)), (Say("approved step"), c.ProposedStepId is null ? Say("no") : Say("yes")), (Say("why it was urgent"), c.UrgentReason),
        (Say("ended on"), Day(c.EndedOn)), (Say("note"), c.Note),
    ];

    /// <summary>A log entry's entries.</summary>
    public static Func<LogEntryContent, IReadOnlyList<(string Label, string Value)>> EntryLines(IReadOnlyDictionary<Guid, string> zones) => c =>
    [
        (Say("day"), Day(c.On)), (Say("who"), c.Who), (Say("what was done"), c.What), (Say("hours"), c.Hours is { } h ? Figure(h) : ""), (Say("zones"), c.Zones.Count == 0 ? "" : Where(c.Zones, zones)), (Say("materials"), string.Join("; ", c.Materials.Select(Of))),
        (Say("photographs"), $"{c.Photographs.Count}"), (Say("timed test"), c.IsTimedTest ? Say("yes") : Say("no")), (Say("newly seen"), c.NewlySeen), (Say("departure"), c.Departure),
    ];
}
