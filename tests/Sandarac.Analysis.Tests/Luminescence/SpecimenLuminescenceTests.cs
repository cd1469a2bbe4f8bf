using System.Globalization;
using MathNet.Numerics.Statistics;
using NetTopologySuite.Algorithm.Locate;
using NetTopologySuite.Geometries;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen;

namespace Sandarac.Analysis.Tests.Luminescence;

/// <summary>The specimen against its truth: where later paint lies over the varnish and between its coats, and which dark paint is the painter's own.</summary>
public class SpecimenLuminescenceTests(SpecimenLuminescence run) : IClassFixture<SpecimenLuminescence>
{
    /// <summary>Share of visible light that the specimen's lamps and filter let through, per cent: as `Lights` of the specimen draws it.</summary>
    private static readonly double[] Leak = [2.0, 1.8, 7.5];

    [Fact]
    public void Known_additions_are_found_and_dark_original_paint_is_left_alone()
    {
        var (outcome, scene) = (run.WithBoards.Outcome, run.Scene);
        outcome = outcome with { Candidates = [.. Additions(outcome)] };
        var (over, under, dark) = (scene.Truth("retouching_over_varnish"), scene.Truth("retouching_under_varnish"), scene.Truth("dark_original"));
        double Added(Point2 mm) => Math.Max(over(mm), under(mm));
        var places = Places(outcome, mm => (Found: 1.0, Added: Added(mm), Dark: Added(mm) < 0.1 && dark(mm) > 0.5 ? 1.0 : 0)).ToList();
        var all = Lattice().Select(mm => (Added: Added(mm), Dark: Added(mm) < 0.1 && dark(mm) > 0.5 ? 1.0 : 0)).ToList();
        var (hit, found, there) = (places.Sum(p => p.Added), places.Count, all.Sum(p => p.Added));
        var (precision, recall) = (hit / found, hit / there);
        var false_ = places.Sum(p => p.Dark) / all.Sum(p => p.Dark);
        var wrong = outcome.Candidates.Count(c => Inside(c.Geometry).Average(Added) < 0.5);
        TestContext.Current.SendDiagnosticMessage(string.Create(CultureInfo.InvariantCulture, $"additions by area: precision {precision:0.000}, recall {recall:0.000}, F1 {2 * precision * recall / (precision + recall):0.000}; {outcome.Candidates.Count} places, {wrong} wrong; on dark original paint {100 * false_:0.00} % of its area"));
        Assert.InRange(2 * precision * recall / (precision + recall), 0.9, 1);
        Assert.InRange(false_, 0, 0.02);
        Assert.Equal(0, wrong);
        // All eleven places of the truth that are larger than the smallest size are hit.
        foreach (var (x, y) in ((double, double)[])[(414, 118), (212, 142), (490, 60), (306, 302), (110, 302), (240, 384), (505, 210), (262, 46), (60, 206), (356, 346), (150, 376)])
            Assert.Contains(outcome.Candidates, c => c.Geometry.Distance(new Point(x, y)) < 5);
    }

    [Fact]
    public void Known_leaked_light_is_measured_within_a_hundredth()
    {
        var figures = run.WithBoards.Outcome.Figures.Where(f => f.Name == "leaked-light").ToList();
        for (var b = 0; b < 3; b++)
        {
            TestContext.Current.SendDiagnosticMessage(string.Create(CultureInfo.InvariantCulture, $"leaked light, {figures[b].Subject}: {figures[b].Value:0.00} ± {figures[b].Uncertainty:0.00} %, truth {Leak[b]} %"));
            Assert.InRange(figures[b].Value!.Value, Leak[b] - 1, Leak[b] + 1);
        }
    }

    /// <summary>Without the boards the lamps' fall-off and the lens's vignetting stay in: the places are the same.</summary>
    [Fact]
    public void Uneven_lamps_change_no_place()
    {
        var (even, uneven) = (Of(Additions(run.WithBoards.Outcome)), Of(Additions(run.WithoutBoards.Outcome)));
        var overlap = even.Intersection(uneven).Area / even.Union(uneven).Area;
        TestContext.Current.SendDiagnosticMessage(string.Create(CultureInfo.InvariantCulture, $"with and without boards: intersection over union {overlap:0.0000}"));
        Assert.InRange(overlap, 0.98, 1);
    }

