using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Cleaning;

/// <summary>Cleaning tests: spots that are planned, and what was done on them.</summary>
public sealed class CleaningTests(OpenStudio studio) : WrittenRecords<CleaningTest, CleaningTestContent>(studio, "cleaning-test")
{
    /// <summary>How far the parts of a mixture may be from 100 % together, percent: they are measured by hand.</summary>
    public const double SumTolerance = 0.5;

    private const double LongestSeconds = 24 * 3600;

    private const int MostParts = 12;

    private protected override CleaningTest Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override void Alongside(StudioDb db, CleaningTest row) => SearchIndex.Put(db, row);

    private protected override CleaningTestContent Checked(StudioDb db, CleaningTest row, CleaningTestContent content)
    {
        CheckChoices(content);
        CheckAgent(content);
        CheckSpot(db, row, content);
        CheckSeconds("plannedSeconds", content.PlannedSeconds);
        CheckSeconds("seconds", content.Seconds);
        CheckResult(db, content);
        foreach (var id in content.Photographs) db.RequirePhotograph(row.PaintingId, id);
        return content with
        {
            Number = row.Revision == 0 ? 1 + (db.CleaningTests.Where(t => t.PaintingId == row.PaintingId).Max(t => (int?)t.Content.Number) ?? 0) : row.Content.Number,
            Agent = [.. content.Agent.Select(p => p with { Name = p.Name.Trim() })], Carrier = content.Carrier.Trim(), DoneBy = content.DoneBy.Trim(), Photographs = [.. content.Photographs.Distinct()],
        };
    }

    private static void CheckChoices(CleaningTestContent content)
    {
        if (!Enum.IsDefined(content.Passage)) throw Wrong("test-passage", "passage", "There is no such kind of passage.", "Choose light, dark or a particular colour.");
        if (!Enum.IsDefined(content.Aim) || content.Aim == CleaningDepth.Original) throw Wrong("test-aim", "aim", "A test takes off dirt, varnish or overpaint; the painter's own paint is never its aim.", "Choose one of these.");
        if (!Enum.IsDefined(content.AgentKind)) throw Wrong("test-agent", "agentKind", "There is no such kind of agent.", "Choose one of the list.");
        if (!Enum.IsDefined(content.Verdict) || new[] { content.OnDirt, content.OnVarnish, content.OnOverpaint, content.OnOriginal }.Any(e => !Enum.IsDefined(e)))
            throw Wrong("test-result", "result", "There is no such effect or verdict.", "Choose one of the list.");
    }

    private static void CheckAgent(CleaningTestContent content)
    {
        if (content.Agent.Count is 0 or > MostParts) throw Wrong("test-agent", "agent", content.Agent.Count == 0 ? "The test does not say what is tried." : $"The agent has more than {MostParts} parts.", "Name the agent, or what it is mixed of with percent by volume.");
        foreach (var part in content.Agent)
        {
            Name("agent", Readable("agent", part.Name));
            if (!(part.Percent is > 0 and <= 100)) throw Wrong("test-agent", part.Name, $"{part.Name}: {part.Percent} is no share of a mixture.", "Give percent by volume, above 0 and up to 100.");
        }
        if (content.Agent.GroupBy(p => p.Name.Trim(), StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1) is { } twice) throw Wrong("test-agent", twice.Key, $"{twice.Key} is named twice.", "Name each part once.");
        var sum = content.Agent.Sum(p => p.Percent);
        if (content.AgentKind == AgentKind.Solvent && Math.Abs(sum - 100) > SumTolerance) throw Wrong("test-agent", "agent", FormattableString.Invariant($"The parts sum to {sum:0.##} %."), $"Parts by volume sum to 100 %, within {SumTolerance}.");
    }

    private static void CheckSpot(StudioDb db, CleaningTest row, CleaningTestContent content)
    {
        if (content.ZoneId is { } zone) Relations.RequireZone(db, row.PaintingId, zone);
        OnTheFace.Require(db.RequirePainting(row.PaintingId), content.X, content.Y, "test-place");
        if (content.AreaMm2 is { } area && !(area is > 0 and < 1e6)) throw Wrong("test-area", "areaMm2", "The spot's area is not a number above 0.", "Give it in mm2; a swab's spot has some 10 to 100.");
    }

    private static void CheckSeconds(string field, double? seconds)
    {
        if (seconds is { } s && !(s is > 0 and <= LongestSeconds)) throw Wrong("test-time", field, "The time is not a number of seconds above 0 and up to a day.", "Give seconds.");
    }

    /// <summary>A result needs a day and a name; a test that is only planned has none.</summary>
    private void CheckResult(StudioDb db, CleaningTestContent content)
    {
        var effects = new[] { content.OnDirt, content.OnVarnish, content.OnOverpaint, content.OnOriginal };
        var hasResult = effects.Any(e => e != TestEffect.NotStated) || content.Verdict != TestVerdict.Open || content.Seconds is not null || content.SwabTookPaint is not null;
        if (content.DoneOn is not { } day)
        {
            if (hasResult) throw Wrong("test-not-done", "doneOn", "The test has a result but no day.", "Give the day on which it was done, or leave the result out.");
            return;
        }
        if (day > DateOnly.FromDateTime(Studio.Now).AddDays(1)) throw Wrong("test-date", "doneOn", "The day lies in the future.", "Give the day on which it was done.");
        if (string.IsNullOrWhiteSpace(content.DoneBy)) throw Wrong("test-by", "doneBy", "The test does not say who did it.", "Give the name.");
        if (effects.All(e => e == TestEffect.NotStated)) throw Wrong("test-result", "result", "The test does not say what it did to any layer.", "State at least one effect; \"nothing seen\" is one.");
        if (content.OnOriginal == TestEffect.NotStated && content.Verdict == TestVerdict.AsIntended) throw Wrong("test-original", "onOriginal", "A test cannot be as intended while nobody said what it did to the painter's paint.", "Look, under magnification and in ultraviolet, and state it.");
    }
}
