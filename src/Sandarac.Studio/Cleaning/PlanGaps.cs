using Sandarac.Studio.Record;

namespace Sandarac.Studio.Cleaning;

/// <summary>What a plan of cleaning tests lacks. Common practice, no single source: at least two spots, light and dark passages, the mildest agent first, each spot found again later.</summary>
public static class PlanGaps
{
    /// <summary>What the tests of a painting lack.</summary>
    public static IReadOnlyList<TestFlag> Of(IReadOnlyList<CleaningTest> tests) =>
    [
        .. tests.GroupBy(t => t.Content.Aim).OrderBy(g => g.Key).SelectMany(g => OfAim(g.Key, [.. g])),
        .. tests.Where(t => t.Content is { ZoneId: null, X: null }).Select(t => new TestFlag("no-place", $"Test {t.Content.Number} has no place: nobody will find its spot again.")),
        .. tests.Where(t => t.Content is { DoneOn: null, PlannedSeconds: null }).Select(t => new TestFlag("no-time", $"Test {t.Content.Number} has no planned time: nothing will tell whether it acted too long.")),
    ];

    private static IEnumerable<TestFlag> OfAim(CleaningDepth aim, IReadOnlyList<CleaningTest> tests)
    {
        var passages = tests.Select(t => t.Content.Passage).ToHashSet();
        if (tests.Count < 2) yield return new("one-spot", $"Only one spot is planned for {TestFlags.Word(aim)}: plan at least two.");
        if (!passages.Contains(Passage.Light)) yield return new("no-light", $"No light passage is planned for {TestFlags.Word(aim)}.");
        if (!passages.Contains(Passage.Dark)) yield return new("no-dark", $"No dark passage is planned for {TestFlags.Word(aim)}: dark paint is often the first to be touched.");
        foreach (var flag in OneSided(aim, tests).Concat(OutOfOrder(tests))) yield return flag;
    }

    /// <summary>An agent that did what it was to do on one kind of passage alone.</summary>
    private static IEnumerable<TestFlag> OneSided(CleaningDepth aim, IReadOnlyList<CleaningTest> tests) =>
        from agent in tests.GroupBy(t => AgentText.Of(t.Content.Agent), StringComparer.OrdinalIgnoreCase)
        where agent.Any(t => t.Content.Verdict == TestVerdict.AsIntended)
        from missing in new[] { Passage.Light, Passage.Dark }.Except(agent.Where(t => t.Content.DoneOn is not null).Select(t => t.Content.Passage))
        select new TestFlag("one-passage", $"{agent.Key} did what it was to do to {TestFlags.Word(aim)}, but was not tried on a {(missing == Passage.Dark ? "dark" : "light")} passage.");

    /// <summary>A solvent that was tried before a milder one that is planned for the same layer; mild as <see cref="NextTests"/> orders them.</summary>
    private static IEnumerable<TestFlag> OutOfOrder(IReadOnlyList<CleaningTest> tests)
    {
        var agents = tests.Select(TestedAgent.Of).Where(t => t.Teas is not null).ToLookup(t => t.Test.Content.DoneOn is not null);
        return from waiting in agents[false]
               let strongest = agents[true].MinBy(t => t.Teas!.Dispersion)
               where strongest is not null && strongest.Teas!.Dispersion < waiting.Teas!.Dispersion
               select new TestFlag("not-mildest-first", $"Test {strongest.Test.Content.Number} was made before the milder test {waiting.Test.Content.Number}.");
    }
}
