using System.Globalization;
using System.Xml.Linq;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Studio.BuildUp;
using Sandarac.Analysis.Sections.Drawn;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

/// <summary>Witness: sections drawn by formula, whose thicknesses are known.</summary>
public sealed class SectionDeskTests
{
    private const string User = "marta";

    private static Sample AddSample(TemporaryStudio home, Guid painting, params Photograph[] micrographs) =>
        new Samples(home.Studio).Create(painting, new SampleContent { Number = "S1", Micrographs = [.. micrographs.Select(p => p.Id)] }, User);

    private static Run Measure(TemporaryStudio home, Sample sample, params (string Name, string Value)[] parameters)
    {
        var running = new Running(home.Studio);
        var run = running.Execute(running.Queue(new RunRequest(sample.PaintingId, SectionDesk.Layers, parameters.ToDictionary(p => p.Name, p => p.Value), new SectionDesk(home.Studio).Sources(sample).Inputs, User)).Id);
        Assert.True(run.State == RunState.Done, $"{run.State} {run.NoAnswer} {run.Problem?.Message}");
        return run;
    }

    [Fact]
    public void Layers_are_measured_taken_over_drawn_and_measured_again_and_what_a_person_wrote_stays()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting();
        var sample = AddSample(home, painting.Id, DrawnSection.Add(home, painting.Id, "XSEC_S1_VIS.tif", Light.Visible), DrawnSection.Add(home, painting.Id, "XSEC_S1_UV.tif", Light.Luminescence));
        var run = Measure(home, sample, ("um-per-pixel", "0.4"));
        var proposals = new SectionDesk(home.Studio).Proposals(run.Id);
        Assert.Equal(["layer-boundary", "layer-boundary", "layer-boundary", "layer-boundary", "layer", "layer", "layer"], proposals.Select(p => p.Kind));
        Assert.DoesNotContain(run.Warnings, w => w.Code == "candidates-not-placed");
        Assert.Empty(new Zones(home.Studio).Of(painting.Id));

        var (taking, layers) = (new TakingOver(home.Studio), new SectionLayers(home.Studio));
        var written = taking.TakeOver(sample.Id, run.Id, User);
        Assert.Equal(["1", "2", "3"], written.Select(l => l.Content.Number));
        foreach (var (layer, px) in written.Zip(DrawnSection.Thickness)) Assert.Equal(0.4 * px, layer.Content.MeanUm!.Value, 0.4);
        Assert.All(written, l => Assert.Contains("scale: entered", l.Content.ThicknessOrigin, StringComparison.Ordinal));
        Assert.Contains("blue", written[0].Content.Observation, StringComparison.Ordinal);
        Assert.All(taking.TakeOver(sample.Id, run.Id, User), l => Assert.Equal(1, l.Revision));

        // A colour is all that a machine says of a layer: it is not paint for that.
        var stage = layers.AddStage(written[2].Id, 1, User).Content.StageId!.Value;
        Assert.Equal(StageKind.Other, new Stages(home.Studio).Find(stage).Content.Kind);
        Assert.All(new Columns(home.Studio).Of(painting.Id)[0].Layers, l => Assert.Equal(LayerKind.Unknown, l.Kind));

        layers.Change(written[1].Id, 1, written[1].Content with { Name = "red glaze", Observation = "clear", Materials = "a lake" }, "jan");
        var again = taking.TakeOver(sample.Id, Measure(home, sample, ("um-per-pixel", "0.5")).Id, User)[1];
        Assert.Equal(("red glaze", "clear", "a lake", 3), (again.Content.Name, again.Content.Observation, again.Content.Materials, again.Revision));
        Assert.Equal(0.5 * 20, again.Content.MeanUm!.Value, 0.4);
        Assert.Equal(written[1].Content.MeanUm, layers.History(again.Id)[1].Content.MeanUm);

