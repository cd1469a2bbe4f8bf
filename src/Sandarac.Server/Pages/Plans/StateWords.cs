using System.Globalization;
using Sandarac.Studio;
using Sandarac.Studio.Plans;
using Sandarac.Studio.Record;
using static Sandarac.Server.Pages.Language.PageText;
using static Sandarac.Server.Pages.Language.RecordText;

namespace Sandarac.Server.Pages.Plans;

/// <summary>What was written of a state, entry by entry, as its history shows it.</summary>
internal sealed class StateWords(OpenStudio studio, Guid paintingId)
{
    private readonly Lazy<(Dictionary<Guid, string> Findings, Dictionary<Guid, string> States, Dictionary<Guid, string> Photographs)> _names = new(() => Names(studio, paintingId));

    /// <summary>A state's entries.</summary>
    public IReadOnlyList<(string Label, string Value)> Of(ConditionStateContent c) =>
    [
        (Say("name"), c.Name), (Say("occasion"), Told(PlanWords.Of(c.Occasion))), (Say("day"), c.On?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? ""), (Say("place|state"), c.Place),
        (Say("compared with"), c.BaselineId is { } baseline ? Named(_names.Value.States, baseline) : ""),
        (Say("findings"), string.Join(", ", c.Entries.Select(e => $"{Named(_names.Value.Findings, e.FindingId)} {Standing(e.Standing)}{(e.Note.Length > 0 ? $" ({e.Note})" : "")}"))),
        (Say("photographs"), string.Join(", ", c.Photographs.Select(p => Named(_names.Value.Photographs, p)))), (Say("note"), c.Note),
    ];

    /// <summary>"as before".</summary>
    public static string Standing(Standing standing) => standing switch
    {
        Sandarac.Studio.Record.Standing.Open => Say("not answered"),
        Sandarac.Studio.Record.Standing.AsBefore => Say("as before"),
        Sandarac.Studio.Record.Standing.Changed => Say("changed"),
        Sandarac.Studio.Record.Standing.New => Say("new"),
        _ => Say("gone"),
    };

    private static string Named(Dictionary<Guid, string> names, Guid id) => names.GetValueOrDefault(id, Say("one that is not there any more"));

    private static (Dictionary<Guid, string>, Dictionary<Guid, string>, Dictionary<Guid, string>) Names(OpenStudio studio, Guid painting)
    {
        var (findings, states) = (new Sandarac.Studio.Findings(studio), new ConditionStates(studio));
        using var db = studio.CreateDb();
        return (findings.Of(painting).Concat(findings.Removed(painting)).ToDictionary(f => f.Id, f => $"{f.Content.Number}"), states.Of(painting).Concat(states.Removed(painting)).ToDictionary(s => s.Id, s => s.Content.Name),
            db.Photographs.Where(p => p.PaintingId == painting).Select(p => new { p.Id, p.FileName }).ToDictionary(p => p.Id, p => p.FileName));
    }
}
