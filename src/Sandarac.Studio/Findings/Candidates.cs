using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>A zone that a reading proposes or proposed, with the last decision about it.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Decision">What was decided last; null when nothing was.</param>
public sealed record JudgedCandidate(ZoneFacts Zone, CandidateDecision? Decision);

/// <summary>Judges what readings propose: a candidate becomes a finding, or is rejected with a reason that is kept. Every decision can be taken back.</summary>
public sealed class Candidates(OpenStudio studio)
{
    private const int LongestReason = 2000;

    /// <summary>Candidates that nobody judged yet: by reading and kind, the surest first.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public IReadOnlyList<ZoneFacts> Open(Guid paintingId) =>
        [.. new Zones(studio).Of(paintingId).Where(z => z.IsCandidate).OrderBy(z => z.Kind, StringComparer.Ordinal).ThenByDescending(z => z.Confidence).ThenBy(z => z.Id)];

    /// <summary>Candidates that were judged, the last decision first.</summary>
    /// <exception cref="InputProblem">"unknown-painting".</exception>
    public IReadOnlyList<JudgedCandidate> Judged(Guid paintingId)
    {
        using var db = studio.CreateDb();
        db.RequirePainting(paintingId);
        var last = db.CandidateDecisions.AsNoTracking().Where(d => d.PaintingId == paintingId).AsEnumerable().GroupBy(d => d.ZoneId).Select(g => g.MaxBy(d => d.Number)!).Where(d => d.Verdict != CandidateVerdict.Reopened).ToDictionary(d => d.ZoneId);
        return [.. db.Zones.AsNoTracking().Where(z => z.PaintingId == paintingId && z.RunId != null).AsEnumerable().Where(z => last.ContainsKey(z.Id)).Select(z => new JudgedCandidate(ZoneFacts.Of(z), last[z.Id])).OrderByDescending(j => j.Decision!.At)];
    }

    /// <summary>Makes a candidate a zone and a finding that rests on the reading; what the reading says becomes the observation, unless a person writes one.</summary>
    /// <param name="zoneId">The candidate.</param>
    /// <param name="revision">The revision that was looked at.</param>
    /// <param name="written">What a person writes of it; null for what the reading says.</param>
    /// <param name="userName">Who decides.</param>
    /// <exception cref="InputProblem">"unknown-zone"; "zone-changed"; it is no candidate ("not-a-candidate"); what is wrong with what was written.</exception>
    public Finding Keep(Guid zoneId, int revision, FindingContent? written, string userName)
    {
        using var db = studio.CreateDb();
        var zone = Require(db, zoneId, revision);
        using var held = db.HoldPainting(zone.PaintingId);
        var content = written ?? Proposed(db, zone, userName);
        zone.IsCandidate = false;
        var reading = new Evidence(EvidenceKind.Reading, zone.RunId, $"proposed it{(zone.Confidence is { } sure ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $", {100 * sure:0} % sure") : "")}: {zone.Reason}");
        var finding = new Findings(studio).Add(db, zone.PaintingId, content with { Zones = [zone.Id, .. content.Zones], Evidence = [reading, .. content.Evidence] }, userName);
        Decide(db, zone, CandidateVerdict.Kept, "", finding.Id, userName);
        new Zones(studio).Store(db, zone, "changed", held.Commit);
        return finding;
    }

    /// <summary>Rejects a candidate. It is gone from the Easel; it and the reason stay in the record.</summary>
    /// <exception cref="InputProblem">As for <see cref="Keep"/>; no reason ("candidate-reason").</exception>
    public void Reject(Guid zoneId, int revision, string reason, string userName)
    {
        if (string.IsNullOrWhiteSpace(reason) || reason.Length > LongestReason || reason.Any(char.IsControl))
            throw new InputProblem("candidate-reason", "reason", $"A rejection needs a reason of at most {LongestReason} letters.", "Say in a few words why it is none: \"the frame's shadow\".");
        using var db = studio.CreateDb();
        var zone = Require(db, zoneId, revision);
        using var held = db.HoldPainting(zone.PaintingId);
        zone.DeletedAt = studio.Now;
        Decide(db, zone, CandidateVerdict.Rejected, reason.Trim(), null, userName);
        new Zones(studio).Store(db, zone, "deleted", held.Commit);
    }

    /// <summary>Takes the last decision back: the zone is a candidate again, and the finding that it became is taken out.</summary>
    /// <exception cref="InputProblem">"unknown-zone"; nothing was decided ("not-decided"); someone changed the finding meanwhile: it is not taken out behind their back ("finding-changed").</exception>
    public ZoneFacts Reopen(Guid zoneId, string userName)
    {
        using var db = studio.CreateDb();
        var zone = Zones.Require(db, zoneId);
        var last = db.CandidateDecisions.AsNoTracking().Where(d => d.ZoneId == zoneId).OrderBy(d => d.Number).LastOrDefault();
        if (last is null or { Verdict: CandidateVerdict.Reopened }) throw new InputProblem("not-decided", zone.Name, $"Nothing was decided about \"{zone.Name}\".", "Reload the page.");
        using var held = db.HoldPainting(zone.PaintingId);
        if (last.FindingId is { } id) TakeOut(db, id, userName);
        (zone.DeletedAt, zone.IsCandidate) = (null, true);
        Decide(db, zone, CandidateVerdict.Reopened, "", null, userName);
        return new Zones(studio).Store(db, zone, "restored", held.Commit);
    }

    private void TakeOut(StudioDb db, Guid findingId, string userName)
    {
        var finding = db.Findings.Find(findingId)!;
        if (finding.DeletedAt is not null) return;
        if (finding.Revision > 1) throw new InputProblem("finding-changed", findingId.ToString(), $"Finding {finding.Content.Number} was written on since it was kept.", "Take the finding out on its page, if it is to go.");
        finding.DeletedAt = studio.Now;
        Findings.Note(db, finding, "deleted", studio.Now, userName);
        SearchIndex.Put(db, finding);
    }

    private static Zone Require(StudioDb db, Guid zoneId, int revision)
    {
        var zone = Zones.RequireAt(db, zoneId, revision);
        return zone is { IsCandidate: true, DeletedAt: null } ? zone : throw new InputProblem("not-a-candidate", zone.Name, $"\"{zone.Name}\" is no candidate any more.", "Reload the page.");
    }

    private void Decide(StudioDb db, Zone zone, CandidateVerdict verdict, string reason, Guid? finding, string userName) => db.CandidateDecisions.Add(new CandidateDecision
    {
        ZoneId = zone.Id, Number = 1 + db.CandidateDecisions.Count(d => d.ZoneId == zone.Id), PaintingId = zone.PaintingId, Verdict = verdict, Reason = reason, FindingId = finding, By = userName, At = studio.Now,
    });

    /// <summary>What the reading says, and nothing more: what is made of it is for a person to write.</summary>
    private FindingContent Proposed(StudioDb db, Zone zone, string userName)
    {
        var run = db.RequireRun(zone.RunId ?? throw new InputProblem("candidate-run", zone.Name, $"\"{zone.Name}\" was not proposed by a reading.", "Write the finding on its page."));
        var title = ReadingCatalogue.Find(run.ReadingId).Declaration.Title;
        return new FindingContent { Observation = $"{zone.Name}. {title}: {zone.Reason}", Author = userName, SeenOn = DateOnly.FromDateTime(studio.Now) };
    }
}