        double[] drawn = [.. XDocument.Parse(new Columns(home.Studio).Svg(painting.Id, [sample.Id])).Descendants().Where(e => e.Name.LocalName == "rect" && e.Attribute("width")!.Value == "10" && e.Attribute("fill")!.Value.StartsWith('#'))
            .Select(e => double.Parse(e.Attribute("height")!.Value, CultureInfo.InvariantCulture))];
        Assert.Equal([3, 1.5], [drawn[0] / drawn[1], drawn[2] / drawn[1]], (a, b) => Math.Abs(a - b) < 0.1);
    }

    private static string Clicks(params int[] heights) => $"{{\"type\":\"FeatureCollection\",\"features\":[{string.Join(',', heights.Select(y => $"{{\"type\":\"Feature\",\"properties\":{{}},\"geometry\":{{\"type\":\"Point\",\"coordinates\":[210,{y}]}}}}"))}]}}";

    [Fact]
    public void Layers_are_recognised_by_their_place_when_others_are_found_and_one_that_a_person_described_is_not_dropped()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting();
        var sample = AddSample(home, painting.Id, DrawnSection.Add(home, painting.Id, "XSEC_S1_VIS.tif", Light.Visible));
        var (taking, layers, all) = (new TakingOver(home.Studio), new SectionLayers(home.Studio), Measure(home, sample, ("um-per-pixel", "0.4")));
        var first = taking.TakeOver(sample.Id, all.Id, User);
        layers.Change(first[2].Id, 1, first[2].Content with { Name = "varnish" }, "jan");

        // The boundary between the two lower layers is left out: the uppermost becomes the second.
        var fewer = Measure(home, sample, ("um-per-pixel", "0.4"), ("boundaries", "clicked"), ("clicks", Clicks(75, 105, 185)));
        var two = taking.TakeOver(sample.Id, fewer.Id, User);
        Assert.Equal([(first[0].Id, "1"), (first[2].Id, "2")], two.Select(l => (l.Id, l.Content.Number)));
        Assert.Equal(("varnish", 0.4 * 30), (two[1].Content.Name, Math.Round(two[1].Content.MeanUm!.Value)));
        Assert.NotNull(layers.Find(first[1].Id).DeletedAt);

        var three = taking.TakeOver(sample.Id, all.Id, User);
        Assert.Equal((first[0].Id, first[2].Id, "varnish"), (three[0].Id, three[2].Id, three[2].Content.Name));
        Assert.Equal(first.Select(l => l.Content.Observation), three.Select(l => l.Content.Observation));
        layers.Change(three[1].Id, three[1].Revision, three[1].Content with { Materials = "a lake" }, "jan");
        Assert.Equal("layers-differ", Assert.Throws<InputProblem>(() => taking.TakeOver(sample.Id, fewer.Id, User)).Code);
        Assert.Equal(["1", "2", "3"], layers.BySample(painting.Id)[sample.Id].Select(l => l.Content.Number));
    }

    [Fact]
    public void Without_a_scale_thicknesses_are_in_pixels_and_one_that_a_person_measured_stays()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting();
        // Tags of 72 pixels to the inch are a screen's.
        var sample = AddSample(home, painting.Id, DrawnSection.Add(home, painting.Id, "XSEC_S1_VIS.tif", Light.Visible, pixelsPerInch: 72));
        Assert.Null(new SectionDesk(home.Studio).Sources(sample).Scale);
        var byHand = new SectionLayers(home.Studio).Create(painting.Id, new LayerContent { SampleId = sample.Id, Number = "1", Name = "ground", MeanUm = 24, ThicknessOrigin = "ruler in the microscope" }, User);
        var run = Measure(home, sample);
        var layers = new TakingOver(home.Studio).TakeOver(sample.Id, run.Id, User);
        Assert.Equal((byHand.Content, 1), (layers[0].Content, layers[0].Revision));
        Assert.Null(layers[1].Content.MeanUm);
        Assert.Contains(" px, sd ", layers[1].Content.ThicknessOrigin, StringComparison.Ordinal);
        Assert.Equal(["1"], new Columns(home.Studio).Of(painting.Id)[0].Layers.Select(l => l.Number));
        Assert.Equal("run-not-of-sample", Assert.Throws<InputProblem>(() => new TakingOver(home.Studio).TakeOver(new Samples(home.Studio).Create(painting.Id, new SampleContent { Number = "S2" }, User).Id, run.Id, User)).Code);
    }

    [Fact]
    public void Micrographs_go_where_their_light_belongs_and_those_left_out_are_named()
    {
        using var home = new TemporaryStudio();
        var painting = home.AddPainting();
        var (visible, uv) = (DrawnSection.Add(home, painting.Id, "XSEC_S1_VIS.tif", Light.Visible), DrawnSection.Add(home, painting.Id, "XSEC_S1_UV.tif", Light.Luminescence, width: 300));
        var again = DrawnSection.Add(home, painting.Id, "XSEC_S1_UV_2.tif", Light.Luminescence, width: 310);
        var electrons = DrawnSection.Add(home, painting.Id, "XSEC_S1_BSE.tif", null, pixelsPerInch: 100);
        var sources = new SectionDesk(home.Studio).Sources(AddSample(home, painting.Id, visible, uv, again, electrons));
        Assert.Equal(["electrons", "luminescence", "visible"], sources.Inputs.Keys.Order());
        Assert.Equal((visible.Id, uv.Id, electrons.Id), (sources.Inputs["visible"].Single(), sources.Inputs["luminescence"].Single(), sources.Inputs["electrons"].Single()));
        Assert.Contains("XSEC_S1_UV_2.tif is not used", Assert.Single(sources.LeftOut), StringComparison.Ordinal);
        var micrometer = DrawnSection.Add(home, painting.Id, "MICROMETER.tif", null, pixelsPerInch: 90);
        Assert.Equal([micrometer.Id], new SectionDesk(home.Studio).StageMicrometers(Assert.Single(new Samples(home.Studio).Of(painting.Id))).Select(p => p.Id));
        Assert.NotNull(new SectionDesk(home.Studio).Sources(new Samples(home.Studio).Create(painting.Id, new SampleContent { Number = "S2" }, User)).Problem);
    }

    [Fact]
    public void Grains_belong_to_the_layers_of_the_same_clicks_and_scale()
    {
        static Run Of(string reading, params Figure[] figures) => new()
        {
            PaintingId = Guid.Empty, Kind = RunKind.Reading, ReadingId = reading, ReadingVersion = 1, Key = "", SoftwareVersion = "", UserName = User, QueuedAt = DateTime.UnixEpoch, Figures = figures,
            Parameters = new Dictionary<string, string> { ["clicks"] = "", ["um-per-pixel"] = figures.Length > 1 ? "0.4" : "0.5" }, Inputs = [new RunSource("visible", Guid.Empty, "v.tif", "aa", "XSEC", null, null)],
        };
        var (layers, same, other) = (Of("layers", new Figure("layers", 1, null), new Figure("n", 1, null)), Of("particles", new Figure("grains", 41, null, null, "layer 1"), new Figure("d50-area", 4.2, 0.3, "3.9 to 4.5; fine", "layer 1")), Of("particles"));
        Assert.True(SectionDesk.AreOfOne(layers, same));
        Assert.False(SectionDesk.AreOfOne(layers, other));
        Assert.Equal((41, 4.2, "um"), (MeasuredGrains.Of(same, 1)!.Counted, MeasuredGrains.Of(same, 1)!.D50.Value!.Value, MeasuredGrains.Of(same, 1)!.Unit));
        Assert.Null(MeasuredGrains.Of(same, 2));
    }
}
