using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Plans.Drawing;
using Sandarac.Studio.Record;
using Sandarac.Studio.Treatment;
using Sandarac.Studio.Treatment.Drawing;

namespace Sandarac.Studio.Documents.Building;

/// <summary>What was done, from the log: steps and how far they are, every action with its day and who did it, materials, variations from what was approved, what came to light (AIC Commentary 27). Retouching stands in a section of its own.</summary>
internal static class TreatmentSection
{
    /// <summary>Fits the text's width and a third of its height.</summary>
    private static readonly PlanSize Size = new(162, 90);

    public static Section Of(Draft draft)
    {
        var treatment = draft.Treatment.Value;
        if (treatment.Steps.Count == 0) return new Section(draft[Phrase.SectionTreatment], new Paragraph(draft[Phrase.NoTreatment]));
        var (steps, retouching) = (treatment.StepsOf(isRetouching: false), treatment.StepsOf(isRetouching: true));
        List<Block> blocks = [.. Cautions.ForAgents(treatment.Entries.SelectMany(e => e.Content.Materials), draft.Phrases).Select(c => new Note(NoteKind.Caution, c))];
        Fact[] approvals = [.. treatment.Standing.Where(p => treatment.Approvals.ContainsKey(p.Id)).SelectMany(p => ProposalSection.Approval(draft, p).Prepend(new Fact(draft[Phrase.KindProposal], p.Content.Title)))];
        if (approvals.Length > 0) blocks.Add(new Facts(approvals));
        blocks.AddRange(Work(draft, steps));
        List<Section> parts = [Listed(draft, Phrase.Variations, Phrase.NoVariations, VariationList.Of(draft)), Listed(draft, Phrase.NewFindings, Phrase.NoNewFindings, Seen(draft))];
        if (retouching.Count > 0) parts.Add(new Section(draft[Phrase.SectionRetouching], [new Paragraph(draft[Phrase.RetouchingRule]), .. Work(draft, retouching), .. Drawn(draft, retouching)]));
        if (Views(draft) is { Count: > 0 } views) parts.Add(new Section(draft[Phrase.BeforeAndAfter], [new Paragraph(draft[Phrase.BeforeAndAfterHow]), .. views]));
        if (Photographs(draft) is { Count: > 0 } plates) parts.Add(new Section(draft[Phrase.LogPhotographs], new Plates(plates, 2)));
        return new Section(draft[Phrase.SectionTreatment], blocks, parts);
    }

    /// <summary>Names of zones; the whole painting for none.</summary>
    public static string Where(Draft draft, IReadOnlyList<Guid> zones) => zones.Count == 0 ? draft[Phrase.WholePainting] : string.Join(", ", zones.Select(z => draft.Treatment.Value.Zones.GetValueOrDefault(z, draft[Phrase.EvidenceGone])));

    public static Phrase Word(StepKind kind) => kind switch
    {
        StepKind.Cleaning => Phrase.WorkCleaning,
        StepKind.Consolidation => Phrase.WorkConsolidation,
        StepKind.Structural => Phrase.WorkStructural,
        StepKind.Filling => Phrase.WorkFilling,
        StepKind.Retouching => Phrase.WorkRetouching,
        StepKind.Varnishing => Phrase.WorkVarnishing,
        _ => Phrase.WorkOther,
    };

    private static Phrase Word(StepStanding standing) => standing switch { StepStanding.Approved => Phrase.StandingApproved, StepStanding.Departs => Phrase.StandingDeparts, _ => Phrase.NotApproved };

    private static Phrase Word(MaterialUse use) => use switch { MaterialUse.Added => Phrase.MaterialAdded, MaterialUse.Removed => Phrase.MaterialRemoved, _ => Phrase.MaterialUsed };

    private static IEnumerable<Block> Work(Draft draft, IReadOnlyList<StepProgress> steps)
    {
        if (steps.Count == 0) yield break;
        yield return new Table(draft[Phrase.StepsTable],
            [new Column(draft[Phrase.ColumnStep], Share: 2), new Column(draft[Phrase.ColumnWhere], Share: 1.4), new Column(draft[Phrase.ColumnRestsOn], Share: 1.4), new Column(draft[Phrase.ColumnArea], ColumnKind.Number), new Column(draft[Phrase.ColumnDone], ColumnKind.Number), new Column(draft[Phrase.ColumnHours], ColumnKind.Number)],
            [.. steps.Select(s => Row(draft, s))]);
        StepProgress[] drawn = [.. steps.Where(s => s.Days.Any(d => d.Share > 0))];
        if (drawn.Length > 0) yield return new Plates([.. drawn.Select(s => new Plate(Drawing.Of(ProgressDrawing.Svg(s)), draft.Phrases.Of(Phrase.ProgressDrawn, s.Step.Content.Name), draft.Phrases.Of(Phrase.ProgressAlt, s.Step.Content.Name, (100 * s.Days[^1].Share).ToString("0.#", draft.Phrases.Culture))))]);
        foreach (var (step, warning) in steps.SelectMany(s => s.Warnings.Select(w => (s.Step.Content.Name, w.Message)))) yield return new Note(NoteKind.Warning, $"{step}. {warning}");
        var entries = draft.Treatment.Value.EntriesOf(steps);
        if (entries.Count == 0) yield break;
        yield return new Table(draft[Phrase.Actions], [new Column(draft[Phrase.ColumnDay], Share: 0.9), new Column(draft[Phrase.ColumnStep]), new Column(draft[Phrase.ColumnWho], Share: 0.8), new Column(draft[Phrase.ColumnWhat], Share: 2.4), new Column(draft[Phrase.Zones]), new Column(draft[Phrase.ColumnHours], ColumnKind.Number)],
            [.. entries.Select(e => Row(draft, e))]);
        if (entries.Any(e => e.Content.Materials.Count > 0)) yield return Materials(draft, entries);
    }

