using NetTopologySuite.Geometries;
using Sandarac.Imaging;
using Sandarac.Specimen.Scoring;

namespace Sandarac.Specimen.Tests.Scoring;

/// <summary>Against counts by hand on squares.</summary>
public sealed class ScoringTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("sandarac-score-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Known_squares_are_counted_as_by_hand()
    {
        // Truth: squares of 10 and 4 mm. Found: the left half of the first and as much beside it; one elsewhere.
        var score = ZoneScore.Of([Square(15, 10, 10), Square(300, 300, 5)], Truth((20, 10, 10), (100, 100, 4)));
        Assert.Equal(50.0 / 125, score.AreaPrecision, 1e-9);
        Assert.Equal(50.0 / 116, score.AreaRecall, 1e-9);
        Assert.Equal(50.0 / (125 + 116 - 50), score.Overlap, 1e-9);
        Assert.Equal((2, 1, 2, 1), (score.Places, score.RightPlaces, score.Objects, score.HitObjects));
        Assert.Equal(0.5, score.ObjectF1, 1e-9);
    }

    [Fact]
    public void Ignored_points_count_neither_way()
    {
        var truth = Truth((20, 10, 10));
        var ignored = Truth((25, 10, 10)).Select(t => t > 0).ToArray();
        var score = ZoneScore.Of([Square(20, 10, 10)], truth, ignored);
        Assert.Equal((1.0, 1.0, 1.0), (score.AreaPrecision, score.AreaRecall, score.Overlap));
    }

    [Fact]
    public void Extreme_nothing_found_has_no_precision_and_an_f1_of_zero()
    {
        var score = ZoneScore.Of([], Truth((20, 10, 10)));
        Assert.True(double.IsNaN(score.AreaPrecision));
        Assert.Equal((0.0, 0.0, 0.0), (score.AreaF1, score.ObjectF1, score.AreaRecall));
    }

    [Fact]
    public void Roundtrip_zones_are_read_from_geojson()
    {
        var zones = FoundZones.Read(Write("""{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"kind":"later-addition"},"geometry":{"type":"Polygon","coordinates":[[[1,2],[5,2],[5,4],[1,4],[1,2]]]}}]}"""));
        Assert.Equal(("later-addition", 8.0), (zones[0].Kind, zones[0].Place.Area));
    }

    [Theory]
    [InlineData("")]
    [InlineData("{}")]
    [InlineData("""{"features":[{}]}""")]
    [InlineData("""{"features":[{"properties":{"kind":null},"geometry":{"type":"Polygon","coordinates":[[[1,2],[5,2],[5,4],[1,2]]]}}]}""")]
    [InlineData("""{"features":[{"properties":{"kind":"x"},"geometry":{"type":"Point","coordinates":[1,2]}}]}""")]
    [InlineData("""{"features":[{"properties":{"kind":"x"},"geometry":{"type":"Polygon","coordinates":[[[0,0],[5,5],[5,0],[0,5],[0,0]]]}}]}""")]
    [InlineData("""{"features":7}""")]
    public void Invalid_zones_are_refused(string text) => Assert.Equal("zones-file", Assert.Throws<InputProblem>(() => FoundZones.Read(Write(text))).Code);

    [Fact]
    public void Invalid_a_folder_without_truth_is_refused() => Assert.Equal("no-truth", Assert.Throws<InputProblem>(() => SpecimenScore.Of(_folder, [])).Code);

    private string Write(string text)
    {
        var path = Path.Combine(_folder, "zones.geojson");
        File.WriteAllText(path, text);
        return path;
    }

    private static Polygon Square(double left, double top, double side) => (Polygon)GeometryFactory.Default.ToGeometry(new Envelope(left, left + side, top, top + side));

    private static float[] Truth(params (double Left, double Top, double Side)[] squares)
    {
        var truth = new float[TruthLattice.Columns * TruthLattice.Rows];
        foreach (var (left, top, side) in squares)
            foreach (var i in TruthLattice.Inside(Square(left, top, side))) truth[i] = 1;
        return truth;
    }
}
