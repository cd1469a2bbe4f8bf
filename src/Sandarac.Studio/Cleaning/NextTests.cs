using System.Globalization;
using Sandarac.Materials;
using Sandarac.Materials.Cleaning;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Cleaning;

/// <summary>A test that would tell more.</summary>
/// <param name="Agent">The mixture.</param>
/// <param name="Why">Why this one.</param>
public sealed record NextTest(Mixture Agent, string Why);

/// <summary>Where the solvents come from that a next test is chosen among.</summary>
public enum SolventOrigin
{
    /// <summary>The studio's shelf.</summary>
    Shelf,

    /// <summary>The painting's own tests.</summary>
    Tests,

    /// <summary>The whole table.</summary>
    Table,
}

/// <summary>What a next test may be chosen from.</summary>
/// <param name="Solvents">Solvents to choose from: those on the shelf.</param>
/// <param name="Excluded">Hazard codes, their beginnings or classes that are left out.</param>
/// <param name="Step">How much stronger than the strongest that was too weak it is at least, points of dispersion in the Teas triangle.</param>
public sealed record NextTestLimits(IReadOnlyList<Solvent> Solvents, IReadOnlyList<string> Excluded, double Step = NextTestLimits.UsualStep)
{
    /// <summary>The step of the usual series of ligroin with acetone, 10 % each: five points of dispersion.</summary>
    public const double UsualStep = 5;

    /// <summary>Classes of hazard that are left out unless a person asks: what may cause cancer, harm genes or harm reproduction, by category 1 and 2.</summary>
    private static readonly string[] Grave = ["H340", "H341", "H350", "H351", "H360", "H361"];

    /// <summary>The solvents on the studio's shelf; when none is there, those that the tests name; when they name none, all of the table.</summary>
    public static (NextTestLimits Limits, SolventOrigin Origin) Of(OpenStudio studio, IReadOnlyList<CleaningTest> tests, double step)
    {
        using var db = studio.CreateDb();
        var shelf = Known(db.ShelfItems.Where(i => i.RemovedAt == null).Select(i => i.Name));
        var named = Known(tests.SelectMany(t => t.Content.Agent).Select(p => p.Name));
        var (solvents, origin) = shelf.Count > 0 ? (shelf, SolventOrigin.Shelf) : named.Count > 0 ? (named, SolventOrigin.Tests) : (SolventTable.All, SolventOrigin.Table);
        return (new NextTestLimits(solvents, Grave, step), origin);
    }

    private static IReadOnlyList<Solvent> Known(IEnumerable<string> names) => [.. names.AsEnumerable().Select(SolventTable.Find).OfType<Solvent>().Distinct()];
}

/// <summary>
/// Proposes the mildest useful next test among mixtures of at most two solvents in steps of 10 %. Mild is what has much dispersion in the Teas triangle: the order in which the usual series are tried (common practice, no source).
/// It is a proposal for one small spot: it says nothing of how the paint will bear it.
/// </summary>
public static class NextTests
{
    private const int Tenths = 10;

    /// <summary>The mildest three, or why there is none.</summary>
    /// <param name="tests">The painting's tests.</param>
    /// <param name="aim">What is to come off.</param>
    /// <param name="limits">What to choose from.</param>
    public static Answer<IReadOnlyList<NextTest>> Of(IReadOnlyList<CleaningTest> tests, CleaningDepth aim, NextTestLimits limits) => Of(tests, LayerEvidence.Of(tests, aim), LayerEvidence.Of(tests, CleaningDepth.Original), limits);

