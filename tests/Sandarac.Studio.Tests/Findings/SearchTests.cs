using Sandarac.Imaging;
using Sandarac.Studio.Cleaning;
using Sandarac.Studio.Datings;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Tests.Findings;

public sealed class SearchTests(PostgresServer server)
{
    private const string User = "marta";
    private const string Large = """{"type":"Polygon","coordinates":[[[10,10],[110,10],[110,110],[10,110],[10,10]]]}""";

    [Theory, EachDatabase]
    public void Words_terms_lights_days_and_sizes_narrow_what_is_found(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var (ferry, mill) = (home.AddPainting(), home.AddPainting("Mill"));
        var (findings, zones, search) = (new Studio.Findings(home.Studio), new Zones(home.Studio), new Searching(home.Studio));
        var large = zones.Create(ferry.Id, new ZoneContent("sky", "", "", Large));
        Finding Add(Painting painting, string observation, string term, int year, params Guid[] where) =>
            findings.Create(painting.Id, new FindingContent { Observation = observation, Term = term, Author = "Marta Oud", SeenOn = new DateOnly(year, 5, 4), Zones = where }, User);
        var veil = Add(ferry, "Whitish veil; the façade is dulled", "varnish/blanching (varnish)", 2021, large.Id);
        Add(ferry, "old veil", "varnish/blanching (varnish)", 2015, large.Id);
        Add(mill, "greyish shadows", "paint/blanching (paint)", 2022);
        Add(mill, "wax drip", "surface/accretion", 2022);
        int Found(SearchQuestion question) => search.Find(question).Total;
        Assert.Equal(2, Found(new() { Words = "veil" }));
        Assert.Equal(1, Found(new() { Words = "FACADE whit" }));
        Assert.Equal(1, Found(new() { Words = "façade, VEIL!" }));
        Assert.Equal(0, Found(new() { Words = "eil" }));
        Assert.Equal(3, Found(new() { Term = "blanching" }));
        Assert.Equal(2, Found(new() { Term = "varnish/blanching (varnish)" }));
        var answer = search.Find(new() { Term = "blanching", LeastMm2 = 5000, From = new DateOnly(2019, 1, 1) });
        Assert.Equal((veil.Id, "Ferry at low water", 10_000.0), answer.Hits.Select(h => (h.Id, h.Painting, h.AreaMm2!.Value)).Single());
        Assert.Equal(2, Found(new() { PaintingId = mill.Id }));
        Assert.Equal(2, search.Find(new() { Take = 2 }).Hits.Count);
        zones.Change(large.Id, 1, new ZoneContent("sky", "", "", Proposed.Square));
        Assert.Equal(0, Found(new() { LeastMm2 = 5000 }));
        findings.Delete(veil.Id, 1, User);
        Assert.Equal(2, Found(new() { Term = "blanching" }));
    }

    [Theory, EachDatabase]
    public void Samples_are_found_by_the_materials_of_their_layers_and_findings_by_the_samples_they_rest_on(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting();
        var sample = new Samples(home.Studio).Create(painting.Id, new SampleContent { Number = "1", Why = "how many grounds?" }, User);
        new Studio.Findings(home.Studio).Create(painting.Id, new FindingContent { Observation = "double ground", Author = "Marta", Evidence = [new Evidence(EvidenceKind.Sample, sample.Id, "two layers")] }, User);
        var layer = new SectionLayers(home.Studio).Create(painting.Id, new LayerContent { SampleId = sample.Id, Number = "1", Name = "ground", Materials = "chalk, lead white" }, User);
        var search = new Searching(home.Studio);
        Assert.Equal([SearchSubject.Finding, SearchSubject.Sample], search.Find(new() { Material = "Lead white" }).Hits.Select(h => h.Subject).Order());
        Assert.Equal(2, search.Find(new() { Light = "xsec" }).Total);
        new SectionLayers(home.Studio).Change(layer.Id, 1, layer.Content with { Materials = "chalk" }, User);
        Assert.Equal(0, search.Find(new() { Material = "lead" }).Total);
    }

