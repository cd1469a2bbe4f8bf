using Sandarac.Imaging;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.BuildUp;

public sealed class BuildUpDeskTests(PostgresServer server)
{
    private const string User = "marta";

    private static Stage Stage(TemporaryStudio home, Guid painting, string name, StageKind kind = StageKind.Paint, params Guid[] zones) =>
        new Stages(home.Studio).Create(painting, new StageContent { Name = name, Kind = kind, Zones = zones }, User);

    private static Sample Section(TemporaryStudio home, Guid painting, string number, params Guid?[] stages)
    {
        var sample = new Samples(home.Studio).Create(painting, new SampleContent { Number = number, X = 20, Y = 30 }, User);
        for (var i = 0; i < stages.Length; i++)
            new SectionLayers(home.Studio).Create(painting, new LayerContent { SampleId = sample.Id, Number = $"{i + 1}", Name = "layer", StageId = stages[i], MeanUm = 10 * (i + 1), ThicknessOrigin = "ruler" }, User);
        return sample;
    }

    private static Relation State(TemporaryStudio home, Guid painting, Stage stage, RelationKind kind, Stage other, string note = "seen under the microscope") =>
        new Relations(home.Studio).Create(painting, new RelationContent { StageId = stage.Id, Kind = kind, OtherId = other.Id, Note = note }, User);

    [Theory, EachDatabase]
    public void Sections_order_what_they_show_and_people_state_the_rest(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting().Id;
        var (ground, priming, sky, varnish) = (Stage(home, painting, "ground", StageKind.Ground), Stage(home, painting, "priming", StageKind.Priming), Stage(home, painting, "sky"), Stage(home, painting, "varnish", StageKind.Varnish));
        Section(home, painting, "1", ground.Id, null, priming.Id, priming.Id, sky.Id);
        State(home, painting, varnish, RelationKind.Over, sky);
        home.Reopen();
        var known = new BuildUpDesk(home.Studio).Of(painting);
        Assert.Equal(["ground", "priming", "sky", "varnish"], known.Order.Groups.Select(g => g.Name));
        Assert.Equal(["sample 1, layer 3 over layer 1", "sample 1, layer 5 over layer 4", "seen under the microscope"], known.Relations.Select(r => r.Relation.Evidence));
        Assert.Equal(Age.Original, known.Datings[0].Age);
        Assert.Contains("Over ground, in sample 1, priming, 30 to 40 um.", known.Prose);
        Assert.Empty(known.Open);
    }

    [Fact]
    public void A_contradiction_between_a_section_and_a_statement_is_told_until_one_is_taken_out()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting().Id;
        var (ground, sky) = (Stage(home, painting, "ground"), Stage(home, painting, "sky"));
        Section(home, painting, "1", ground.Id, sky.Id);
        var wrong = State(home, painting, sky, RelationKind.Under, ground);
        Assert.Equal(2, Assert.Single(new BuildUpDesk(home.Studio).Of(painting).Order.Contradictions).Chain.Count);
        new Relations(home.Studio).Delete(wrong.Id, 1, User);
        Assert.Empty(new BuildUpDesk(home.Studio).Of(painting).Order.Contradictions);
    }

    [Fact]
    public void A_stage_taken_out_takes_its_relations_out_of_the_order_and_brings_them_back()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting().Id;
        var (a, b) = (Stage(home, painting, "a"), Stage(home, painting, "b"));
        Section(home, painting, "1", a.Id, b.Id);
        State(home, painting, b, RelationKind.Over, a);
        new Stages(home.Studio).Delete(a.Id, 1, User);
        Assert.Empty(new BuildUpDesk(home.Studio).Of(painting).Relations);
        new Stages(home.Studio).Restore(a.Id, null, User);
        Assert.Equal(2, new BuildUpDesk(home.Studio).Of(painting).Relations.Count);
    }

    [Fact]
    public void An_open_order_is_settled_in_zones_that_show_both_hold_the_sample_or_meet()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting().Id;
        Guid Zone(string name, int left) => new Zones(home.Studio).Create(painting, new ZoneContent(name, "", "", $$"""{"type":"Polygon","coordinates":[[[{{left}},0],[{{left + 50}},0],[{{left + 50}},50],[{{left}},50],[{{left}},0]]]}""")).Id;
        var (cliff, sea) = (Zone("cliff", 0), Zone("sea", 40));
        var (rock, water, sky) = (Stage(home, painting, "rock", StageKind.Paint, cliff), Stage(home, painting, "water", StageKind.Paint, sea), Stage(home, painting, "sky"));
        Section(home, painting, "1", sky.Id);
        string[] Places(string a, string b) => [.. new BuildUpDesk(home.Studio).Of(painting).Open.Single(o => (o.First.Name, o.Second.Name) == (a, b) || (o.First.Name, o.Second.Name) == (b, a)).Places];
        Assert.Equal(["where the zones cliff and sea meet"], Places("rock", "water"));
        Assert.Equal(["the zone cliff", "where the zones cliff and sea meet"], Places("rock", "sky"));
    }

    [Fact]
    public void A_relation_that_is_none_is_refused_in_words()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting().Id;
        var (a, b) = (Stage(home, painting, "a"), Stage(home, painting, "b"));
        var foreign = Stage(home, home.AddPainting("another").Id, "c");
        string Code(RelationContent content) => Assert.Throws<InputProblem>(() => new Relations(home.Studio).Create(painting, content, User)).Code;
        Assert.Equal("relation-self", Code(new RelationContent { StageId = a.Id, OtherId = a.Id, Note = "seen" }));
        Assert.Equal("unknown-stage", Code(new RelationContent { StageId = a.Id, OtherId = foreign.Id, Note = "seen" }));
        Assert.Equal("relation-evidence", Code(new RelationContent { StageId = a.Id, OtherId = b.Id, Note = " " }));
        Assert.Equal("unknown-zone", Code(new RelationContent { StageId = a.Id, OtherId = b.Id, ZoneId = Guid.NewGuid() }));
        Assert.Equal("unknown-sample", Code(new RelationContent { StageId = a.Id, OtherId = b.Id, SampleId = Guid.NewGuid() }));
        Assert.Equal("unknown-photograph", Code(new RelationContent { StageId = a.Id, OtherId = b.Id, PhotographId = Guid.NewGuid() }));
        Assert.Equal("relation-kind", Code(new RelationContent { StageId = a.Id, OtherId = b.Id, Kind = (RelationKind)7, Note = "seen" }));
        State(home, painting, a, RelationKind.Same, b);
        State(home, painting, b, RelationKind.Same, a);
        Assert.Single(new BuildUpDesk(home.Studio).Of(painting).Order.Groups);
    }

    [Fact]
    public void A_layer_becomes_a_stage_by_one_action()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting().Id;
        Section(home, painting, "1", [null]);
        var layer = Assert.Single(new SectionLayers(home.Studio).Of(painting));
        new SectionLayers(home.Studio).Change(layer.Id, 1, layer.Content with { Name = "toned priming" }, User);
        var shown = new SectionLayers(home.Studio).AddStage(layer.Id, 2, User);
        Assert.Equal(("toned priming", StageKind.Priming), new Stages(home.Studio).Find(shown.Content.StageId!.Value).Content is var s ? (s.Name, s.Kind) : default);
        Assert.Equal("layer-has-stage", Assert.Throws<InputProblem>(() => new SectionLayers(home.Studio).AddStage(layer.Id, 3, User)).Code);
    }
}