    /// <summary>The same from what the tests say of the layer that is to come off, and of the painter's paint.</summary>
    public static Answer<IReadOnlyList<NextTest>> Of(IReadOnlyList<CleaningTest> tests, LayerEvidence own, LayerEvidence original, NextTestLimits limits)
    {
        var aim = own.Layer;
        var done = tests.Where(t => t.Content.DoneOn is not null).Select(TestedAgent.Of).Where(t => t.Teas is not null).ToList();
        if (done.FirstOrDefault(t => t.Test.Content.Aim == aim && DidItsWork(t.Test.Content)) is { } there)
            return None($"Test {there.Test.Content.Number}, {there.Mixture!.Text}, did what it was to do, and nothing beyond was seen: a stronger one is not called for. Repeat it on other passages, light and dark.");
        if (done.FirstOrDefault(t => t.Test.Content.Aim == aim && IsOpen(t.Test.Content)) is { } open)
            return None($"Test {open.Test.Content.Number}, {open.Mixture!.Text}, acted, and nothing beyond was seen, but nobody judged it: judge it first.");
        var allowed = limits.Solvents.Where(s => s.Teas is not null && !limits.Excluded.Any(s.Bears)).ToList();
        if (allowed.Count == 0) return None("No solvent is left to choose from: put some on the shelf, or exclude fewer.");
        var (weakest, beyond) = (done.Where(t => t.Test.Content.Aim == aim && WasTooWeak(t.Test.Content)).MinBy(t => t.Teas!.Dispersion), done.Where(t => TestFlags.WentFurther(t.Test.Content)).MaxBy(t => t.Teas!.Dispersion));
        // The regions are asked of the mildest ones first and only until three are found.
        NextTest[] found = [.. Mixtures(allowed).Where(m => IsBetween(m, weakest, beyond, limits.Step) && !done.Any(t => IsSame(t.Mixture!, m)))
            .OrderByDescending(m => Math.Round(m.Teas.Value!.Dispersion, 1)).ThenBy(m => m.Parts.Sum(p => p.Solvent.HazardCodes.Count)).ThenBy(m => m.Text, StringComparer.Ordinal)
            .Where(m => own.InHansen(m) != Belongs.Outside && original.InHansen(m) != Belongs.Inside).Take(3).Select(m => new NextTest(m, Why(m, weakest, beyond, own.InHansen(m))))];
        return found.Length > 0 ? new(found, null) : None(Stuck(weakest, beyond));
    }

    private static bool DidItsWork(CleaningTestContent test) => test.Verdict == TestVerdict.AsIntended && !TestFlags.WentFurther(test);

    private static bool IsOpen(CleaningTestContent test) => test.Verdict == TestVerdict.Open && TestFlags.EffectOn(test, test.Aim) is TestEffect.Reduced or TestEffect.Removed && !TestFlags.WentFurther(test);

    private static bool WasTooWeak(CleaningTestContent test) => test.Verdict == TestVerdict.TooWeak || TestFlags.EffectOn(test, test.Aim) == TestEffect.None;

    /// <summary>Stronger than what was too weak by at least a step, milder than anything that went further than planned.</summary>
    private static bool IsBetween(Mixture mixture, TestedAgent? weakest, TestedAgent? beyond, double step) => mixture.Teas.Value!.Dispersion is var dispersion
        && (weakest is null || dispersion <= weakest.Teas!.Dispersion - step) && (beyond is null || dispersion > beyond.Teas!.Dispersion);

    private static IEnumerable<Mixture> Mixtures(List<Solvent> solvents) =>
        solvents.Select(s => Mixture.Of([(s, 100)])).Concat(
            from i in Enumerable.Range(0, solvents.Count)
            from j in Enumerable.Range(i + 1, solvents.Count - i - 1)
            where !Miscibility.PartInto(solvents[i], solvents[j])
            from tenths in Enumerable.Range(1, Tenths - 1)
            select Mixture.Of([(solvents[i], 10 * tenths), (solvents[j], 100 - 10 * tenths)]));

    private static bool IsSame(Mixture a, Mixture b) => a.Parts.Count == b.Parts.Count && a.Parts.All(p => b.Parts.Any(q => q.Solvent == p.Solvent && Math.Abs(q.Fraction - p.Fraction) < 0.005));

    private static string Why(Mixture mixture, TestedAgent? weakest, TestedAgent? beyond, Belongs own) => string.Join("; ", new[]
    {
        string.Create(CultureInfo.InvariantCulture, $"dispersion {mixture.Teas.Value!.Dispersion:0.#}"),
        weakest is null ? "nothing was tried yet that was too weak" : string.Create(CultureInfo.InvariantCulture, $"a step stronger than test {weakest.Test.Content.Number} ({weakest.Teas!.Dispersion:0.#}), which was too weak"),
        beyond is null ? "" : string.Create(CultureInfo.InvariantCulture, $"milder than test {beyond.Test.Content.Number} ({beyond.Teas!.Dispersion:0.#}), which went further than planned"),
        own == Belongs.Inside ? "every round region that agrees with the tests holds it" : "the tests do not settle yet whether it acts",
    }.Where(t => t.Length > 0));

    private static string Stuck(TestedAgent? weakest, TestedAgent? beyond) => (weakest, beyond) switch
    {
        ({ } w, { } b) => $"Nothing lies between test {w.Test.Content.Number}, which was too weak, and test {b.Test.Content.Number}, which went further than planned: try a smaller step, another time or carrier, or another kind of agent.",
        (null, { } b) => $"Nothing to choose from is milder than test {b.Test.Content.Number}, which went further than planned: try another time or carrier, or another kind of agent.",
        _ => "Nothing to choose from is stronger by a step than what was too weak, and not ruled out by the tests: another solvent, or another kind of agent.",
    };

    private static Answer<IReadOnlyList<NextTest>> None(string why) => new(null, why);
}
