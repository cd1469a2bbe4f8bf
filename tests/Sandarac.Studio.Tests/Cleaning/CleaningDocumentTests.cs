using System.Text;
using Sandarac.Studio.Cleaning;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Plans;

namespace Sandarac.Studio.Tests.Cleaning;

public sealed class CleaningDocumentTests
{
    private static string Written(PlanRecords records, DocumentKind kind, string language)
    {
        using var stream = new MemoryStream();
        Dossier.Write(new Dossier(records.Studio).Of(records.Painting.Id, kind, language), Rendering.Html, stream, TestContext.Current.CancellationToken);
        return System.Net.WebUtility.HtmlDecode(Encoding.UTF8.GetString(stream.ToArray()));
    }

    [Fact]
    public void Proposal_and_treatment_report_tell_what_was_tested_and_what_went_further()
    {
        using var records = new PlanRecords();
        Assert.DoesNotContain("Cleaning tests", Written(records, DocumentKind.Proposal, "en"), StringComparison.Ordinal);
        var tests = new CleaningTests(records.Studio);
        var test = new CleaningTestContent
        {
            X = 100, Y = 60, Passage = Passage.Dark, Aim = CleaningDepth.Varnish, AgentKind = AgentKind.Solvent, Agent = [new("ethanol", 20), new("isooctane", 80)], Carrier = "swab, rolled", PlannedSeconds = 20,
            DoneOn = new DateOnly(2026, 5, 4), DoneBy = "Marta Oud", Seconds = 12.5, OnVarnish = TestEffect.Removed, OnOriginal = TestEffect.Softened, SwabColour = "brown", UltravioletAfter = "duller", Verdict = TestVerdict.TooStrong,
        };
        tests.Create(records.Painting.Id, test, "marta");
        tests.Create(records.Painting.Id, test with { DoneOn = null, DoneBy = "", Seconds = null, OnVarnish = TestEffect.NotStated, OnOriginal = TestEffect.NotStated, Verdict = TestVerdict.Open, X = null, Y = null }, "marta");
        foreach (var kind in new[] { DocumentKind.Proposal, DocumentKind.Treatment })
        {
            var english = Written(records, kind, "en");
            Assert.All(["Cleaning tests", "ethanol 20 + isooctane 80; swab, rolled; 12.5 s", "brown; duller", "too strong", "Test 1: It went further than planned", "Tests that are planned", "place not written down"], text => Assert.Contains(text, english, StringComparison.Ordinal));
            Assert.Contains("demasiado fuerte", Written(records, kind, "es"), StringComparison.Ordinal);
        }
        Assert.DoesNotContain("Cleaning tests", Written(records, DocumentKind.Loan, "en"), StringComparison.Ordinal);
    }
}
