using System.Globalization;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Infrared;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Tests.Luminescence;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen;

namespace Sandarac.Analysis.Tests.Infrared;

/// <summary>The specimen against its truth: drawing in carbon under the paint, and a skiff that the painter gave up and covered.</summary>
public class SpecimenInfraredTests(DetailedSpecimenFixture specimen)
{
    private const double Tolerance = 0.5;

    /// <summary>
    /// Precision is the share of the proposed lines' length that lies within the tolerance of drawing; recall the share of the drawing's area within the tolerance and half a drawn line (0.5 mm) of a proposed line. All drawing counts, also what
    /// lead white or a line of the surface hides. The rest of what is proposed is mostly other dark strokes below the surface. The aim is an F1 of 0.85: it is not reached, and the bounds only keep what is reached from falling.
    /// </summary>
    [Fact, Trait("Speed", "slow")]
    public void Known_drawing_and_the_covered_skiff_are_proposed()
    {
        using var scene = new SpecimenOnPlane(specimen, 0.3);
        var outcome = TestRun.Of(new InfraredReading(), [("infrared", scene.Open("IR_01.tif", Light.Infrared)), ("visible", scene.Open("VIS_01.tif", Light.Visible))]).Outcome;
        var (drawing, skiff) = (scene.Truth("underdrawing"), scene.Truth("given-up_skiff"));
        var lines = outcome.Candidates.Where(c => c.Kind == "underdrawing").ToList();
        double Precision(IEnumerable<Candidate> of) => of.SelectMany(Along).Average(p => Near(drawing, p) ? 1.0 : 0);
        var index = new STRtree<Point2>();
        foreach (var p in lines.SelectMany(Along)) index.Insert(new Envelope(p.X, p.X, p.Y, p.Y), p);
        bool Found(Point2 p) => index.Query(new Envelope(p.X - 1, p.X + 1, p.Y - 1, p.Y + 1)).Any(q => q.DistanceTo(p) <= Tolerance + 0.5);
        var there = Lattice(0.5).Where(p => drawing(p) > 0.5).ToList();
        var (precision, recall) = (Precision(lines), there.Average(p => Found(p) ? 1.0 : 0));
        var (sure, unsure) = (Precision(lines.Where(l => l.Confidence >= 0.6)), Precision(lines.Where(l => l.Confidence < 0.3)));
        var changes = outcome.Candidates.Where(c => c.Kind == "change").ToList();
        var covered = Lattice(1).Where(p => skiff(p) > 0.5).ToList();
        double Share(Candidate c) => covered.Average(p => c.Geometry.Contains(new Point(p.X, p.Y)) ? 1.0 : 0);
        TestContext.Current.SendDiagnosticMessage(string.Create(CultureInfo.InvariantCulture, $"drawing: precision {precision:0.000}, recall {recall:0.000}, F1 {2 * precision * recall / (precision + recall):0.000}; {lines.Count} lines; precision of sure ones {sure:0.000}, of doubtful ones {unsure:0.000}; {changes.Count} areas, skiff within one {changes.Max(Share):0.000}"));
        Assert.InRange(precision, 0.4, 1);
        Assert.InRange(recall, 0.4, 1);
        Assert.True(sure > unsure + 0.2, "confidence orders the lines");
        // More than half of the skiff lies within one proposed area.
        Assert.InRange(changes.Max(Share), 0.5, 1);
        Assert.InRange(changes.Count, 1, 10);
    }

    private static IEnumerable<Point2> Along(Candidate line)
    {
        var along = new NetTopologySuite.LinearReferencing.LengthIndexedLine(line.Geometry);
        for (var at = 0.0; at < line.Geometry.Length; at += 0.2)
            if (along.ExtractPoint(at) is { } c) yield return new Point2(c.X, c.Y);
    }

    private static bool Near(Func<Point2, double> mask, Point2 p)
    {
        for (var v = -Tolerance; v <= Tolerance; v += 0.1)
            for (var u = -Tolerance; u <= Tolerance; u += 0.1)
                if (u * u + v * v <= Tolerance * Tolerance && mask(new Point2(p.X + u, p.Y + v)) > 0.5) return true;
        return false;
    }

    private static IEnumerable<Point2> Lattice(double step)
    {
        for (var y = step / 2; y < SpecimenPainting.HeightMm; y += step)
            for (var x = step / 2; x < SpecimenPainting.WidthMm; x += step) yield return new Point2(x, y);
    }
}
