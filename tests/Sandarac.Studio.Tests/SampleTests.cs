using Sandarac.Imaging;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

public sealed class SampleTests(PostgresServer server)
{
    private const string User = "marta";

    private static SampleContent Content(string number = "1") => new()
    {
        Number = number, X = 31.5, Y = 200, Why = "how many grounds?", AuthorisedBy = "the owner", TakenBy = "marta", TakenOn = new DateOnly(2026, 5, 4), Site = SampleSite.ExistingDamage, Tool = "scalpel",
        Size = "0.4 x 0.3 mm", Form = "flake", SubSamples = "a, b", Resin = "polyester", Precoat = "none", Storage = "cabinet 3", Remains = "half", Observation = "two white layers", Interpretation = "a double ground",
    };

    private static string CodeOf(Action act) => Assert.Throws<InputProblem>(act).Code;

    [Theory, EachDatabase]
    public void A_record_survives_a_restart_and_every_revision_stays_readable(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting();
        var made = new Samples(home.Studio).Create(painting.Id, Content(), User);
        var changed = new Samples(home.Studio).Change(made.Id, 1, Content() with { Interpretation = "ground and priming" }, "jan");
        var samples = new Samples(home.Reopen());
        Assert.Equivalent(changed.Content, samples.Find(made.Id).Content, strict: true);
        Assert.True(samples.Delete(made.Id, 2, User).DeletedAt is not null);
        Assert.Empty(samples.Of(painting.Id));
        Assert.Single(samples.Removed(painting.Id));
        Assert.Equal("ground and priming", samples.Restore(made.Id, null, User).Content.Interpretation);
        Assert.Equal("a double ground", samples.Restore(made.Id, 1, User).Content.Interpretation);
        Assert.Equal(["created marta", "changed jan", "deleted marta", "restored marta", "restored marta"], samples.History(made.Id).Select(h => $"{h.What} {h.By}"));
        Assert.Equal("unknown-revision", CodeOf(() => samples.Restore(made.Id, 99, User)));
    }

    [Theory, EachDatabase]
    public void Of_changes_at_the_same_moment_one_wins_and_the_others_are_told(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var samples = new Samples(home.Studio);
        var sample = samples.Create(home.AddPainting().Id, Content(), User);
        var won = 0;
        Parallel.For(0, 6, i =>
        {
            try
            {
                samples.Change(sample.Id, 1, Content() with { Tool = $"needle {i}" }, User);
                Interlocked.Increment(ref won);
            }
            catch (InputProblem e) when (e.Code == "sample-changed")
            {
            }
        });
        Assert.Equal((1, 2), (won, samples.Find(sample.Id).Revision));
    }

    /// <summary>Numbers are each once on a painting, however many people write at the same moment.</summary>
    [Theory, EachDatabase]
    public void Of_samples_and_layers_made_at_the_same_moment_with_one_number_one_is_kept(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting();
        int Made(Action make)
        {
            var (made, start) = (0, new Barrier(6));
            var refused = new System.Collections.Concurrent.ConcurrentBag<string>();
            Thread[] threads = [.. Enumerable.Range(0, 6).Select(_ => new Thread(() =>
            {
                start.SignalAndWait();
                try
                {
                    make();
                    Interlocked.Increment(ref made);
                }
                catch (InputProblem e)
                {
                    refused.Add(e.Code);
                }
            }))];
            foreach (var thread in threads) thread.Start();
            foreach (var thread in threads) thread.Join();
            Assert.All(refused, code => Assert.EndsWith("-number", code, StringComparison.Ordinal));
            Assert.Equal(5, refused.Count);
            return made;
        }
        Assert.Equal(1, Made(() => new Samples(home.Studio).Create(painting.Id, Content(), User)));
        var sample = Assert.Single(new Samples(home.Studio).Of(painting.Id));
        Assert.Equal(1, Made(() => new SectionLayers(home.Studio).Create(painting.Id, new LayerContent { SampleId = sample.Id, Number = "1", Name = "ground" }, User)));
        Assert.Single(new SectionLayers(home.Studio).Of(painting.Id));
    }

