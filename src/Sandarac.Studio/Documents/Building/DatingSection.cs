using Sandarac.Materials.Dating;
using Sandarac.Studio.Datings;
using Sandarac.Studio.Datings.Drawing;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Building;

/// <summary>Materials that were found, their years held against the painting's, with the source of each date.</summary>
internal static class DatingSection
{
    public static Section? Of(Draft draft)
    {
        var materials = new DatingDesk(draft.Studio).Of(draft.Painting.Id);
        if (materials.Count == 0) return null;
        var checks = DatingDesk.Checks(materials);
        return new Section(draft[Phrase.SectionDating],
        [
            .. checks.Count == 0 ? Array.Empty<Block>() : [new Plates([new Plate(Drawing.Of(TimelineDrawing.Draw(checks)), draft[Phrase.TimelineDrawn], draft[Phrase.TimelineAlt])])],
            new Table(draft[Phrase.DatingTable], [new Column(draft[Phrase.Materials], Share: 1.2), new Column(draft[Phrase.ColumnPlace]), new Column(draft[Phrase.Confidence], Share: 1.5), new Column(draft[Phrase.ColumnVerdict], Share: 0.8), new Column(draft[Phrase.ColumnWhy], Share: 2.4), new Column(draft[Phrase.ColumnKnownFrom], Share: 1.4)],
                [.. materials.Select(m => Row(draft, m))]),
            new Paragraph(string.Join(' ', DatingCheck.Cautions), ParagraphLook.Small),
        ]);
    }

    private static IReadOnlyList<Prose> Row(Draft draft, MaterialDated m) =>
    [
        m.Found.Content.Material, m.Where, $"{Sure(draft, m.Found.Content.Confidence)}: {m.Found.Content.Basis}", m.Check is { } c ? Verdict(draft, c.Verdict) : draft[Phrase.VerdictNoYears],
        string.Join(' ', new[] { m.Check?.Reason, m.Placed, m.Check?.Question }.Where(t => !string.IsNullOrEmpty(t))), m.Check is { } check ? $"{check.Pigment.Source} ({(check.Pigment.IsRead ? $"READ: {check.Pigment.WhatWasRead}" : draft[Phrase.FromMemory])})" : "",
    ];

    private static string Sure(Draft draft, Certainty certainty) => draft[certainty switch { Certainty.Certain => Phrase.ConfidenceCertain, Certainty.Probable => Phrase.ConfidenceProbable, _ => Phrase.ConfidencePossible }];

    private static string Verdict(Draft draft, DatingVerdict verdict) => draft[verdict switch
    {
        DatingVerdict.Consistent => Phrase.VerdictConsistent,
        DatingVerdict.LaterThan => Phrase.VerdictLaterThan,
        DatingVerdict.EndsBefore => Phrase.VerdictEndsBefore,
        DatingVerdict.Contested => Phrase.VerdictContested,
        _ => Phrase.VerdictCannotBeTold,
    }];
}
