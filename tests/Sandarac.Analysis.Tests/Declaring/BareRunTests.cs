using System.Text.Json;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.FalseColour;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Analysis.Tests.Declaring;

public sealed class BareRunTests : IDisposable
{
    private readonly TempFolder _folder = new();
    private readonly string _infrared;
    private readonly string _visible;

    public BareRunTests()
    {
        _infrared = TestTiff.Write16(_folder["IR_01.tif"], Synthetic.Of(600, 40, (x, _) => 100 * x));
        _visible = TestTiff.Write8(_folder["VIS_01.tif"], Synthetic.Of(600, 40, (x, _) => x / 3), Synthetic.Of(600, 40, (_, y) => 5 * y), Synthetic.Of(600, 40, (_, _) => 9));
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Rasters_pictures_and_figures_are_written_together()
    {
        var result = BareRun.Execute(Request([_infrared, _visible]), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(["false-colour.png", "false-colour.tif", "figures.json"], Directory.GetFiles(_folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        using var json = JsonDocument.Parse(File.ReadAllText(Path.Combine(_folder["out"], "figures.json")));
        Assert.Equal(result.Record.Key, json.RootElement.GetProperty("record").GetProperty("key").GetString());
        Assert.Equal(64, result.Record.Inputs[0].Sha256.Length);
        using var pyramid = PyramidFile.Open(Path.Combine(_folder["out"], "false-colour.tif"));
        var white = result.Figures.Where(f => f.Name == "white-level").Select(f => f.Value!.Value).ToArray();
        // By hand: infrared, red, green over their whites. Column 300 holds 100 x 300.5 = 30050 and round(300.5 / 3) = 100, row 20 holds round(102.5) = 102.
        var pixel = pyramid.ReadWindow(0, 300, 20, 1, 1).Select(p => (double)p.Data[0]).ToArray();
        Assert.Equal(30050 / white[0], pixel[0], 5);
        Assert.Equal(100 / white[1], pixel[1], 5);
        Assert.Equal(102 / white[2], pixel[2], 5);
    }

    [Fact]
    public void Slots_can_be_named()
    {
        var byName = BareRun.Execute(Request([$"visible={_visible}", $"infrared={_infrared}"]), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal("IR_01.tif", byName.Record.Inputs[0].Name);
    }

    [Fact]
    public void Invalid_order_of_lights_is_refused() => Assert.Equal("input-light", Refusal([_visible, _infrared]).Code);

    [Fact]
    public void Invalid_count_is_refused() => Assert.Equal("input-count", Refusal([_infrared]).Code);

    [Fact]
    public void Invalid_sizes_are_refused()
    {
        var other = TestTiff.Write16(_folder["IR_02.tif"], new Plane(50, 50));
        Assert.Equal("input-size", Refusal([other, _visible]).Code);
    }

    [Fact]
    public void Invalid_folder_with_files_in_it_is_refused_and_left_alone()
    {
        Directory.CreateDirectory(_folder["out"]);
        File.WriteAllText(Path.Combine(_folder["out"], "keep.txt"), "mine");
        Assert.Equal("out-exists", Assert.Throws<InputProblem>(() => BareRun.Execute(Request([_infrared, _visible]), cancellation: TestContext.Current.CancellationToken)).Code);
        Assert.Equal("mine", File.ReadAllText(Path.Combine(_folder["out"], "keep.txt")));
    }

    [Fact]
    public void A_cancelled_run_leaves_nothing()
    {
        using var cancel = new CancellationTokenSource();
        var progress = new Immediately(done => { if (done > 0.4) cancel.Cancel(); });
        Assert.ThrowsAny<OperationCanceledException>(() => BareRun.Execute(Request([_infrared, _visible]), progress, cancel.Token));
        Assert.Equal(["IR_01.tif", "VIS_01.tif"], Directory.GetFileSystemEntries(_folder.Path).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    private InputProblem Refusal(string[] images)
    {
        var problem = Assert.Throws<InputProblem>(() => BareRun.Execute(Request(images)));
        Assert.False(Directory.Exists(_folder["out"]));
        return problem;
    }

    private BareRequest Request(string[] images) => new(new FalseColourReading(), images, new Dictionary<string, string>(), null, _folder["out"]);

    private sealed class Immediately(Action<double> hear) : IProgress<double>
    {
        public void Report(double value) => hear(value);
    }
}
