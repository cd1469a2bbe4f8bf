using System.Globalization;

namespace Sandarac.Materials.Dating;

/// <summary>How a material's years lie to a painting's.</summary>
public enum DatingVerdict
{
    /// <summary>It was in use within the painting's years.</summary>
    Consistent,

    /// <summary>It came later than the painting's last year.</summary>
    LaterThan,

    /// <summary>It was rare or gone before the painting's first year.</summary>
    EndsBefore,

    /// <summary>It came later than the painting's last year by one account and not by another.</summary>
    Contested,

    /// <summary>The painting has no years, or years that say nothing about it.</summary>
    CannotBeTold,
}

/// <summary>A material's years held against a painting's.</summary>
/// <param name="Pigment">The material's row, with its source and flag.</param>
/// <param name="From">The painting's first year; null when it is not known.</param>
/// <param name="To">The painting's last year; null when it is not known.</param>
/// <param name="Verdict">How they lie.</param>
/// <param name="Reason">Why, in a sentence.</param>
/// <param name="Question">The obvious next question; empty when there is none.</param>
public sealed record DatingCheck(Pigment Pigment, int? From, int? To, DatingVerdict Verdict, string Reason, string Question)
{
    /// <summary>Years by which published dates of introduction differ between texts, as the table's own rows show: within them a contradiction is weak.</summary>
    private const int Doubt = 10;

    /// <summary>What stands beside every check.</summary>
    public static IReadOnlyList<string> Cautions { get; } =
    [
        "A check of dates, not of authorship: a later material may be a retouching, a relining, a restored ground or a later hand.",
        "It rests on the material being what it is taken for: elements alone identify no pigment.",
        "Dates of introduction and of the end of use are conventions with exceptions; the sources differ by years.",
        "A row marked MEMORY was recalled and is not verified.",
    ];

    /// <summary>
    /// Compares years. The painting's first and last year belong to it, and so do the material's: a material of 1704 is consistent with a painting of 1700 to 1704. It is later when its first year lies after the painting's last,
    /// and ends before when its last usual year lies before the painting's first; otherwise the spans overlap. A claim of an earlier year makes a later one contested where the claim would make them overlap, or has no year.
    /// </summary>
    /// <param name="pigment">The material.</param>
    /// <param name="from">The painting's first year; null when it is not known.</param>
    /// <param name="to">The painting's last year; null when it is not known.</param>
    /// <exception cref="ArgumentOutOfRangeException">The first year lies after the last.</exception>
    public static DatingCheck Of(Pigment pigment, int? from, int? to)
    {
        if (from > to) throw new ArgumentOutOfRangeException(nameof(from), from, "The first year is not after the last.");
        DatingCheck Says(DatingVerdict verdict, string reason, string question = "") => new(pigment, from, to, verdict, reason, question);
        var (since, name) = (pigment.From, pigment.Name);
        if (to < since)
            return pigment.Contested.Length > 0 && (pigment.ContestedFrom is null || pigment.ContestedFrom <= to) ? Says(DatingVerdict.Contested, $"{name} is dated {Words(since)}, after the painting's last year {Words(to.Value)}, but: {pigment.Contested}", OfContested)
                : Says(DatingVerdict.LaterThan, $"{name} is dated {Words(since)}, {Apart(since - to.Value)} after the painting's last year {Words(to.Value)}{Weak(since - to.Value)}.{(pigment.Contested.Length > 0 ? $" {pigment.Contested}" : "")}", OfLater);
        if (pigment.RareAfter is { } last && last < from)
            return Says(DatingVerdict.EndsBefore, $"{name} is rare after {Words(last)}{(pigment.Ending == Words(last) ? "" : $" ({pigment.Ending})")}, {Apart(from.Value - last)} before the painting's first year {Words(from.Value)}{Weak(from.Value - last)}.", OfEnded);
        if (from is null && to is null) return Says(DatingVerdict.CannotBeTold, "The painting has no years.", "What dates the painting? Give its first and last possible year.");
        if (to is null && since > from) return Says(DatingVerdict.CannotBeTold, $"{name} is dated {Words(since)}; the painting has a first year and no last.", "What is the last year in which it can have been painted?");
        if (from is null && pigment.RareAfter is not null) return Says(DatingVerdict.CannotBeTold, $"{name} was in use by {Words(to!.Value)}, and is rare after {Words(pigment.RareAfter.Value)}; the painting has a last year and no first.", "What is the first year in which it can have been painted?");
        return Says(DatingVerdict.Consistent, $"{name} was in use {Span(pigment)}{Part(pigment, from, to)}.");
    }

    /// <summary>A year as people write it: "1704", "300 BCE".</summary>
    public static string Words(int year) => year < 0 ? string.Create(CultureInfo.InvariantCulture, $"{-year} BCE") : year.ToString(CultureInfo.InvariantCulture);

    private const string OfLater = "Is it retouching, a later layer or a restoration? In which layer does it lie, and over or under which varnish? Is the material identified, or only its elements?";

    private const string OfContested = "Which account does the evidence bear out? Read both sources; analysis of the material's kind (crystal form, particle shape, companions) may decide.";

    private const string OfEnded = "Is it an older painting below, old stock, a revival, or a painting that is older than thought? Is the material identified, or only its elements?";

    private static string Apart(int years) => years == 1 ? "1 year" : string.Create(CultureInfo.InvariantCulture, $"{years} years");

    private static string Weak(int years) => years <= Doubt ? "; published dates differ by as much, so that this alone says little" : "";

    private static string Span(Pigment p) => p.RareAfter is { } last ? $"from {Words(p.From)} to about {Words(last)}" : $"from {Words(p.From)} on";

    /// <summary>Where only part of the painting's years will do.</summary>
    private static string Part(Pigment p, int? from, int? to) => (p.From > from, p.RareAfter < to) switch
    {
        (true, true) => $": of the painting's years only {Words(p.From)} to {Words(p.RareAfter!.Value)} agree",
        (true, false) => $": of the painting's years only those from {Words(p.From)} agree",
        (false, true) => $": of the painting's years those to {Words(p.RareAfter!.Value)} agree best",
        _ => "",
    };
}
