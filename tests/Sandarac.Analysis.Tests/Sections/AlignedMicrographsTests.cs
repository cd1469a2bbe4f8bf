using System.Text.Json;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections;
using Sandarac.Analysis.Sections.Aligning;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen.Sections;

namespace Sandarac.Analysis.Tests.Sections;

/// <summary>Two opened images.</summary>
internal sealed record InputImageFiles(InputImage First, InputImage Second) : IDisposable
{
    public void Dispose()
    {
        First.Image.Dispose();
        Second.Image.Dispose();
    }
}

/// <summary>Witness: a drawn section whose picture by electrons lies as its truth says.</summary>
public class AlignedMicrographsTests
{
    private const int Seed = 1;

    [Fact]
    public void ElectronsAreBroughtToTheVisibleGrid()
    {
        using var folder = new TempFolder();
        SectionSpecimens.Draw(Seed, folder.Path, electrons: true, cancellation: TestContext.Current.CancellationToken);
        InputImage Photograph(string light) => TestRun.Open(Path.Combine(folder.Path, "photographs", SectionSpecimens.FileName(Seed, light)), null, null);
        using var truth = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder.Path, "truth", $"section_{Seed:0000}.json")));
        var electrons = truth.RootElement.GetProperty("electrons");
        Homography toVisible = new([.. electrons.GetProperty("toVisible").EnumerateArray().Select(v => v.GetDouble())]);
        var middle = new Point2(electrons.GetProperty("width").GetDouble() / 2, electrons.GetProperty("height").GetDouble() / 2);
        var beside = toVisible.Apply(new Point2(middle.X + 1, middle.Y));

        using InputImageFiles images = new(Photograph("VIS"), Photograph("BSE"));
        var declaration = new LayersReading().Declaration;
        using var aligned = AlignedMicrographs.Of(new TestRun(declaration, Arguments.Resolve(declaration, new Dictionary<string, string>()), new Dictionary<string, IReadOnlyList<InputImage>> { ["visible"] = [images.First], ["electrons"] = [images.Second] }));
        var figures = aligned.Alignments.Single().Figures().ToArray();
        double Found(string name) => figures.Single(f => f.Name == name).Value!.Value;
        var place = toVisible.Apply(middle);
        Assert.Equal(place.X, Found("aligned-x"), 1.0);
        Assert.Equal(place.Y, Found("aligned-y"), 1.0);
        Assert.Equal(place.DistanceTo(beside), Found("aligned-size"), 2e-3);
        Assert.Equal(Math.Atan2(beside.Y - place.Y, beside.X - place.X) * 180 / Math.PI, Found("aligned-turn"), 0.1);
        Assert.InRange(Found("aligned-shown"), 80, 100);
        Assert.Equal(2, aligned.Images.Count);
        // The second image is not under ultraviolet: nothing in it is varnish that luminesces.
        Assert.False(aligned.Luminesces);
    }

    public static TheoryData<string, int, int, float> Others => new() { { "blank of the same size", 420, 260, 0.5f }, { "nothing but no data", 200, 100, float.NaN } };

    [Theory]
    [MemberData(nameof(Others))]
    public void WhatCannotBeAlignedIsLeftOutAndNamed(string what, int width, int height, float value)
    {
        using var folder = new TempFolder();
        var visible = TestRun.Open(TestTiff.Write16(folder["vis.tif"], LayersReadingTests.Drawn(0)), null, 0.0004);
        var other = TestTiff.WriteFloat(folder["other.tif"], new Plane(width, height).Select(_ => value));
        var outcome = TestRun.Of(new LayersReading(), [("visible", visible), ("luminescence", TestRun.Open(other))]).Outcome;
        Assert.True(outcome.Warnings.Any(w => w.Code == "micrograph-not-aligned" && w.Message.StartsWith("other.tif", StringComparison.Ordinal)), what);
        Assert.Equal(3, outcome.Figures.Single(f => f.Name == "layers").Value);
    }

    [Fact]
    public void AnotherSectionIsNotTakenForThisOne()
    {
        using var folder = new TempFolder();
        var visible = TestRun.Open(TestTiff.Write16(folder["vis.tif"], [.. LayersReadingTests.Drawn(0).Select(b => Synthetic.Of(220, 150, (x, y) => b[(int)x + 90, (int)y + 60]))]), null, 0.0004);
        var other = TestRun.Open(TestTiff.Write16(folder["other.tif"], [.. LayersReadingTests.Drawn(8).Select(b => Synthetic.Of(200, 160, (x, y) => 65535 - b[(int)(0.7 * x), (int)(Math.Abs(y - 80) + 60)]))]), null, 0.0004);
        var outcome = TestRun.Of(new LayersReading(), [("visible", visible), ("luminescence", other)]).Outcome;
        Assert.DoesNotContain(outcome.Figures, f => f.Name == "aligned-median" && f.Note!.StartsWith("aligned", StringComparison.Ordinal));
    }

    [Fact]
    public void TinyMicrographsAreRefused()
    {
        using var folder = new TempFolder();
        var (visible, tiny) = (TestTiff.Write16(folder["vis.tif"], LayersReadingTests.Drawn(0)), TestTiff.Write16(folder["uv.tif"], [new Plane(1, 1)]));
        Assert.Equal("too-small", Assert.Throws<InputProblem>(() => TestRun.Of(new LayersReading(), [("visible", TestRun.Open(visible)), ("luminescence", TestRun.Open(tiny))])).Code);
    }
}
