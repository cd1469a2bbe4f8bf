using System.Text;
using Sandarac.Analysis.Spectra;
using Sandarac.Imaging;
using Sandarac.Materials.Dating;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.Datings;
using Sandarac.Studio.Datings.Drawing;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Plans;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Datings;

public sealed class DatingDeskTests(PostgresServer server)
{
    private const string User = "marta";

    private static MaterialFoundContent Stated(string material) => new() { Material = material, Basis = "particles in the section", Confidence = Certainty.Probable };

    private static void Date(PlanRecords records, int? from, int? to)
    {
        using var db = records.Studio.CreateDb();
        var painting = db.Paintings.Find(records.Painting.Id)!;
        (painting.DateFrom, painting.DateTo) = (from, to);
        db.SaveChanges();
    }

    /// <summary>Iron and calcium lines of the X-ray Data Booklet, as ISO 22029 writes them.</summary>
    internal static byte[] Spectrum(double height = 4000)
    {
        double At(int c, double kev, double counts) => counts * Math.Exp(-0.5 * Math.Pow((0.02 * c - kev) / 0.064, 2));
        var counts = Enumerable.Range(0, 1024).Select(c => (long)Math.Round(20 + At(c, 6.40, height) + At(c, 7.06, 0.135 * height) + At(c, 3.69, height / 2) + At(c, 4.01, height / 16)));
        return Encoding.Latin1.GetBytes($"#FORMAT : EMSA/MAS Spectral Data File\n#VERSION : 1.0\n#TITLE : drawn\n#DATE : 01-JAN-2026\n#TIME : 10:00\n#OWNER : test\n#NPOINTS : 1024\n#NCOLUMNS : 1\n#XUNITS : keV\n#YUNITS : counts\n#DATATYPE : Y\n#XPERCHAN : 0.02\n#OFFSET : 0\n#BEAMKV : 40\n#SPECTRUM :\n{string.Join(",\n", counts)}\n#ENDOFDATA :\n");
    }

    [Theory, EachDatabase]
    public void Materials_are_held_against_the_paintings_years_and_survive_a_restart(Database database)
    {
        using var records = new PlanRecords(database, server);
        Date(records, 1640, 1660);
        var materials = new MaterialsFound(records.Studio);
        materials.Create(records.Painting.Id, Stated("SMALT"), User);
        materials.Create(records.Painting.Id, Stated("Prussian blue") with { IsLater = true }, User);
        materials.Create(records.Painting.Id, Stated("dragon's blood"), User);
        var known = new DatingDesk(records.Home.Reopen()).Of(records.Painting.Id);
        Assert.Equal(["smalt", "Prussian blue", "dragon's blood"], known.Select(k => k.Found.Content.Material));
        Assert.Equal([DatingVerdict.Consistent, DatingVerdict.LaterThan, null], known.Select(k => k.Check?.Verdict));
        Assert.Equal("It is taken for a later addition, which agrees.", known[1].Placed);
        Assert.Equal(2, DatingDesk.Checks(known).Count);
    }

    [Fact]
    public void A_layer_that_the_build_up_calls_original_contradicts_a_later_material()
    {
        using var records = new PlanRecords();
        Date(records, 1640, 1660);
        var id = records.Painting.Id;
        var sample = new Samples(records.Studio).Create(id, new SampleContent { Number = "1" }, User);
        Stage Stage(string name, StageKind kind) => new Stages(records.Studio).Create(id, new StageContent { Name = name, Kind = kind }, User);
        SectionLayer Layer(string number, Stage stage) => new SectionLayers(records.Studio).Create(id, new LayerContent { SampleId = sample.Id, Number = number, Name = stage.Content.Name, StageId = stage.Id }, User);
        var (paint, varnish, over) = (Layer("1", Stage("sky", StageKind.Paint)), Layer("2", Stage("varnish", StageKind.Varnish)), Layer("3", Stage("overpaint", StageKind.Intervention)));
        Assert.NotNull(varnish);
        var materials = new MaterialsFound(records.Studio);
        materials.Create(id, Stated("Prussian blue") with { LayerId = paint.Id }, User);
        materials.Create(id, Stated("cobalt blue") with { LayerId = over.Id }, User);
        var known = new DatingDesk(records.Studio).Of(id);
        Assert.Contains("contradicts", known[0].Placed, StringComparison.Ordinal);
        Assert.Contains("which agrees", known[1].Placed, StringComparison.Ordinal);
        Assert.Equal("sample 1, layer 3", known[1].Where);
    }

