using Sandarac.Imaging;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Findings;

public sealed class FindingTests(PostgresServer server)
{
    private const string User = "marta";

    private static FindingContent Content(string observation = "a whitish veil over the sky") => new()
    {
        Observation = observation, Interpretation = "moisture in the varnish", Confidence = Certainty.Probable, Term = "varnish/blanching (varnish)", Severity = "slight", SeverityDefinition = "seen only under raking light", Author = "Marta Oud",
        SeenOn = new DateOnly(2026, 5, 4), Evidence = [new Evidence(EvidenceKind.Literature, null, "report of 1988, page 3")],
    };

    private static string CodeOf(Action act) => Assert.Throws<InputProblem>(act).Code;

    [Theory, EachDatabase]
    public void A_finding_survives_a_restart_and_what_it_superseded_stays_readable(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting();
        var first = new Studio.Findings(home.Studio).Create(painting.Id, Content(), User);
        new Studio.Findings(home.Studio).Create(painting.Id, Content("flaking along the join"), User);
        new Studio.Findings(home.Studio).Change(first.Id, 1, Content() with { Confidence = Certainty.Certain, Number = 77 }, "jan");
        var findings = new Studio.Findings(home.Reopen());
        Assert.Equal([1, 2], findings.Of(painting.Id).Select(f => f.Content.Number));
        Assert.Equal([Certainty.Probable, Certainty.Certain], findings.History(first.Id).Select(h => h.Content.Confidence));
        Assert.Equivalent(Content() with { Number = 1, Confidence = Certainty.Certain }, findings.Numbered(painting.Id, 1)!.Content, strict: true);
    }

    [Fact]
    public void Invalid_findings_are_refused_and_nothing_is_kept()
    {
        using var home = new TemporaryStudio();
        var (painting, other) = (home.AddPainting(), home.AddPainting("Another"));
        var findings = new Studio.Findings(home.Studio);
        void Refused(string code, FindingContent content) => Assert.Equal(code, CodeOf(() => findings.Create(painting.Id, content, User)));
        Refused("finding-observation", Content(" "));
        Refused("finding-author", Content() with { Author = "" });
        Refused("finding-severity", Content() with { SeverityDefinition = "" });
        Refused("finding-severity", Content() with { Severity = "" });
        Refused("unknown-term", Content() with { Term = "varnish/none such" });
        Refused("finding-date", Content() with { SeenOn = DateOnly.FromDateTime(DateTime.UtcNow).AddDays(3) });
        Refused("finding-confidence", Content() with { Confidence = (Certainty)9 });
        Refused("unknown-zone", Content() with { Zones = [Guid.NewGuid()] });
        Refused("unknown-zone", Content() with { Zones = [Proposed.Candidate(home, other.Id).Id] });
        Refused("evidence-literature", Content() with { Evidence = [new Evidence(EvidenceKind.Literature, null, " ")] });
        Refused("evidence-key", Content() with { Evidence = [new Evidence(EvidenceKind.Sample, null, "")] });
        Refused("unknown-evidence", Content() with { Evidence = [new Evidence(EvidenceKind.Photograph, Guid.NewGuid(), "")] });
        Refused("value-missing", Content() with { Evidence = [new Evidence(EvidenceKind.Literature, null, null!)] });
        Refused("text-unreadable", Content("a\u0001b"));
        Refused("text-too-long", Content(new string('a', 20_001)));
        Assert.Empty(findings.Of(painting.Id));
        Assert.Equal(0, new Searching(home.Studio).Find(new SearchQuestion()).Total);
    }

    [Fact]
    public void A_finding_never_rests_on_itself_by_whatever_way()
    {
        using var home = new TemporaryStudio();
        var (painting, findings) = (home.AddPainting(), new Studio.Findings(home.Studio));
        Finding On(string what, Finding other) => findings.Create(painting.Id, Content(what) with { Evidence = [new Evidence(EvidenceKind.Finding, other.Id, "")] }, User);
        var a = findings.Create(painting.Id, Content(), User);
        var c = On("c", On("b", a));
        Assert.Equal("evidence-circle", CodeOf(() => findings.Change(a.Id, 1, Content() with { Evidence = [new Evidence(EvidenceKind.Finding, c.Id, "")] }, User)));
        Assert.Equal("evidence-circle", CodeOf(() => findings.Change(a.Id, 1, Content() with { Evidence = [new Evidence(EvidenceKind.Finding, a.Id, "")] }, User)));
    }

    [Fact]
    public void A_studio_adds_its_own_terms_and_finds_all_by_their_words()
    {
        using var home = new TemporaryStudio();
        var terms = new StudioTerms(home.Studio);
        var own = terms.Add("condition", "varnish", "sugar bloom", "grains of white after washing", User);
        Assert.Equal("term-there", CodeOf(() => terms.Add("condition", "varnish", "Sugar bloom", "again", User)));
        Assert.Equal("term-definition", CodeOf(() => terms.Add("condition", "varnish", "other", " ", User)));
        Assert.Equal("term-group", CodeOf(() => terms.Add("condition", "engine", "other", "x", User)));
        Assert.Equal("term-name", CodeOf(() => terms.Add("condition", "varnish", "a/b", "x", User)));
        Assert.Equal(["varnish/sugar bloom", "varnish/bloom"], terms.Find("BLOOM").Where(t => t.Name.Contains("bloom", StringComparison.Ordinal)).Select(t => t.Key).OrderDescending());
        new Studio.Findings(home.Studio).Create(home.AddPainting().Id, Content() with { Term = own.Key }, User);
    }

    /// <summary>The table that comes with the program: its keys are each once, its thesaurus numbers are numbers.</summary>
    [Fact]
    public void Terms_have_keys_of_their_own_and_sound_thesaurus_numbers()
    {
        Assert.Equal(193, Materials.Terms.Term.All.DistinctBy(t => t.Key).Count());
        Assert.All(Materials.Terms.Term.All, t => Assert.True(t.Definition.Length > 0 && t.Aat.All(char.IsAsciiDigit) && (t.Aat.Length > 0) == (t.Match != Materials.Terms.ThesaurusMatch.None), t.Key));
    }
}
