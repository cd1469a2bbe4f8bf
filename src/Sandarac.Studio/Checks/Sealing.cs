using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Seals states, takes signatures under them, and tells later whether what was signed is still what stands there.</summary>
public sealed class Sealing(OpenStudio studio)
{
    /// <summary>The seal with its signatures; null while the state is not sealed.</summary>
    public StateSeal? Find(Guid stateId)
    {
        using var db = studio.CreateDb();
        return Read(db, stateId);
    }

    /// <summary>What is still open in a state: findings without an answer, changes that nobody judged, comparisons that did not end.</summary>
    /// <exception cref="InputProblem">"unknown-state".</exception>
    public IReadOnlyList<string> Open(Guid stateId)
    {
        var (state, checks) = (new ConditionStates(studio).Find(stateId), new ConditionChecks(studio));
        var findings = new Findings(studio).Of(state.PaintingId).ToDictionary(f => f.Id, f => f.Content.Number);
        return
        [
            .. state.Content.Entries.Where(e => e.Standing == Standing.Open).Select(e => findings.TryGetValue(e.FindingId, out var n) ? FormattableString.Invariant($"finding {n} is not answered") : "a finding that was taken out is not answered"),
            .. checks.Pairs(stateId).Where(p => p.Run is null or { State: not (RunState.Done or RunState.NoAnswer) }).Select(p => $"{p.Later.FileName} is not compared with {p.Baseline.FileName}"),
            .. checks.Unjudged(stateId).Select(z => $"{z.Zone.Name} is not judged"),
        ];
    }

    /// <summary>Seals a state: its whole content with findings and zones as they stand, as text, and the hash of that text. Nothing of it is changed afterwards.</summary>
    /// <param name="stateId">The state.</param>
    /// <param name="revision">The revision that was read.</param>
    /// <param name="openReason">Why it is sealed with something open; empty when nothing is.</param>
    /// <param name="userName">Who seals.</param>
    /// <exception cref="InputProblem">"unknown-state"; "state-changed"; taken out ("state-deleted"); sealed already ("state-sealed"); something is open and no reason given ("state-open").</exception>
    public StateSeal Seal(Guid stateId, int revision, string openReason, string userName)
    {
        var open = Open(stateId);
        if (open.Count > 0 && string.IsNullOrWhiteSpace(openReason))
            throw new InputProblem("state-open", "reason", $"{open.Count} {(open.Count == 1 ? "thing is" : "things are")} still open: {string.Join("; ", open.Take(5))}{(open.Count > 5 ? "; ..." : "")}.", "Answer them, or say why it is sealed all the same.");
        using var db = studio.CreateDb();
        var state = db.ConditionStates.Find(stateId)!;
        using var held = db.HoldPainting(state.PaintingId);
        db.Entry(state).Reload();
        if (state.Revision != revision) throw new InputProblem("state-changed", state.Content.Name, "This state was changed meanwhile.", "Look at it as it is now, then seal it.");
        if (state.DeletedAt is not null) throw new InputProblem("state-deleted", state.Content.Name, "This state was taken out.", "Restore it first.");
        if (db.StateSeals.Any(s => s.StateId == stateId)) throw new InputProblem("state-sealed", state.Content.Name, $"\"{state.Content.Name}\" is sealed already.", "Record a new state.");
        var now = studio.Now;
        var reason = open.Count == 0 ? "" : FrozenText.Line("reason", openReason, 2000);
        var frozen = FrozenText.Of(SealedState.Read(db, state, open, reason, userName, now));
        var seal = new StateSeal { StateId = stateId, Text = frozen.Text, Sha256 = frozen.Sha256, OpenReason = reason, By = userName, At = now };
        db.StateSeals.Add(seal);
        db.SaveChanges();
        held.Commit();
        return seal;
    }