    /// <summary>Which paintings had something from one delivery is what a studio asks when a maker calls it back.</summary>
    [Theory, EachDatabase]
    public void Tests_materials_steps_and_log_entries_are_found_by_what_was_used_and_from_which_batch(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting();
        var (search, zones) = (new Searching(home.Studio), new Zones(home.Studio));
        var sky = zones.Create(painting.Id, new ZoneContent("sky", "", "", Large));
        var (tests, log, day) = (new CleaningTests(home.Studio), new TreatmentLog(home.Studio), new DateOnly(2026, 11, 2));
        var test = tests.Create(painting.Id, new CleaningTestContent { AgentKind = AgentKind.Solvent, Agent = [new("ethanol", 20), new("isooctane", 80)], Carrier = "swab", X = 20, Y = 20, Note = "bloom afterwards" }, User);
        var material = new MaterialsFound(home.Studio).Create(painting.Id, new MaterialFoundContent { Material = "Prussian blue", Basis = "infrared, by the laboratory", ZoneId = sky.Id }, User);
        var step = new TreatmentSteps(home.Studio).Create(painting.Id, new TreatmentStepContent { Name = "Consolidate the sky", Operation = "consolidation", UrgentReason = "paint was falling", Zones = [sky.Id] }, User);
        var entry = log.Create(painting.Id, new LogEntryContent { StepId = step.Id, On = day, Who = "Marta Oud", What = "laid down flakes", Zones = [sky.Id], Materials = [new("sturgeon glue", 2, "mL", "SG-117", MaterialUse.Added)] }, User);
        SearchSubject[] Found(SearchQuestion question) => [.. search.Find(question).Hits.Select(h => h.Subject).Order()];
        Assert.Equal([SearchSubject.LogEntry], Found(new() { Words = "sg 117" }));
        Assert.Equal([SearchSubject.CleaningTest], Found(new() { Material = "isooctane" }));
        Assert.Equal([SearchSubject.CleaningTest], Found(new() { Words = "bloom ethanol" }));
        Assert.Equal([SearchSubject.Material], Found(new() { Material = "prussian" }));
        Assert.Equal([SearchSubject.TreatmentStep, SearchSubject.LogEntry], Found(new() { LeastMm2 = 5000 }));
        Assert.Equal([SearchSubject.LogEntry], Found(new() { From = day, To = day }));
        zones.Change(sky.Id, 1, new ZoneContent("sky", "", "", Proposed.Square));
        Assert.Empty(Found(new() { LeastMm2 = 5000 }));
        log.Change(entry.Id, 1, entry.Content with { Materials = [] }, User);
        new MaterialsFound(home.Studio).Delete(material.Id, 1, User);
        tests.Delete(test.Id, 1, User);
        Assert.Equal([SearchSubject.TreatmentStep, SearchSubject.LogEntry], Found(new()));
        using (var db = home.Studio.CreateDb())
        {
            db.SearchEntries.RemoveRange(db.SearchEntries);
            db.SaveChanges();
        }
        home.Reopen();
        Assert.Equal([SearchSubject.TreatmentStep, SearchSubject.LogEntry], [.. new Searching(home.Studio).Find(new()).Hits.Select(h => h.Subject).Order()]);
    }

    [Fact]
    public void Questions_that_ask_for_nothing_sensible_are_refused_and_hostile_words_are_words()
    {
        using var home = new TemporaryStudio();
        var search = new Searching(home.Studio);
        string CodeOf(SearchQuestion q) => Assert.Throws<InputProblem>(() => search.Find(q)).Code;
        Assert.Equal("search-page", CodeOf(new() { Take = 0 }));
        Assert.Equal("search-days", CodeOf(new() { From = new DateOnly(2026, 1, 2), To = new DateOnly(2026, 1, 1) }));
        Assert.Equal("search-area", CodeOf(new() { LeastMm2 = -1 }));
        Assert.Equal("search-area", CodeOf(new() { LeastMm2 = double.NaN }));
        Assert.Equal("search-area", CodeOf(new() { LeastMm2 = 3, MostMm2 = 2 }));
        Assert.Equal("search-term", CodeOf(new() { Term = "none such" }));
        Assert.Equal("search-words", CodeOf(new() { Words = new string('a', 1001) }));
        foreach (var words in new[] { "\"", "' OR 1=1 --", "NEAR(a b)", "a* AND NOT b", "Words:x", "^", "\u0000", "{a} + b", "\uD83D\uDE00" }) Assert.Equal(0, search.Find(new() { Words = words }).Total);
    }

    /// <summary>A record from before there was a search is taken in when the studio is opened.</summary>
    [Fact]
    public void What_has_no_row_yet_gets_one_when_the_studio_is_opened()
    {
        using var home = new TemporaryStudio();
        new Studio.Findings(home.Studio).Create(home.AddPainting().Id, new FindingContent { Observation = "veil", Author = "Marta" }, User);
        using (var db = home.Studio.CreateDb())
        {
            db.SearchEntries.RemoveRange(db.SearchEntries);
            db.SaveChanges();
        }
        Assert.Equal(0, new Searching(home.Studio).Find(new() { Words = "veil" }).Total);
        Assert.Equal(1, new Searching(home.Reopen()).Find(new() { Words = "veil" }).Total);
    }
}
