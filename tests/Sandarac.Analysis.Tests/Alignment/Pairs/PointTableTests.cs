using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Pairs;

public class PointTableTests
{
    [Fact]
    public void Roundtrip_to_six_decimals()
    {
        using var folder = new TempFolder();
        Point2[] points = [new(0.5, 0.5), new(-12.3456789, 1e6), new(1.0 / 3, 2e-7), new(0, 4000)];
        PointTable.Write(folder["p.csv"], points);
        Assert.Equal("x,y", File.ReadLines(folder["p.csv"]).First());
        var back = PointTable.Read(folder["p.csv"]);
        Assert.Equal(4, back.Count);
        for (var i = 0; i < 4; i++) Assert.InRange(back[i].DistanceTo(points[i]), 0, 7.1e-7);
    }

    /// <summary>The first line is a header whatever it says; empty lines, blanks and further columns are let be.</summary>
    [Fact]
    public void Known_forms_are_read() =>
        Assert.Equal([new Point2(1.5, 2), new Point2(-3, 40), new Point2(5, 6)], Read("u;v;note\n1.5,2\n\n -3 ; 4e1 ;crack, long\r\n5\t6\n"));

    [Theory]
    [InlineData("")]
    [InlineData("x,y")]
    [InlineData("x,y\n\n  \n")]
    public void Extreme_no_points(string text) => Assert.Empty(Read(text));

    [Theory]
    [InlineData("x,y\n1,2\n3", 3)]
    [InlineData("x,y\none,two", 2)]
    [InlineData("x,y\n1,\n", 2)]
    [InlineData("x,y\n1,NaN", 2)]
    [InlineData("x,y\n1,2\n\n1e999,0", 4)]
    public void Invalid_lines_are_named_by_number(string text, int line)
    {
        var problem = Assert.Throws<InputProblem>(() => Read(text));
        Assert.Equal("points-faulty", problem.Code);
        Assert.Contains($"Line {line} ", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Invalid_missing_file_or_folder()
    {
        using var folder = new TempFolder();
        Assert.Equal("points-unreadable", Assert.Throws<InputProblem>(() => PointTable.Read(folder["none.csv"])).Code);
        Assert.Equal("points-unreadable", Assert.Throws<InputProblem>(() => PointTable.Read(folder.Path)).Code);
    }

    private static IReadOnlyList<Point2> Read(string text)
    {
        using var folder = new TempFolder();
        File.WriteAllText(folder["p.csv"], text);
        return PointTable.Read(folder["p.csv"]);
    }
}
