using System.Text;
using Sandarac.Analysis.Rings;
using Sandarac.Analysis.Rings.Files;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Rings;

public class RingFileTests
{
    private static IReadOnlyList<RingWidths> Parse(string text, string name = "test.rwl") => RingFile.Parse(name, new MemoryStream(Encoding.UTF8.GetBytes(text)));

    /// <summary>Counts and first values as they stand in the files (awk over the first eight columns).</summary>
    [Fact]
    public void Known_public_files_are_read()
    {
        var (west, east) = (RingReference.Series("co021.rwl"), RingReference.Series("nc004.rwl"));
        Assert.Equal((35, 30), (west.Count, east.Count));
        Assert.Equal(("641114", 1270, 1963), (west[0].Id, west[0].FirstYear, west[0].LastYear));
        Assert.Equal([1.48, 2.33, 1.32, 0.67], west[0].Widths.Take(4));
        Assert.Equal(("110011", 1780, 3.03), (east[0].Id, east[0].FirstYear, east[0].Widths[0]));
    }

    [Fact]
    public void Hundredths_and_thousandths_are_told_by_the_end_marker()
    {
        var series = RingReference.Series("min.rwl");
        Assert.Equal(["SeriesA", "SeriesB"], series.Select(s => s.Id));
        Assert.Equal([0.1, 0.3, 0.5, 0.7], series[0].Widths);
        Assert.Equal([0.2, 0.4, 0.6, 0.8], series[1].Widths);
    }

    [Fact]
    public void Heading_absent_and_unmeasured_rings_gaps_and_years_before_the_first_are_read()
    {
        var series = Parse("""
            OAK001 1 A panel, three boards                               Quercus
            OAK001 2 Made up for a test
            OAK001 3
            OAK00001  -4   100     0  -999   120
            OAK00001   0   130   140   150   999
            OAK00001  10    90   999
            LONGID8A1298   110   999
            LONGID8A1300   120   999
            BCSERIE-1203  1100  1200  1300
            BCSERIE-1200   999   900 -9999
            """);
        Assert.Equal(["OAK00001", "LONGID8A", "BCSERIE"], series.Select(s => s.Id));
        Assert.Equal((-4, 10), (series[0].FirstYear, series[0].LastYear));
        Assert.Equal([1, 0, double.NaN, 1.2, 1.3, 1.4, 1.5, .. Enumerable.Repeat(double.NaN, 7), 0.9], series[0].Widths);
        Assert.Equal([1.1, double.NaN, 1.2], series[1].Widths);
        Assert.Equal((-1203, -1199), (series[2].FirstYear, series[2].LastYear));
        Assert.Equal([1.1, 1.2, 1.3, 0.999, 0.9], series[2].Widths);
    }

    /// <summary>In thousandths a line may end with 0.999 mm, which is no end.</summary>
    [Fact]
    public void A_width_of_999_thousandths_at_the_end_of_a_line_is_a_width() =>
        Assert.Equal([0.9, 0.999, 0.8, 0.7], Parse("ABCDEF  1228   900   999\nABCDEF  1230   800   700 -9999\n")[0].Widths);

    [Fact]
    public void Years_without_a_year_0_are_counted_with_one() =>
        Assert.Equal((-1, 1), Parse("ABCDEF    -2   900   800\nABCDEF     1   700 -9999\n") is [var s] ? (s.FirstYear, s.LastYear) : (0, 0));

    [Fact]
    public void Roundtrip_keeps_micrometres()
    {
        RingWidths[] series = [new("OAK-1", -1203, [1.234, 0, double.NaN, 0.999, 2.5, 1.001, 0.4]), new("OAK-2", 1588, [.. Enumerable.Range(1, 40).Select(i => i / 8.0)])];
        var back = Parse(TucsonFile.Write(series));
        Assert.Equal(["OAK1", "OAK2"], back.Select(s => s.Id));
        Assert.Equal(series.Select(s => s.FirstYear), back.Select(s => s.FirstYear));
        Assert.Equal(series[0].Widths, back[0].Widths);
        Assert.Equal(series[1].Widths, back[1].Widths);
        Assert.All(RingReference.Series("co021.rwl").Zip(Parse(TucsonFile.Write(RingReference.Series("co021.rwl")))), p => Assert.Equal(p.First.Widths, p.Second.Widths));
        var table = Parse(RingTable.Write(series), "test.csv");
        Assert.Equal(series.SelectMany(s => s.Widths), table.SelectMany(s => s.Widths));
        Assert.Equal(series.Select(s => s.Id), table.Select(s => s.Id));
    }

    [Fact]
    public void A_table_may_have_no_dates_and_decimal_commas()
    {
        var series = Parse("ring;board A;board B\n1;1,25;\n2;1,5;0,7\n3;;0,8\n", "t.csv");
        Assert.Equal([1.25, 1.5], series[0].Widths);
        Assert.Equal((2, false), (series[1].FirstYear, series[1].IsDated));
    }