    [Fact]
    public void What_is_wrong_with_a_material_is_told()
    {
        using var records = new PlanRecords();
        string Refused(MaterialFoundContent content) => Assert.Throws<InputProblem>(() => new MaterialsFound(records.Studio).Create(records.Painting.Id, content, User)).Code;
        Assert.Equal("name", Refused(Stated(" ")));
        Assert.Equal("material-basis", Refused(Stated("smalt") with { Basis = "" }));
        Assert.Equal("unknown-layer", Refused(Stated("smalt") with { LayerId = Guid.NewGuid() }));
        Assert.Equal("unknown-zone", Refused(Stated("smalt") with { ZoneId = Guid.NewGuid() }));
        Assert.Equal("unknown-spectrum", Refused(Stated("smalt") with { SpectrumId = Guid.NewGuid() }));
        Assert.Equal("material-confidence", Refused(Stated("smalt") with { Confidence = (Certainty)9 }));
        Assert.Empty(new MaterialsFound(records.Studio).Of(records.Painting.Id));
    }

    [Theory, EachDatabase]
    public void A_spectrum_is_kept_untouched_with_its_elements_and_analysed_again(Database database)
    {
        using var records = new PlanRecords(database, server);
        var spectra = new MeasuredSpectra(records.Studio);
        var row = spectra.Take(records.Painting.Id, Spectrum(), "folder/P3.msa", new SpectrumContent { Parameters = new Dictionary<string, string> { ["anode"] = "Rh" }, Elements = [new("Au", Certainty.Certain, "forged")] }, User);
        Assert.Equal(("P3", "P3.msa", SpectrumAnalysis.Version), (row.Content.Name, row.Content.FileName, row.Content.AnalysisVersion));
        Assert.Equal(["Ca", "Fe"], row.Content.Elements.Where(e => e.Confidence == Certainty.Certain).Select(e => e.Symbol).Order(StringComparer.Ordinal));
        Assert.DoesNotContain(row.Content.Elements, e => e.Symbol == "Au");
        Assert.Equal(Spectrum(), File.ReadAllBytes(records.Studio.Objects.PathOf(row.Content.Sha256)));
        Assert.True(new Checking(records.Studio).Check(cancellation: TestContext.Current.CancellationToken).IsClean);
        var again = new MeasuredSpectra(records.Home.Reopen());
        Assert.Equal(row.Content.Elements.Select(e => e.Reason), again.Analysed(again.Find(row.Id)).Elements.Where(e => row.Content.Elements.Any(k => k.Symbol == e.Element)).Select(e => e.Reason));
        var renamed = again.Change(row.Id, 1, row.Content with { Name = "P4", Elements = [] }, User);
        Assert.Equal(row.Content.Elements.Count, renamed.Content.Elements.Count);
    }

    /// <summary>An analysis that was made is given again, and is the one that another process makes anew.</summary>
    [Fact]
    public void An_analysis_is_made_once_for_the_same_file_and_parameters()
    {
        using var records = new PlanRecords();
        var spectra = new MeasuredSpectra(records.Studio);
        var row = spectra.Take(records.Painting.Id, Spectrum(), "a.msa", new SpectrumContent { Parameters = new Dictionary<string, string> { ["anode"] = "Rh" } }, User);
        var first = spectra.Analysed(row);
        Assert.Same(first, new MeasuredSpectra(records.Studio).Analysed(spectra.Find(row.Id)));
        Assert.All(Enumerable.Range(0, 8).AsParallel().Select(_ => new MeasuredSpectra(records.Studio).Analysed(row)), again => Assert.Same(first, again));
        var other = spectra.Analysed(spectra.Change(row.Id, 1, row.Content with { Parameters = new Dictionary<string, string> { ["anode"] = "Ag" } }, User));
        Assert.Equal(("Rh", "Ag"), (first.Settings.Anode, other.Settings.Anode));
        var anew = new MeasuredSpectra(records.Home.Reopen()).Analysed(row);
        Assert.NotSame(first, anew);
        Assert.Equal(first.Model, anew.Model);
        Assert.Equal(first.Elements.Select(e => (e.Element, e.Counts, e.Reason)), anew.Elements.Select(e => (e.Element, e.Counts, e.Reason)));
    }