    [Fact]
    public void What_is_not_a_record_is_refused_in_words_and_nothing_is_stored()
    {
        using var home = new TemporaryStudio();
        var (painting, samples) = (home.AddPainting(), new Samples(home.Studio));
        Assert.Equal("sample-place", CodeOf(() => samples.Create(painting.Id, Content() with { X = double.NaN }, User)));
        Assert.Equal("sample-place", CodeOf(() => samples.Create(painting.Id, Content() with { X = null }, User)));
        Assert.Equal("sample-place", CodeOf(() => samples.Create(painting.Id, Content() with { Y = 5000 }, User)));
        Assert.Equal("name", CodeOf(() => samples.Create(painting.Id, Content(" "), User)));
        Assert.Equal("text-too-long", CodeOf(() => samples.Create(painting.Id, Content() with { Observation = new string('a', 100_000) }, User)));
        Assert.Equal("text-unreadable", CodeOf(() => samples.Create(painting.Id, Content() with { Why = "a\0b" }, User)));
        Assert.Equal("text-unreadable", CodeOf(() => samples.Create(painting.Id, Content("a\u0001b"), User)));
        Assert.Equal("value-missing", CodeOf(() => samples.Create(painting.Id, Content() with { Micrographs = null! }, User)));
        Assert.Equal("unknown-photograph", CodeOf(() => samples.Create(painting.Id, Content() with { Micrographs = [Guid.NewGuid()] }, User)));
        Assert.Equal("sample-site", CodeOf(() => samples.Create(painting.Id, Content() with { Site = (SampleSite)9 }, User)));
        Assert.Equal("unknown-painting", CodeOf(() => samples.Create(Guid.NewGuid(), Content(), User)));
        Assert.Empty(samples.Of(painting.Id));
        samples.Create(painting.Id, Content(), User);
        Assert.Equal("sample-number", CodeOf(() => samples.Create(painting.Id, Content(" 1 "), User)));
    }

    [Fact]
    public void Layers_rise_by_number_sublayers_between()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting();
        var sample = new Samples(home.Studio).Create(painting.Id, Content(), User);
        var layers = new SectionLayers(home.Studio);
        foreach (var number in new[] { "10", "2b", "1", "2A", "3" }) layers.Create(painting.Id, new LayerContent { SampleId = sample.Id, Number = number, Name = "paint", LowUm = 8, HighUm = 20, ThicknessOrigin = "ruler" }, User);
        Assert.Equal(["1", "2a", "2b", "3", "10"], new SectionLayers(home.Reopen()).BySample(painting.Id)[sample.Id].Select(l => l.Content.Number));
    }

    [Fact]
    public void A_layer_that_is_none_is_refused_in_words()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting();
        var sample = new Samples(home.Studio).Create(painting.Id, Content(), User);
        var layers = new SectionLayers(home.Studio);
        string Code(LayerContent content) => CodeOf(() => layers.Create(painting.Id, content with { SampleId = content.SampleId == default ? sample.Id : content.SampleId, Name = "ground" }, User));
        Assert.All(new[] { "0", "-1", "a", "2ab", "", "1 1", "100" }, number => Assert.Equal("layer-number", Code(new LayerContent { Number = number })));
        Assert.Equal("unknown-sample", Code(new LayerContent { Number = "1", SampleId = Guid.NewGuid() }));
        Assert.Equal("unknown-stage", Code(new LayerContent { Number = "1", StageId = Guid.NewGuid() }));
        Assert.Equal("unknown-run", Code(new LayerContent { Number = "1", RunId = Guid.NewGuid() }));
        Assert.Equal("thickness", Code(new LayerContent { Number = "1", MeanUm = double.NaN, ThicknessOrigin = "ruler" }));
        Assert.Equal("thickness", Code(new LayerContent { Number = "1", LowUm = 20, HighUm = 8, ThicknessOrigin = "ruler" }));
        Assert.Equal("thickness-origin", Code(new LayerContent { Number = "1", MeanUm = 12 }));
    }

    [Fact]
    public void A_corrected_size_of_the_painting_takes_samples_with_it()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting();
        using (var db = home.Studio.CreateDb())
        {
            db.Paintings.Find(painting.Id)!.PlaneMmPerPixel = 0.1;
            db.SaveChanges();
        }
        var sample = new Samples(home.Studio).Create(painting.Id, Content() with { X = 20, Y = 30 }, User);
        new Sizing(home.Studio).QueueByDistance(painting.Id, new(10, 10), new(60, 10), 100, User);
        Assert.Equal((40.0, 60.0, 2), new Samples(home.Studio).Find(sample.Id) is var s ? (s.Content.X!.Value, s.Content.Y!.Value, s.Revision) : default);
        Assert.Equal(sample.Id, Assert.Single(new Here(home.Studio).At(painting.Id, new(40, 63)).Samples).Sample.Id);
        Assert.Empty(new Here(home.Studio).At(painting.Id, new(60, 60)).Samples);
    }
}
