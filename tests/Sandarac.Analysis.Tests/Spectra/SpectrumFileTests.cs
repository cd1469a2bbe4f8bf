using System.Globalization;
using System.Text;
using Sandarac.Analysis.Spectra;
using Sandarac.Analysis.Spectra.Files;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Spectra;

public class SpectrumFileTests
{
    private static readonly double[] Counts = [.. Enumerable.Range(0, 100).Select(i => (double)(i * i % 97))];

    private static Spectrum Read(string text, Encoding? encoding = null) => SpectrumFile.Parse((encoding ?? Encoding.UTF8).GetBytes(text), "a.msa");

    private static InputProblem Refused(string text) => Assert.Throws<InputProblem>(() => Read(text));

    private static string Emsa(string data, string? without = null, string? replace = null, string? by = null)
    {
        string[] keys = ["#FORMAT      : EMSA/MAS Spectral Data File", "#VERSION     : 1.0", "#TITLE       : Fläche 3", "#DATE        : 01-JAN-2024", "#TIME        : 10:00", "#OWNER       : studio", "#NPOINTS     : 100.",
            "#NCOLUMNS    : 1.", "#XUNITS      : eV", "#YUNITS      : counts", "#DATATYPE    : Y", "#XPERCHAN    : 20.0", "#OFFSET      : -40.0", "#BEAMKV   -kV: 40.0", "#LIVETIME  -s: 60.", "#SPECTRUM    : Spectral data starts here"];
        return string.Join("\r\n", keys.Where(k => without is null || !k.StartsWith($"#{without}", StringComparison.Ordinal)).Select(k => replace is not null && k.StartsWith($"#{replace}", StringComparison.Ordinal) ? by! : k)) + "\r\n" + data + "\r\n#ENDOFDATA   :\r\n";
    }

    private static string Ys() => string.Join(",\r\n", Counts.Select(c => c.ToString(CultureInfo.InvariantCulture)));

    /// <summary>A file as ISO 22029 (EMSA/MAS 1.0) describes it, data as Y; a title in Latin-1.</summary>
    [Fact]
    public void Known_EMSA_of_counts()
    {
        var s = Read(Emsa(Ys()), Encoding.Latin1);
        Assert.Equal(("Fläche 3", 40.0, 60.0), (s.Title, s.TubeKv!.Value, s.LiveSeconds!.Value));
        Assert.Equal(Counts, s.Counts);
        Assert.Equal(-0.04, s.Scale!.At(0), 1e-12);
        Assert.Equal(0.02, s.Scale.KevPerChannel, 1e-12);
        Assert.Empty(s.Warnings);
    }

    [Fact]
    public void Known_EMSA_of_pairs()
    {
        var pairs = string.Join("\r\n", Counts.Select((c, i) => string.Create(CultureInfo.InvariantCulture, $"{-40 + 20 * i}.0, {c}.")));
        Assert.Equal(Counts, Read(Emsa(pairs, replace: "DATATYPE", by: "#DATATYPE    : XY")).Counts);
    }

    [Theory]
    [InlineData("NPOINTS", "emsa-keyword")]
    [InlineData("XPERCHAN", "emsa-keyword")]
    [InlineData("OFFSET", "emsa-keyword")]
    [InlineData("XUNITS", "emsa-keyword")]
    [InlineData("DATATYPE", "emsa-keyword")]
    [InlineData("SPECTRUM", "emsa-header")]
    public void Invalid_without_a_keyword(string key, string code) => Assert.Equal(code, Refused(Emsa(Ys(), without: key)).Code);

    [Theory]
    [InlineData("NPOINTS", "#NPOINTS : 4000000000", "emsa-points")]
    [InlineData("NPOINTS", "#NPOINTS : 1e300", "emsa-points")]
    [InlineData("NPOINTS", "#NPOINTS : -5", "emsa-points")]
    [InlineData("NPOINTS", "#NPOINTS : 200", "spectrum-cut-off")]
    [InlineData("NPOINTS", "#NPOINTS : 99", "emsa-points")]
    [InlineData("NPOINTS", "#NPOINTS : many", "spectrum-number")]
    [InlineData("XUNITS", "#XUNITS : nm", "emsa-unit")]
    [InlineData("XPERCHAN", "#XPERCHAN : 0", "spectrum-scale")]
    [InlineData("XPERCHAN", "#XPERCHAN : NaN", "spectrum-number")]
    [InlineData("DATATYPE", "#DATATYPE : XYZ", "emsa-datatype")]
    [InlineData("FORMAT", "#FORMAT : something else", "emsa-format")]
    public void Invalid_keywords_are_refused_by_line(string key, string line, string code) => Assert.Equal(code, Refused(Emsa(Ys(), replace: key, by: line)).Code);