    [Fact]
    public void Only_the_spectra_that_were_asked_for_lately_are_kept()
    {
        var (kept, made) = (new AnalysedSpectra(), 0);
        SpectrumResult Of(int i) => kept.Of(new SpectrumContent { Sha256 = $"{i}" }, () =>
        {
            made++;
            return SpectrumAnalysis.Run(Analysis.Spectra.Files.SpectrumFile.Parse(Spectrum(), "a.msa"), new SpectrumSettings { Anode = "Rh" });
        });
        for (var i = 0; i < 33; i++) Of(i);
        Of(32);
        Assert.Equal(33, made);
        Of(0);
        Assert.Equal(34, made);
        Assert.Throws<InputProblem>(() => kept.Of(new SpectrumContent { Sha256 = "x" }, () => throw new InputProblem("a", "a", "a", "a")));
        Assert.NotNull(kept.Of(new SpectrumContent { Sha256 = "x" }, () => Of(32)));
    }

    /// <summary>While another writes to the painting, an analysis ends, here in a refusal, without waiting for it.</summary>
    [Theory, EachDatabase]
    public void A_spectrum_is_analysed_before_the_painting_is_held(Database database)
    {
        using var records = new PlanRecords(database, server);
        var spectra = new MeasuredSpectra(records.Studio);
        var row = spectra.Take(records.Painting.Id, Spectrum(), "a.msa", new SpectrumContent(), User);
        using var db = records.Studio.CreateDb();
        using var held = db.HoldPainting(records.Painting.Id);
        Assert.Equal("anode", Assert.Throws<InputProblem>(() => spectra.Change(row.Id, 1, row.Content with { Parameters = new Dictionary<string, string> { ["anode"] = "Zz" } }, User)).Code);
    }

    [Fact]
    public void What_is_wrong_with_a_spectrum_is_told_and_nothing_is_kept()
    {
        using var records = new PlanRecords();
        var spectra = new MeasuredSpectra(records.Studio);
        string Refused(byte[] bytes, SpectrumContent content) => Assert.Throws<InputProblem>(() => spectra.Take(records.Painting.Id, bytes, "a.msa", content, User)).Code;
        Assert.Equal("spectrum-empty", Refused([], new SpectrumContent()));
        Assert.Equal("spectrum-not-text", Refused([0, 1, 2], new SpectrumContent()));
        Assert.Equal("spectrum-cut-off", Refused(Spectrum()[..3000], new SpectrumContent()));
        Assert.Equal("unknown-parameter", Refused(Spectrum(), new SpectrumContent { Parameters = new Dictionary<string, string> { ["anodes"] = "Rh" } }));
        Assert.Equal("anode", Refused(Spectrum(), new SpectrumContent { Parameters = new Dictionary<string, string> { ["anode"] = "Zz" } }));
        Assert.Equal("number", Refused(Spectrum(), new SpectrumContent { Parameters = new Dictionary<string, string> { ["kv"] = "forty" } }));
        Assert.Equal("value-missing", Refused(Spectrum(), new SpectrumContent { Parameters = new Dictionary<string, string> { ["kv"] = null! } }));
        Assert.Empty(spectra.Of(records.Painting.Id));
        var kept = spectra.Take(records.Painting.Id, Spectrum(), "a.msa", new SpectrumContent(), User);
        Assert.Equal("spectrum-file", Assert.Throws<InputProblem>(() => spectra.Create(records.Painting.Id, kept.Content with { Sha256 = new string('0', 64) }, User)).Code);
        Assert.Equal("spectrum-file", Assert.Throws<InputProblem>(() => spectra.Create(records.Painting.Id, kept.Content with { Sha256 = "../../etc/passwd" }, User)).Code);
    }

    /// <summary>Each material has its letter, its name and its verdict in words; what is contested is hatched; nothing rests on colour: only greys are used.</summary>
    [Fact]
    public void The_timeline_says_all_without_colour()
    {
        DatingCheck[] checks = [.. ((string[])["smalt", "Prussian blue", "titanium white (anatase)", "umber", "Egyptian blue"]).Select(n => DatingCheck.Of(Pigment.Find(n)!, 1640, 1660))];
        var svg = TimelineDrawing.Draw(checks);
        foreach (var words in (string[])["A", "E", "Prussian blue", "later than", "ends before", "consistent", "painting 1640-1660", "class=\"contested\""]) Assert.Contains(words, svg, StringComparison.Ordinal);
        Assert.All(System.Text.RegularExpressions.Regex.Matches(svg, "#([0-9a-f]{6})").Select(m => m.Groups[1].Value), c => Assert.True(c[..2] == c[2..4] && c[2..4] == c[4..]));
        Assert.Equal("AB", TimelineDrawing.Letter(27));
        Assert.Contains("<svg", TimelineDrawing.Draw([]), StringComparison.Ordinal);
    }
}