    private static IReadOnlyList<Prose> Row(Draft draft, StepProgress progress)
    {
        var (step, now) = (progress.Step.Content, progress.Days is [.., var last] ? last : null);
        return
        [
            Prose.Of(step.Name, SpanLook.Strong) + Prose.Of($"\n{draft[Word(step.Kind)]}, {StudioTerms.NameOf(step.Operation)}", SpanLook.Small), Where(draft, step.Zones), draft[Word(draft.Treatment.Value.Mandate.Of(step))],
            progress.Target is { } target ? Prose.Measured(target.AreaMm2, target.AreaUncertaintyMm2, draft.Phrases) : Prose.Empty, now is null ? Prose.Empty : Prose.Measured(now.Percent, 100 * now.ShareUncertainty, draft.Phrases), now is null ? Prose.Empty : Number(draft, now.Hours),
        ];
    }

    private static IReadOnlyList<Prose> Row(Draft draft, LogEntry entry)
    {
        var e = entry.Content;
        string[] more = [e.IsTimedTest ? draft[Phrase.TimedTest] : "", e.NewlySeen.Length > 0 ? $"{draft[Phrase.NewFindings]}: {e.NewlySeen}" : "", e.Departure.Length > 0 ? $"{draft[Phrase.Variations]}: {e.Departure}" : ""];
        return [draft.Phrases.Date(e.On!.Value), draft.Treatment.Value.StepOf(entry), e.Who, string.Join('\n', more.Where(t => t.Length > 0).Prepend(e.What)), e.Zones.Count == 0 ? "" : Where(draft, e.Zones), e.Hours is { } hours ? Number(draft, hours) : ""];
    }

    /// <summary>Every material by use and batch; amounts in one unit are summed.</summary>
    private static Table Materials(Draft draft, IReadOnlyList<LogEntry> entries) => new(draft[Phrase.AddedMaterials],
        [new Column(draft[Phrase.ColumnMaterial], Share: 2), new Column(draft[Phrase.ColumnUse]), new Column(draft[Phrase.ColumnAmount], Share: 1.2), new Column(draft[Phrase.ColumnBatch])],
        [.. entries.SelectMany(e => e.Content.Materials).GroupBy(m => (m.Use, m.Name, m.Batch)).OrderByDescending(g => g.Key.Use).ThenBy(g => g.Key.Name, StringComparer.Ordinal).Select(g => (IReadOnlyList<Prose>)[g.Key.Name, draft[Word(g.Key.Use)],
            string.Join(", ", g.Where(m => m.Amount is not null).GroupBy(m => m.Unit).Select(u => $"{Number(draft, u.Sum(m => m.Amount!.Value))} {u.Key}")), g.Key.Batch])]);

    private static IReadOnlyList<Prose> Seen(Draft draft) => [.. draft.Treatment.Value.Entries.Where(e => e.Content.NewlySeen.Length > 0).Select(e => (Prose)draft.Phrases.Of(Phrase.EntrySays, draft.Phrases.Date(e.Content.On!.Value), draft.Treatment.Value.StepOf(e), e.Content.NewlySeen))];

    private static Section Listed(Draft draft, Phrase title, Phrase none, IReadOnlyList<Prose> items) => new(draft[title], items.Count > 0 ? new BulletList(items) : new Paragraph(draft[none]));

    private static IEnumerable<Block> Drawn(Draft draft, IReadOnlyList<StepProgress> steps) => draft.Painting is not { WidthMm: > 0, HeightMm: > 0 } ? []
        : [.. steps.Where(s => s.Target is not null).Select(s => new Plates([new Plate(Drawing.Of(PlacesDrawing.Svg(draft.Studio, s.Step.Id, null, null, Size)), draft.Phrases.Of(Phrase.PlacesDrawn, s.Step.Content.Name), draft.Phrases.Of(Phrase.PlacesDrawn, s.Step.Content.Name))]))];

    /// <summary>The place of the work in each light, from before to after; a row of pictures for each.</summary>
    private static List<Plates> Views(Draft draft)
    {
        var views = TreatmentViews.Of(draft.Studio, draft.Painting.Id, draft.Treatment.Value.Entries);
        return [.. views.Rows.Select(r => new Plates([.. r.Views.Select(v => draft.Plates.Of(v.Layer, v.Photograph, views.Place, v.Day is { } day ? draft.Phrases.Date(day) : draft[Phrase.Before]))], Math.Min(r.Views.Count, 2)))];
    }

    private static List<Plate> Photographs(Draft draft) =>
    [
        .. from entry in draft.Treatment.Value.Entries
           from photograph in draft.Content.Photographs.Where(p => entry.Content.Photographs.Contains(p.Id))
           group (entry, photograph) by (entry.Content.On, photograph.Id) into day
           let plate = draft.Plates.Of(day.First().photograph)
           where plate is not null
           select plate with { Caption = Prose.Of($"{draft.Phrases.Date(day.Key.On!.Value)}. ") + plate.Caption },
    ];

    private static string Number(Draft draft, double value) => value.ToString("0.##", draft.Phrases.Culture);
}