    [Theory]
    [InlineData("", "rings-empty")]
    [InlineData("   \n\n", "rings-empty")]
    [InlineData("\0\0\0PNG", "rings-not-text")]
    [InlineData("one\ntwo\n", "rings-empty")]
    [InlineData("one\ntwo\nthree\nfour\n", "rings-line")]
    [InlineData("ABCDEF  1980   100   110\n", "rings-unended")]
    [InlineData("ABCDEF  1980   999\n", "rings-empty")]
    [InlineData("ABCDEF  1980   100   110\nABCDEF  1990   100   999\n", "rings-years")]
    [InlineData("ABCDEF  1980   100   999\nABCDEF  1970   100   999\n", "rings-years")]
    [InlineData("ABCDEF  1980   100   999\nGHIJKL  1980   100   999\nABCDEF  1990   100   999\n", "rings-twice")]
    [InlineData("ABCDEF  1980   100   -50   999\n", "rings-width")]
    [InlineData("ABCDEF  1980   100   999   110   999\n", "rings-width")]
    [InlineData("ABCDEF  1980 99999   999\n", "rings-width")]
    [InlineData("ABCDEF  1980   100   999\nhalf a li", "rings-line")]
    [InlineData("ABCDEF  9980   100   999\n", "rings-years")]
    [InlineData("A 2147483647 100 999\n", "rings-years")]
    [InlineData("A -15000 1 999\nA 2000 1 999\nA 2147483640 1 999", "rings-years")]
    [InlineData("A 1 1 2 3 4 5 6 7 8 9 10 11 12 999\n", "rings-line")]
    public void Invalid_files_are_refused_with_the_line(string text, string code) => Assert.Equal(code, Assert.Throws<InputProblem>(() => Parse(text)).Code);

    [Theory]
    [InlineData("width,year\n1,2\n", "rings-heading")]
    [InlineData("year\n1\n", "rings-heading")]
    [InlineData("year,A,A\n1,2,3\n", "rings-heading")]
    [InlineData("year,A\n", "rings-empty")]
    [InlineData(",,\n,,\n", "rings-empty")]
    [InlineData("year,\"A\n1500,1\n", "rings-empty")]
    [InlineData("year,A\n1500,\n", "rings-empty")]
    [InlineData("year,A\n1500,1\n1502,1\n", "rings-years")]
    [InlineData("year,A\nold,1\n", "rings-years")]
    [InlineData("year,A\n999999999,1\n", "rings-years")]
    [InlineData("year,A\n1500,-1\n", "rings-width")]
    [InlineData("year,A\n1500,NaN\n", "rings-width")]
    [InlineData("year,A\n1500,123\n1501,140\n", "rings-unit")]
    public void Invalid_tables_are_refused_with_the_row(string text, string code) => Assert.Equal(code, Assert.Throws<InputProblem>(() => Parse(text, "t.csv")).Code);

    [Fact]
    public void Extreme_files_are_refused_before_they_fill_the_memory()
    {
        Assert.Equal("rings-too-large", Assert.Throws<InputProblem>(() => RingFile.Parse("big.rwl", new MemoryStream(new byte[RingFile.LargestBytes + 1]))).Code);
        Assert.Equal("rings-too-large", Assert.Throws<InputProblem>(() => Parse(string.Concat(Enumerable.Range(0, 1000).Select(i => $"S{i} -15000 1 999\nS{i} 2000 1 999\n")))).Code);
        Assert.Equal("rings-too-large", Assert.Throws<InputProblem>(() => Parse(string.Concat(Enumerable.Range(0, 20001).Select(i => $"S{i} 1900 1 999\n")))).Code);
        Assert.Equal("rings-too-large", Assert.Throws<InputProblem>(() => Parse($"year{string.Concat(Enumerable.Range(0, 20001).Select(i => $",S{i}"))}\n1900,1\n", "t.csv")).Code);
        Assert.Equal("file-not-read", Assert.Throws<InputProblem>(() => RingFile.Read(RingReference.Path("none.rwl"))).Code);
        Assert.Equal("rings-id", Assert.Throws<InputProblem>(() => TucsonFile.Write([new("board number 1", 1500, [1]), new("board number 2", 1500, [1])])).Code);
    }

    /// <summary>Whatever a file holds, it is read or refused in words.</summary>
    [Fact]
    public void Random_damage_is_read_or_refused_in_words()
    {
        var whole = File.ReadAllText(RingReference.Path("nc004.rwl"))[..6000];
        var random = new Random(7);
        for (var i = 0; i < 2000; i++)
        {
            var text = new StringBuilder(whole[..random.Next(whole.Length)]);
            for (var n = random.Next(4); n > 0 && text.Length > 0; n--) text[random.Next(text.Length)] = (char)random.Next(1, 256);
            try
            {
                Assert.NotEmpty(Parse(text.ToString()));
            }
            catch (InputProblem problem)
            {
                Assert.NotEmpty(problem.Remedy);
            }
        }
    }
}
