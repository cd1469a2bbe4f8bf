using System.Xml.Linq;
using CsCheck;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.BuildUp.Drawing;

namespace Sandarac.Studio.Tests.BuildUp;

public sealed class LayeredLayoutTests
{
    private static readonly Gen<(int, List<(int Upper, int Lower)>)> Graphs = Gen.Int[1, 60].SelectMany(n => Gen.Select(Gen.Int[0, n - 1], Gen.Int[0, n - 1])
        .List[0, 2 * n].Select(links => (n, links.Where(l => l.Item1 != l.Item2).Select(l => (Math.Max(l.Item1, l.Item2), Math.Min(l.Item1, l.Item2))).Distinct().ToList())));

    [Fact]
    public void Links_rise_boxes_keep_apart_and_the_support_stands_lowest_alone() => Graphs.Sample(graph =>
    {
        var (n, links) = graph;
        var layout = LayeredLayout.Of(n, links, i => i == 0);
        Assert.All(layout.Ways, w => Assert.True(layout.Boxes[links[w.Link].Upper].Layer > layout.Boxes[links[w.Link].Lower].Layer));
        Assert.All(layout.Ways, w => Assert.Equal(Enumerable.Range(w.Places[0].Layer, w.Places.Count), w.Places.Select(p => p.Layer)));
        Assert.Equal((0, 1), (layout.Boxes[0].Layer, layout.Boxes.Count(b => b.Layer == 0)));
        Assert.All(layout.Boxes.CountBy(b => b.Layer), l => Assert.InRange(l.Value, 1, LayeredLayout.MostInLayer));
        foreach (var row in layout.Boxes.GroupBy(b => b.Layer).Select(g => g.Select(b => b.X).Order().ToList()))
            for (var k = 1; k < row.Count; k++) Assert.True(row[k] - row[k - 1] > 1 - 1e-9, $"{row[k - 1]} and {row[k]} overlap");
    }, iter: 200);

    [Fact]
    public void Crossings_are_those_counted_line_by_line() => Graphs.Sample(graph =>
    {
        var (n, links) = graph;
        var layout = LayeredLayout.Of(n, links, i => i == 0);
        var lines = layout.Ways.SelectMany(w => w.Places.Zip(w.Places.Skip(1))).ToList();
        var crossings = 0;
        for (var i = 0; i < lines.Count; i++)
            for (var j = i + 1; j < lines.Count; j++)
                if (lines[i].First.Layer == lines[j].First.Layer && (lines[i].First.X - lines[j].First.X) * (lines[i].Second.X - lines[j].Second.X) < 0) crossings++;
        Assert.Equal(crossings, layout.Crossings);
    }, iter: 100);

    /// <summary>A tree can be drawn without crossings; a sweep that could not would be of no use.</summary>
    [Fact]
    public void A_tree_is_drawn_without_crossings()
    {
        var links = Enumerable.Range(1, 59).Select(i => (i, (i - 1) / 3)).ToList();
        Assert.Equal(0, LayeredLayout.Of(60, links, i => i == 0).Crossings);
    }

    /// <summary>A screen of 1440 pixels has room for nine boxes of 162.</summary>
    [Fact]
    public void Sixty_loosely_ordered_stages_fit_a_screen() => Gen.Select(Gen.Int[1, 59], Gen.Int[0, 58]).List[30, 75].Sample(pairs =>
    {
        var layout = LayeredLayout.Of(60, [.. pairs.Where(p => p.Item2 < p.Item1).Distinct()], _ => false);
        Assert.InRange(layout.Boxes.Select(b => b.X).Concat(layout.Ways.SelectMany(w => w.Places).Select(p => p.X)).Max(), 0, 7.5);
    }, iter: 100);

    /// <summary>What is joined to nothing has no place among the others.</summary>
    [Fact]
    public void Stages_without_relations_stand_apart()
    {
        BuildUpStage[] stages = [.. Enumerable.Range(0, 12).Select(i => new BuildUpStage(Guid.NewGuid(), $"stage {i}", StageKind.Other))];
        var svg = XElement.Parse(BuildUpDrawing.Draw(BuildUpOrder.Of(stages, [new(Guid.NewGuid(), stages[3].Id, RelationKind.Over, stages[4].Id, "seen")])));
        double Foot(int i) => svg.Elements().Single(e => e.Attribute("href")?.Value == $"#stage-{stages[i].Id}").Elements().Where(e => e.Name.LocalName == "rect").Max(e => (double)e.Attribute("y")!);
        Assert.True(Foot(3) < Foot(4));
        Assert.All(Enumerable.Range(0, 12).Except([3, 4]), i => Assert.True(Foot(i) > Foot(4)));
    }

    [Fact]
    public void The_drawing_is_sound_XML_whatever_names_hold()
    {
        BuildUpStage[] stages = [new(Guid.NewGuid(), "<a href='x'>\u0001 & \"", StageKind.Paint), new(Guid.NewGuid(), string.Concat(Enumerable.Repeat("\U0001F58C", 2500)), StageKind.Support)];
        var svg = XElement.Parse(BuildUpDrawing.Draw(BuildUpOrder.Of(stages, [new(Guid.NewGuid(), stages[0].Id, RelationKind.Over, stages[1].Id, "]]>")])));
        Assert.Equal(2, svg.Elements().Count(e => e.Name.LocalName == "a"));
        Assert.Equal("svg", XElement.Parse(BuildUpDrawing.Draw(BuildUpOrder.Of([], []))).Name.LocalName);
    }
}