    [Theory]
    [InlineData("12", "NaN", "spectrum-number")]
    [InlineData("12", "Infinity", "spectrum-number")]
    [InlineData("12", "-3", "spectrum-negative")]
    [InlineData("12", "x", "spectrum-number")]
    [InlineData("12", "1e300", "spectrum-counts")]
    public void Invalid_counts_are_refused_by_line(string at, string value, string code)
    {
        var lines = Ys().Split("\r\n");
        lines[int.Parse(at, CultureInfo.InvariantCulture)] = $"{value},";
        var problem = Refused(Emsa(string.Join("\r\n", lines)));
        Assert.Equal(code, problem.Code);
        Assert.Contains("line 29", problem.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("channel;counts\n", ";", false)]
    [InlineData("Energie (keV);Zählungen\n", ";", true)]
    [InlineData("energy eV\tcounts\n", "\t", true)]
    [InlineData("# a note\nkeV,counts\n", ",", true)]
    [InlineData("", " ", false)]
    public void Known_tables(string heading, string separator, bool energies)
    {
        var (ev, comma) = (heading.Contains(" eV", StringComparison.Ordinal), heading.StartsWith("Energie", StringComparison.Ordinal));
        var text = heading + string.Join('\n', Counts.Select((c, i) => $"{(energies ? ((0.1 + 0.02 * i) * (ev ? 1000 : 1)).ToString("0.####", CultureInfo.InvariantCulture) : i.ToString(CultureInfo.InvariantCulture)).Replace('.', comma ? ',' : '.')}{separator}{c}"));
        var s = Read(text);
        Assert.Equal(Counts, s.Counts);
        if (energies) Assert.Equal(0.12, s.Scale!.At(1), 1e-6);
        else Assert.Null(s.Scale);
    }

    [Fact]
    public void Known_column_of_counts_and_sections()
    {
        Assert.Equal(Counts, Read("# notes\n" + string.Join('\n', Counts.Select(c => $"{c}.0E+00"))).Counts);
        var s = Read($"$SPEC_ID:\na\n$MEAS_TIM:\n60 61\n$DATA:\n0 99\n{string.Join(' ', Counts)}\n$MCA_CAL:\n2\n0.01 0.02 keV\n");
        Assert.Equal(Counts, s.Counts);
        Assert.Equal((60.0, 0.03), (s.LiveSeconds!.Value, Math.Round(s.Scale!.At(1), 9)));
    }

    [Theory]
    [InlineData("", "spectrum-empty")]
    [InlineData("   \n\n", "spectrum-empty")]
    [InlineData("keV,counts\n", "spectrum-empty")]
    [InlineData("1\n2\n3\n", "spectrum-channels")]
    [InlineData("\0\u0001\u0002PNG", "spectrum-not-text")]
    [InlineData("$DATA:\n0 2047\n1 2 3\n", "spectrum-cut-off")]
    [InlineData("$SPEC_ID:\nnothing\n", "spe-section")]
    [InlineData("$DATA:\n", "spe-section")]
    public void Invalid_files_are_refused(string text, string code) => Assert.Equal(code, Refused(text).Code);

    [Fact]
    public void Invalid_tables_are_refused_by_line()
    {
        string Table(Func<int, string> row) => "keV,counts\n" + string.Join('\n', Enumerable.Range(0, 100).Select(row));
        Assert.Equal("spectrum-columns", Refused(Table(i => i == 50 ? "1" : $"{i},1")).Code);
        Assert.Equal("spectrum-axis", Refused(Table(i => i == 50 ? "7,1" : $"{i},1")).Code);
        Assert.Equal("spectrum-axis", Refused(Table(i => $"{-i},1")).Code);
        Assert.Equal("spectrum-negative", Refused(Table(i => $"{i},{(i == 50 ? -1 : 1)}")).Code);
        Assert.Equal("spectrum-no-counts", Refused(Table(i => $"{i},0")).Code);
    }

    [Fact]
    public void A_huge_file_is_refused_before_it_is_read() => Assert.Equal("spectrum-too-large", Assert.Throws<InputProblem>(() => SpectrumFile.Parse(new byte[SpectrumFile.MostBytes + 1], "a")).Code);

    [Theory]
    [InlineData("1\n")]
    [InlineData("1\r")]
    [InlineData("1,1\r\n")]
    [InlineData("\n")]
    public void Ten_million_channels_are_refused_before_they_are_parsed(string line) =>
        Assert.Contains(Refused(string.Concat(Enumerable.Repeat(line, 7_500_000 / line.Length))).Code, (string[])["spectrum-channels", "spectrum-too-large"]);

    [Fact]
    public void What_was_not_counted_is_said()
    {
        Assert.Contains(Read(string.Join('\n', Counts.Select(c => (c + 0.5).ToString(CultureInfo.InvariantCulture)))).Warnings, w => w.Code == "spectrum-not-counts");
        Assert.Contains(Read(Emsa(Ys(), without: "OWNER")).Warnings, w => w.Code == "emsa-incomplete");
    }
}
