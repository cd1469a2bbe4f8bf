using System.Globalization;
using NetTopologySuite.Algorithm.Locate;
using NetTopologySuite.Geometries;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Luminescence;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen;

namespace Sandarac.Analysis.Tests.Luminescence;

/// <summary>The specimen against its truth: where later paint lies over the varnish and between its coats, and which dark paint is the painter's own.</summary>
public class SpecimenLuminescenceTests(SpecimenFixture specimen)
{
    /// <summary>Share of visible light that the specimen's lamps and filter let through, per cent: as `Lights` of the specimen draws it.</summary>
    private static readonly double[] Leak = [2.0, 1.8, 7.5];

    [Fact]
    public void Known_additions_are_found_and_dark_original_paint_is_left_alone()
    {
        using var scene = new SpecimenOnPlane(specimen);
        var outcome = Run(scene, boards: true);
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
        using var scene = new SpecimenOnPlane(specimen);
        var figures = Run(scene, boards: true).Figures.Where(f => f.Name == "leaked-light").ToList();
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
        using var scene = new SpecimenOnPlane(specimen);
        var (even, uneven) = (Union(Run(scene, boards: true)), Union(Run(scene, boards: false)));
        var overlap = even.Intersection(uneven).Area / even.Union(uneven).Area;
        TestContext.Current.SendDiagnosticMessage(string.Create(CultureInfo.InvariantCulture, $"with and without boards: intersection over union {overlap:0.0000}"));
        Assert.InRange(overlap, 0.98, 1);
    }

    private static Outcome Run(SpecimenOnPlane scene, bool boards)
    {
        List<(string, InputImage)> images = [("luminescence", scene.Open("UVL_01.tif", Light.Luminescence)), ("visible", scene.Open("VIS_01.tif", Light.Visible))];
        if (boards) images.AddRange([("luminescence-board", scene.Own("UVL_flat.tif", Light.Luminescence)), ("visible-board", scene.Own("VIS_flat.tif", Light.Visible))]);
        return TestRun.Of(new LuminescenceReading(), images).Outcome;
    }

    private static Geometry Union(Outcome outcome) => GeometryFactory.Default.BuildGeometry([.. outcome.Candidates.Select(c => c.Geometry)]).Union();

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