    /// <summary>Signs a sealed state. A signature names the hash of the text, so that it holds for that text only.</summary>
    /// <param name="stateId">The sealed state.</param>
    /// <param name="sha256">The hash that the person read.</param>
    /// <param name="name">Who signs.</param>
    /// <param name="role">As what.</param>
    /// <param name="organisation">For whom.</param>
    /// <exception cref="InputProblem">Not sealed ("state-not-sealed"); the hash is another one ("other-hash"); what was sealed was tampered with ("seal-broken"); a name, role or organisation is missing ("signature"); the same person signed already ("signed-already").</exception>
    public Signature Sign(Guid stateId, string sha256, string name, string role, string organisation)
    {
        using var db = studio.CreateDb();
        var painting = (db.ConditionStates.AsNoTracking().FirstOrDefault(s => s.Id == stateId) ?? throw new InputProblem("unknown-state", stateId.ToString(), "There is no such state.", "Reload the page.")).PaintingId;
        using var held = db.HoldPainting(painting);
        var seal = Read(db, stateId) ?? throw new InputProblem("state-not-sealed", stateId.ToString(), "The state is not sealed: there is nothing to sign yet.", "Seal it first.");
        if (Verify(stateId) is [var broken, ..]) throw new InputProblem("seal-broken", stateId.ToString(), broken, "Do not sign; record a new state.");
        if (!string.Equals(sha256, seal.Sha256, StringComparison.OrdinalIgnoreCase)) throw new InputProblem("other-hash", "sha256", "The hash is not that of the sealed text.", "Read the state and its hash again.");
        var signature = new Signature
        {
            StateId = stateId, Number = seal.Signatures.Count + 1, Name = FrozenText.Line("name", name), Role = FrozenText.Line("role", role), Organisation = FrozenText.Line("organisation", organisation), Sha256 = seal.Sha256, At = studio.Now,
        };
        if (seal.Signatures.Any(s => string.Equals(s.Name, signature.Name, StringComparison.OrdinalIgnoreCase) && string.Equals(s.Organisation, signature.Organisation, StringComparison.OrdinalIgnoreCase)))
            throw new InputProblem("signed-already", "name", $"{signature.Name} signed already.", "The other party signs now.");
        db.Signatures.Add(signature);
        db.SaveChanges();
        held.Commit();
        return signature;
    }

    /// <summary>What does not fit any more: the text and its hash, the signatures, the state itself and the text. Empty when all fits.</summary>
    /// <exception cref="InputProblem">Not sealed ("state-not-sealed").</exception>
    public IReadOnlyList<string> Verify(Guid stateId)
    {
        using var db = studio.CreateDb();
        var seal = Read(db, stateId) ?? throw new InputProblem("state-not-sealed", stateId.ToString(), "The state is not sealed.", "Seal it first.");
        var problems = new List<string>();
        if (!Frozen(seal).IsIntact) problems.Add("The sealed text is not the one whose hash was taken: it was changed afterwards.");
        foreach (var signature in seal.Signatures.Where(s => s.Sha256 != seal.Sha256)) problems.Add($"{signature.Name} signed another text than the one that is sealed.");
        if (!seal.Signatures.Select(s => s.Number).SequenceEqual(Enumerable.Range(1, seal.Signatures.Count))) problems.Add("A signature is missing from the list.");
        if (TextOf(seal) is not { } text)
        {
            problems.Add("The sealed text cannot be read.");
            return problems;
        }
        var state = db.ConditionStates.AsNoTracking().First(s => s.Id == stateId);
        if (text.StateId != stateId || text.Revision != state.Revision || CanonicalJson.Of(text.State) != CanonicalJson.Of(state.Content)) problems.Add("The state in the record is not the one that was sealed: the sealed text counts.");
        if (text.By != seal.By || text.OpenReason != seal.OpenReason || text.At != seal.At) problems.Add("Who sealed it, when or why is not what the sealed text says.");
        return problems;
    }

    /// <summary>A sealed text as it is read; null when it is none.</summary>
    internal static SealedState? TextOf(StateSeal seal) => Frozen(seal).Read<SealedState>(t => t.Format == SealedState.FormatName);

    private static FrozenText Frozen(StateSeal seal) => new(seal.Text, seal.Sha256);

    private static StateSeal? Read(StudioDb db, Guid stateId) => db.StateSeals.AsNoTracking().Include(s => s.Signatures.OrderBy(g => g.Number)).FirstOrDefault(s => s.StateId == stateId);
}
