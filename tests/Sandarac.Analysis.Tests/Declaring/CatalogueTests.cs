using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;

namespace Sandarac.Analysis.Tests.Declaring;

/// <summary>What must hold for every reading there is.</summary>
public class CatalogueTests(SpecimenFixture specimen)
{
    public static TheoryData<string> Ids => [.. ReadingCatalogue.All.Select(r => r.Declaration.Id)];

    [Theory]
    [MemberData(nameof(Ids))]
    public void Tiles_and_threads_change_no_number_and_every_figure_is_declared(string id)
    {
        var reading = ReadingCatalogue.Find(id);
        var whole = Run(reading, new Tiling(int.MaxValue, 1));
        FiguresAreDeclared(reading, whole.Outcome);
        foreach (var tiling in (Tiling[])[new(97, 2), new(512, 1)])
        {
            var other = Run(reading, tiling);
            Assert.Equal(whole.Outcome.NoAnswer, other.Outcome.NoAnswer);
            Assert.Equal(whole.Outcome.Figures, other.Outcome.Figures);
            Assert.Equal(whole.Outcome.Warnings, other.Outcome.Warnings);
            Assert.Equal(whole.Rasters.Keys, other.Rasters.Keys);
            foreach (var (name, bands) in whole.Rasters)
                for (var b = 0; b < bands.Length; b++) Assert.True(bands[b].Data.AsSpan().SequenceEqual(other.Rasters[name][b].Data), $"{name}, band {b}, {tiling}");
        }
        Assert.True(whole.Outcome.Figures.Count > 0);
    }

    /// <summary>Every figure is declared and has an uncertainty or says why not.</summary>
    private static void FiguresAreDeclared(Reading reading, Outcome outcome)
    {
        foreach (var figure in outcome.Figures)
        {
            Assert.Contains(reading.Declaration.Figures, f => f.Name == figure.Name);
            Assert.True(figure.Uncertainty is not null || !string.IsNullOrEmpty(figure.Note), $"{figure.Name} {figure.Subject}");
            Assert.True(figure.Value is null || double.IsFinite(figure.Value.Value), $"{figure.Name} {figure.Subject}");
        }
    }

    [Fact]
    public void Pages_in_docs_are_those_of_the_declarations()
    {
        var folder = Path.Combine(Root(), "docs", "readings");
        var pages = ReadingDocuments.Pages();
        Assert.Equal(pages.Keys.Order(StringComparer.Ordinal), Directory.GetFiles(folder, "*.md").Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal));
        foreach (var (name, text) in pages) Assert.True(text == File.ReadAllText(Path.Combine(folder, name)), $"{name} is out of date: run `sandarac readings --docs docs/readings`.");
    }

    private (Outcome Outcome, Dictionary<string, Plane[]> Rasters) Run(Reading reading, Tiling tiling)
    {
        string File(InputSlot slot) => slot.Name switch { "infrared" => "IR_01.tif", "flat" => "VIS_flat.tif", "ruler" => "VIS_chart.tif", "luminescence" => "UVL_01.tif", "luminescence-board" => "UVL_flat.tif", "infrared-board" => "IR_flat.tif", "visible-board" => "VIS_flat.tif", _ => "VIS_01.tif" };
        string Reference(params string[] path) => System.IO.Path.Combine([AppContext.BaseDirectory, "References", .. path]);
        // The specimen holds no chessboard and no stage micrometer.
        string Path(InputSlot slot) => slot.Name switch { "chessboard" => Reference("Lens", "board1.png"), "micrometer" => Reference("Sections", "micrometer.png"), _ => specimen.Photograph(File(slot)) };
        if (reading.Declaration.Inputs.Any(s => s.Lights.Contains(Light.Section))) return OfSection(reading, tiling);
        if (reading.Declaration.Inputs.Any(s => s.Name == "wood")) return OfWood(reading, tiling);
        // One photograph under three lamps is a flat board's; an even board would be needed under each.
        var slots = reading.Declaration.Inputs.Where(s => !(s.ByLamp && s.BoardOf is not null));
        return TestRun.Of(reading, [.. slots.SelectMany(s => Enumerable.Range(0, Math.Max(1, s.Minimum)).Select(k => (s.Name, TestRun.Open(Path(s), mmPerPixel: 0.42) with { Lamp = s.ByLamp ? new LampAngles(120 * k, 20) : null })))], Given(reading), tiling);
    }

    /// <summary>What reads sections gets a narrow part of one: it is drawn at the microscope's own size, whatever the specimen's.</summary>
    private (Outcome Outcome, Dictionary<string, Plane[]> Rasters) OfSection(Reading reading, Tiling tiling)
    {
        using var folder = new TempFolder();
        (string, InputImage) Part(string slot, string light)
        {
            using var image = ImageFile.Open(specimen.Photograph($"XSEC_S1_{light}.tif"));
            return (slot, TestRun.Open(TestTiff.Write16(folder[$"{light}.tif"], image.ReadWindow(0, 100, 240, 1500)), mmPerPixel: 0.00025));
        }

        return TestRun.Of(reading, [Part("visible", "VIS"), Part("luminescence", "UV")], Given(reading), tiling);
    }

    /// <summary>The specimen's panel has no end grain: it is drawn.</summary>
    private static (Outcome Outcome, Dictionary<string, Plane[]> Rasters) OfWood(Reading reading, Tiling tiling)
    {
        using var folder = new TempFolder();
        return TestRun.Of(reading, [("wood", TestRun.Open(TestTiff.Write16(folder["wood.tif"], new Rings.DrawnEndGrain().Draw()), mmPerPixel: 0.05))], Given(reading), tiling);
    }

    /// <summary>What some readings need to say anything: one that learns from marks, two columns of strokes; one that takes areas, one within the ground; one that follows lines, one.</summary>
    private static Dictionary<string, string> Given(Reading reading)
    {
        bool Takes(string parameter) => reading.Declaration.Parameters.Any(p => p.Name == parameter);
        if (Takes("areas")) return new() { ["areas"] = Features(Feature("ground", "Polygon", "[[[5,840],[235,840],[235,1240],[5,1240],[5,840]]]")) };
        if (Takes("lines")) return new() { ["lines"] = Features(Feature("pull", "LineString", "[[100,200],[400,210]]")) };
        if (Takes("marks")) return new() { ["trees"] = "10", ["marks"] = Features([.. Enumerable.Range(1, 10).Select(i => Feature(i % 2 == 0 ? "left" : "right", "LineString", FormattableString.Invariant($"[[{(i % 2 == 0 ? 60 : 400)},{40 * i}],[{(i % 2 == 0 ? 66 : 406)},{40 * i + 3}]]")))]) };
        return [];
    }

    private static string Features(params string[] features) => $"{{\"type\":\"FeatureCollection\",\"features\":[{string.Join(',', features)}]}}";

    private static string Feature(string called, string kind, string coordinates) => $"{{\"type\":\"Feature\",\"properties\":{{\"class\":\"{called}\"}},\"geometry\":{{\"type\":\"{kind}\",\"coordinates\":{coordinates}}}}}";

    private static string Root()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Sandarac.slnx"))) folder = Path.GetDirectoryName(folder)!;
        return folder;
    }
}