    [Fact]
    public void Known_varnish_is_mapped_and_its_cleaning_window_found()
    {
        var ((outcome, rasters), window, thickness) = (run.WithBoards, run.Scene.Truth("cleaning_window"), run.Scene.Thickness("19_aged_varnish", "21_later_varnish"));
        var additions = new IndexedPointInAreaLocator(Of(Additions(outcome)));
        var seen = Lattice().Where(mm => !Holds(additions, mm)).Select(mm => (Truth: thickness(mm), Map: (double)rasters["varnish"][0][(int)(mm.X / SpecimenOnPlane.MmPerPixel), (int)(mm.Y / SpecimenOnPlane.MmPerPixel)])).Where(p => double.IsFinite(p.Map)).ToList();
        var r = Correlation.Pearson(seen.Select(p => p.Truth), seen.Select(p => p.Map));
        List<Candidate> thin = [.. outcome.Candidates.Except(Additions(outcome))];
        var cleaned = new IndexedPointInAreaLocator(Of(thin));
        var (both, either) = (0, 0);
        foreach (var mm in Lattice().Where(mm => !Holds(additions, mm)))
        {
            var (there, found) = (window(mm) > 0.5, Holds(cleaned, mm));
            (both, either) = (both + (there && found ? 1 : 0), either + (there || found ? 1 : 0));
        }
        TestContext.Current.SendDiagnosticMessage(string.Create(CultureInfo.InvariantCulture, $"varnish against truth: r {r:0.000} over {seen.Count} places; cleaning window: intersection over union {both / (double)either:0.000}, {thin.Count} places"));
        Assert.InRange(r, 0.9, 1);
        Assert.InRange(both / (double)either, 0.9, 1);
        Assert.Equal("earlier-cleaning", Assert.Single(outcome.Candidates, c => c.Geometry.Distance(new Point(60, 110)) < 1).Kind);
    }

    [Fact]
    public void Known_additions_under_varnish_are_told_from_those_over_it()
    {
        var (outcome, over, under) = (run.WithBoards.Outcome, run.Scene.Truth("retouching_over_varnish"), run.Scene.Truth("retouching_under_varnish"));
        foreach (var place in Additions(outcome))
            Assert.Equal(Inside(place.Geometry).Sum(under) > Inside(place.Geometry).Sum(over) ? "veiled-addition" : "later-addition", place.Kind);
        Assert.Contains(outcome.Candidates, c => c.Kind == "veiled-addition");
        Assert.Contains(outcome.Candidates, c => c.Kind == "later-addition");
    }

    private static IEnumerable<Candidate> Additions(Outcome outcome) => outcome.Candidates.Where(c => c.Kind.EndsWith("-addition", StringComparison.Ordinal));

    private static Geometry Of(IEnumerable<Candidate> places) => GeometryFactory.Default.BuildGeometry([.. places.Select(c => c.Geometry)]).Union();

    private static bool Holds(IndexedPointInAreaLocator places, Point2 mm) => places.Locate(new Coordinate(mm.X, mm.Y)) == Location.Interior;

    private static IEnumerable<T> Places<T>(Outcome outcome, Func<Point2, T> of) => outcome.Candidates.SelectMany(c => Inside(c.Geometry)).Select(of);

    private static IEnumerable<Point2> Inside(Geometry geometry)
    {
        var locator = new IndexedPointInAreaLocator(geometry);
        return Lattice().Where(p => geometry.EnvelopeInternal.Contains(p.X, p.Y) && locator.Locate(new Coordinate(p.X, p.Y)) == Location.Interior);
    }

    private static IEnumerable<Point2> Lattice()
    {
        for (var y = 0.25; y < SpecimenPainting.HeightMm; y += 0.5)
            for (var x = 0.25; x < SpecimenPainting.WidthMm; x += 0.5) yield return new Point2(x, y);
    }
}
