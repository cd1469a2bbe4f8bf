using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Specimen.Scoring;
using Sandarac.Specimen.Sections;
using NetTopologySuite.Geometries;

namespace Sandarac.Analysis.Tests.Sections;

/// <summary>Witness: bands drawn by a formula, whose boundaries lie at y = 75, 105, 125 and 185, and a drawn section, whose truth is known.</summary>
public sealed class SteeringTests : IDisposable
{
    private readonly TempFolder _folder = new();

    private readonly string _bands;

    public SteeringTests() => _bands = TestTiff.Write16(_folder["bands.tif"], LayersReadingTests.Drawn(0));

    public void Dispose() => _folder.Dispose();

    private Outcome Read(params string[] steps) => ReadFile(_bands, "proposed", steps);

    private static Outcome ReadFile(string file, string boundaries, params string[] steps) =>
        TestRun.Of(new LayersReading(), [("visible", TestRun.Open(file, null, 0.001))], new() { ["boundaries"] = boundaries, ["clicks"] = steps.Length == 0 ? "" : $$"""{"type":"FeatureCollection","features":[{{string.Join(',', steps)}}]}""" }).Outcome;

    private static string Step(string type, string coordinates, string properties = "") => "{\"type\":\"Feature\",\"properties\":{" + properties + "},\"geometry\":{\"type\":\"" + type + "\",\"coordinates\":" + coordinates + "}}";

    private static string Click(double x, double y, string properties = "") => Step("Point", string.Create(CultureInfo.InvariantCulture, $"[{x},{y}]"), properties);

    private static string Out(double x, double y) => Click(x, y, "\"edit\":\"remove\"");

    private static string Line(IEnumerable<(double X, double Y)> places, string properties = "") =>
        Step("LineString", $"[{string.Join(',', places.Select(p => string.Create(CultureInfo.InvariantCulture, $"[{p.X},{p.Y}]")))}]", properties);

    private static IEnumerable<(double, double)> Course(double from, double to, Func<double, double> height) => Enumerable.Range(0, (int)((to - from) / 2) + 1).Select(i => (from + 2 * i, height(from + 2 * i)));

    private static double Mean(Outcome outcome, int layer) => outcome.Figures.Single(f => f.Name == "thickness-mean" && f.Subject == $"layer {layer}").Value!.Value;

    private static Geometry[] Lines(Outcome outcome) => [.. outcome.Candidates.Where(c => c.Kind == "layer-boundary").Select(c => c.Geometry)];

    /// <summary>Where boundaries are followed is where they lie, whether the strata lie along the pixels' rows or not: within a quarter of a pixel, half of what the thickness's uncertainty allows a boundary at least.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(-11)]
    public void FollowedBoundariesLieInTheirPlaces(double degrees)
    {
        var (lines, across) = (Lines(ReadFile(TestTiff.Write16(_folder["turned.tif"], LayersReadingTests.Drawn(degrees)), "proposed")), (double[])[185, 125, 105, 75]);
        Assert.Equal(4, lines.Length);
        var (c, s) = (Math.Cos(degrees * Math.PI / 180), Math.Sin(degrees * Math.PI / 180));
        for (var k = 0; k < 4; k++)
            Assert.Equal(across[k], lines[k].Coordinates.Skip(1).SkipLast(1).Average(p => 130 + c * (p.Y - 130) - s * (p.X - 210)), 0.25);
    }

    /// <summary>No light shows this boundary: what is measured is what was drawn.</summary>
    [Fact]
    public void DrawnBoundaryIsMeasuredAsDrawn()
    {
        var drawn = Read(Line(Course(0, 420, _ => 150.3)));
        Assert.Equal(4, drawn.Figures.Single(f => f.Name == "layers").Value);
        Assert.Equal(185 - 150.3, Mean(drawn, 1), 0.25);
        Assert.Equal(150.3 - 125, Mean(drawn, 2), 0.25);
    }

    /// <summary>The stretch is exactly as drawn (places at the middles of columns; lines leave out those nearer than 0.1 px to the line between others), the rest of that boundary is followed as before.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(-11)]
    public void DrawnStretchIsExactAndJoinedToTheRest(double degrees)
    {
        var (c, s) = (Math.Cos(degrees * Math.PI / 180), Math.Sin(degrees * Math.PI / 180));
        (double, double) InImage((double X, double Y) p) => (210 + c * (p.X - 210) - s * (p.Y - 130), 130 + s * (p.X - 210) + c * (p.Y - 130));
        var file = degrees == 0 ? _bands : TestTiff.Write16(_folder["turned.tif"], LayersReadingTests.Drawn(degrees));
        var (first, stretch) = (ReadFile(file, "proposed"), Course(160, 260, u => 125 + 7 * Math.Sin((u - 160) * Math.PI / 100)).Select(InImage).ToArray());
        var lines = Lines(ReadFile(file, "proposed", Line(stretch)));
        Assert.Equal(4, lines.Length);
        Assert.All(stretch.Skip(1).SkipLast(1), p => Assert.True(lines[1].Distance(new Point(p.Item1, p.Item2)) < 0.11));
        foreach (var u in (double[])[60, 120, 140, 280, 300, 360])
            Assert.True(lines[1].Distance(new Point(InImage((u, 125)).Item1, InImage((u, 125)).Item2)) < 1);
        Assert.True(Lines(first)[1].Distance(new Point(stretch[25].Item1, stretch[25].Item2)) > 5);
    }

