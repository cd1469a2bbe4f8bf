using System.Globalization;
using MathNet.Numerics.Statistics;
using NetTopologySuite.Geometries;
using Sandarac.Analysis.Declaring;
using Sandarac.Specimen.Scoring;

namespace Sandarac.Analysis.Tests.Luminescence;

/// <summary>The specimen against its truth: where later paint lies over the varnish and between its coats, which dark paint is the painter's own, how thick the varnish is.</summary>
public class SpecimenLuminescenceTests(SpecimenLuminescence run) : IClassFixture<SpecimenLuminescence>
{
    /// <summary>Share of visible light that the specimen's lamps and filter let through, per cent: as `Lights` of the specimen draws it.</summary>
    private static readonly double[] Leak = [2.0, 1.8, 7.5];

    [Fact]
    public void Known_additions_and_cleaning_are_found_and_dark_original_paint_is_left_alone()
    {
        var score = SpecimenScore.Of(run.Scene.Folder, [.. run.WithBoards.Outcome.Candidates.Select(c => (c.Kind, c.Geometry))]);
        Say($"{score}");
        Assert.InRange(score.Over.AreaF1, 0.9, 1);
        Assert.InRange(score.Over.ObjectF1, 0.95, 1);
        Assert.InRange(score.Under.ObjectF1, 0.75, 1);
        Assert.InRange(score.FalseOnDark, 0, 0.02);
        Assert.InRange(score.Cleaning.Overlap, 0.9, 1);
        Assert.Equal("earlier-cleaning", Assert.Single(run.WithBoards.Outcome.Candidates, c => c.Geometry.Distance(new Point(60, 110)) < 1).Kind);
    }

    [Fact]
    public void Known_leaked_light_is_measured_within_a_hundredth()
    {
        var figures = run.WithBoards.Outcome.Figures.Where(f => f.Name == "leaked-light").ToList();
        for (var b = 0; b < 3; b++)
        {
            Say($"leaked light, {figures[b].Subject}: {figures[b].Value:0.00} ± {figures[b].Uncertainty:0.00} %, truth {Leak[b]} %");
            Assert.InRange(figures[b].Value!.Value, Leak[b] - 1, Leak[b] + 1);
        }
    }

    /// <summary>Without the boards the lamps' fall-off and the lens's vignetting stay in: the places are the same.</summary>
    [Fact]
    public void Uneven_lamps_change_no_place()
    {
        var (even, uneven) = (Additions(run.WithBoards.Outcome), Additions(run.WithoutBoards.Outcome));
        var overlap = even.Intersection(uneven).Area / even.Union(uneven).Area;
        Say($"with and without boards: intersection over union {overlap:0.0000}");
        Assert.InRange(overlap, 0.98, 1);
    }

    [Fact]
    public void Known_varnish_is_mapped()
    {
        var map = run.WithBoards.Rasters["varnish"][0];
        var (columns, rows) = SpecimenScore.Lattice;
        var seen = SpecimenScore.VarnishUm(run.Scene.Folder).Select((um, i) => (Um: (double)um, Map: (double)map[(int)((i % columns + 0.5) / columns * map.Width), (int)((i / columns + 0.5) / rows * map.Height)]))
            .Where(p => double.IsFinite(p.Um) && double.IsFinite(p.Map)).ToList();
        var r = Correlation.Pearson(seen.Select(p => p.Um), seen.Select(p => p.Map));
        Say($"varnish against truth: r {r:0.000} over {seen.Count} places");
        Assert.InRange(r, 0.9, 1);
    }

    private static Geometry Additions(Outcome outcome) => GeometryFactory.Default.BuildGeometry([.. outcome.Candidates.Where(c => c.Kind.EndsWith("-addition", StringComparison.Ordinal)).Select(c => c.Geometry)]).Union();

    private static void Say(FormattableString text) => TestContext.Current.SendDiagnosticMessage(text.ToString(CultureInfo.InvariantCulture));
}
