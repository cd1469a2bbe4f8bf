using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>Proposals of treatment: ways between which the custodian chooses. An approved one is not changed any more; a later one supersedes it.</summary>
public sealed class Proposals(OpenStudio studio) : WrittenRecords<Proposal, ProposalContent>(studio, "proposal")
{
    /// <summary>More than anyone compares or carries out; who sends more has sent something else.</summary>
    private const int MostOptions = 20, MostSteps = 100;

    /// <summary>Begins a proposal that departs from an approved one, with its content to start from: steps keep their keys, so that what differs can be told step by step.</summary>
    /// <exception cref="InputProblem">"unknown-proposal"; it is not approved ("proposal-not-approved").</exception>
    public Proposal Supersede(Guid approvedId, string userName)
    {
        var approved = Find(approvedId);
        return Create(approved.PaintingId, approved.Content with { SupersedesId = approvedId, AdvisedId = null, Advice = "" }, userName);
    }

    /// <summary>Changes what stands in a proposal, step by step as pages do.</summary>
    /// <exception cref="InputProblem">As for <see cref="WrittenRecords{TRow, TContent}.Change"/>.</exception>
    public Proposal Change(Guid id, int revision, Func<ProposalContent, ProposalContent> change, string userName) => Change(id, revision, change(Find(id).Content), userName);

    private protected override Proposal Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override void Alongside(StudioDb db, Proposal row)
    {
        if (db.ProposalApprovals.Any(a => a.ProposalId == row.Id)) throw Wrong("proposal-approved", row.Content.Title, $"\"{row.Content.Title}\" is approved; what was approved is not changed.", "Begin one that supersedes it.");
    }

    private protected override ProposalContent Checked(StudioDb db, Proposal row, ProposalContent content)
    {
        if (content.Options.Count > MostOptions || content.Options.Any(o => o?.Steps?.Count > MostSteps)) throw Wrong("proposal-long", "options", $"A proposal has at most {MostOptions} options of at most {MostSteps} steps.", "Divide it into several proposals.");
        ProposalOption[] options = [.. content.Options.Select((o, i) => Checked(db, row, o, $"options[{i}]"))];
        RequireOnce([.. options.Select(o => o.Id), .. options.SelectMany(o => o.Steps).Select(s => s.Id).Distinct()], [.. options.Select(o => o.Steps.Select(s => s.Id))]);
        if (content.AdvisedId is { } advised && options.All(o => o.Id != advised)) throw Wrong("unknown-option", advised.ToString(), "The advised option is none of this proposal.", "Choose one of its options.");
        if (content.SupersedesId is { } earlier && (earlier == row.Id || !db.Proposals.Any(p => p.Id == earlier && p.PaintingId == row.PaintingId) || !db.ProposalApprovals.Any(a => a.ProposalId == earlier)))
            throw Wrong("proposal-not-approved", earlier.ToString(), "What it supersedes is no approved proposal of this painting.", "Change the earlier one itself: nobody has approved it yet.");
        return content with { Title = Name("title", content.Title), Reason = content.Reason.Trim(), Options = options, Advice = content.Advice.Trim() };
    }

    private static ProposalOption Checked(StudioDb db, Proposal row, ProposalOption? option, string subject)
    {
        if (option is not { Steps: not null }) throw Wrong("value-missing", subject, "An option or its steps are null.", "Leave it out, or give a value.");
        var currency = Readable($"{subject}.currency", option.Currency).Trim();
        if (option.Cost is not null != currency.Length > 0 || currency.Length > 0 && !(currency.Length == 3 && currency.All(char.IsAsciiLetterUpper)))
            throw Wrong("currency", $"{subject}.currency", $"\"{currency}\" is no currency of the cost.", "Give three capital letters of ISO 4217 with a cost, EUR for instance, and none without.");
        return option with
        {
            Name = Name($"{subject}.name", option.Name), Aims = Readable($"{subject}.aims", option.Aims).Trim(), Currency = currency, Hours = Checked(option.Hours, $"{subject}.hours"), Cost = Checked(option.Cost, $"{subject}.cost"),
            Steps = [.. option.Steps.Select((s, i) => Checked(db, row, s, $"{subject}.steps[{i}]"))],
        };
    }

    private static ProposedStep Checked(StudioDb db, Proposal row, ProposedStep? step, string subject)
    {
        if (step is not { Zones: not null }) throw Wrong("value-missing", subject, "A step or its zones are null.", "Leave it out, or give a value.");
        if (!Enum.IsDefined(step.Kind)) throw Wrong("step-kind", $"{subject}.kind", "There is no such kind of step.", "Choose one of the list.");
        foreach (var zone in step.Zones.Distinct()) Relations.RequireZone(db, row.PaintingId, zone);
        return step with
        {
            Name = Name($"{subject}.name", step.Name), Operation = Name($"{subject}.operation", step.Operation), Zones = [.. step.Zones.Distinct()],
            Materials = Readable($"{subject}.materials", step.Materials).Trim(), Risks = Readable($"{subject}.risks", step.Risks).Trim(), Irreversible = Readable($"{subject}.irreversible", step.Irreversible).Trim(),
        };
    }

    private static GroundedRange? Checked(GroundedRange? range, string subject)
    {
        if (range is null) return null;
        if (!(double.IsFinite(range.Low) && double.IsFinite(range.High) && range.Low >= 0 && range.High >= range.Low)) throw Wrong("range", subject, "The range is not from a least to a most, or one of them is negative or missing.", "Give the least first, then the most.");
        if (string.IsNullOrWhiteSpace(range.Basis)) throw Wrong("range-basis", subject, "The range does not say what it rests on.", "Say it: a timed test, the log of another painting, an offer.");
        return range with { Basis = Readable(subject, range.Basis).Trim() };
    }

    /// <summary>Every option has a key of its own, and so has every step within its option; one step may stand in several options.</summary>
    private static void RequireOnce(IReadOnlyList<Guid> keys, IReadOnlyList<IEnumerable<Guid>> stepsByOption)
    {
        if (keys.Contains(Guid.Empty) || keys.Distinct().Count() < keys.Count || stepsByOption.Any(s => s.Distinct().Count() < s.Count())) throw Wrong("key-twice", "options", "Two options, or two steps of one, have the same key or none.", "Give each a key of its own.");
    }
}