    /// <summary>Drawing along the truth gives the truth; seed 1003 has seven layers, one of them not everywhere.</summary>
    [Fact]
    public void TruthDrawnIsTruthMeasured()
    {
        SectionSpecimens.Draw(1003, _folder.Path, cancellation: TestContext.Current.CancellationToken);
        var truth = SectionScore.Read(_folder.Path, 1003);
        var lines = Lines(ReadFile(Path.Combine(_folder.Path, "photographs", SectionSpecimens.FileName(1003, "VIS")), "clicked",
            [.. Enumerable.Range(0, truth.Layers + 1).Select(b => Line(truth.Boundaries[b].Coordinates.Select(p => (p.X, p.Y))))]));
        Assert.Equal(truth.Layers + 1, lines.Length);
        Assert.All(Enumerable.Range(0, lines.Length), b => Assert.True(truth.MeanError(b, (LineString)lines[b]) < 0.2));
    }

    /// <summary>Two layers become one; without the step all is as it was, and a click there brings the boundary back.</summary>
    [Fact]
    public void RemovalMergesLayersAndUndoRestoresThem()
    {
        var (before, removed) = (Read(), Read(Out(210, 105)));
        Assert.Equal(3, Lines(removed).Length);
        Assert.Equal(125 - 75, Mean(removed, 2), 0.5);
        Assert.Equal(Mean(before, 1), Mean(removed, 1), 0.5);
        Assert.Equal(before.Figures, Read().Figures);
        Assert.Equal(Mean(before, 2), Mean(Read(Out(210, 105), Click(210, 105)), 2), 0.2);
        // What is taken out stands in nobody's way.
        Assert.Equal(4, Lines(Read(Out(210, 125), Line(Course(100, 300, x => 116 + (x - 100) / 6)))).Length);
        // What a click added goes with it.
        var added = Click(210, 155, "\"boundary\":\"b1\"");
        Assert.Equal(5, Lines(Read(added)).Length);
        Assert.Equal(4, Lines(Read(added, Click(210, 155, "\"boundary\":\"b1\",\"edit\":\"remove\""))).Length);
    }

    /// <summary>A place far off moves the boundary that is meant, and adds none.</summary>
    [Fact]
    public void MeantBoundaryIsTheOneThatMoves()
    {
        var stretch = Course(100, 300, _ => 155).ToArray();
        Assert.Equal(5, Lines(Read(Line(stretch))).Length);
        var moved = Lines(Read(Line(stretch, "\"meant\":[200,125]")));
        Assert.Equal(4, moved.Length);
        Assert.True(moved[1].Distance(new Point(200, 155)) < 0.11);
    }

    [Fact]
    public void BadStepsAreRefused()
    {
        var along = Line(Course(100, 300, _ => 150));
        string[][] bad =
        [
            [Line(Course(100, 300, x => 60 + (x - 100) / 2))], [along, Line([(100, 140), (300, 165)])], [Line([(100, 150), (300, 150), (200, 140)])], [Line([(200, 140), (200, 170)])], [Line([(200, 150), (200, 150)])],
            [Line([(100, 150), (500, 150)])], [Line([(100, 150), (300, -5)])], [Line(Enumerable.Range(0, 20_000).Select(i => (i * 0.02, 150.0)))], [Step("LineString", "[[1e999,150],[200,150]]")], [Step("LineString", "[[NaN,150],[200,150]]")],
            [Line(Course(100, 300, _ => 150), "\"boundary\":\"b1\""), Click(200, 160, "\"boundary\":\"b1\"")], [Click(200, 105, "\"edit\":\"smooth\"")], [Line(Course(100, 300, _ => 105), "\"edit\":\"remove\"")], [Out(210, 155)],
            [Step("Polygon", "[[[1,1],[50,1],[50,50],[1,1]]]")], [Click(200, 105, "\"meant\":\"there\"")],
        ];
        foreach (var steps in bad)
        {
            var problem = Assert.Throws<InputProblem>(() => Read(steps));
            Assert.Equal("clicks", problem.Code);
            Assert.NotEmpty(problem.Remedy);
        }
    }
}
