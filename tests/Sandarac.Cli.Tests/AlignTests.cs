using System.Globalization;
using System.Text.Json;
using NetVips;
using Sandarac.Imaging.Formats;

namespace Sandarac.Cli.Tests;

/// <summary>The command as it is typed, on two small drawings of one scene: the second shows what lies 9 pixels right and 6 down.</summary>
public class AlignTests
{
    private const int Width = 560;
    private const int Height = 480;

    [Fact]
    public void Aligning_writes_the_image_the_points_and_figures()
    {
        using var folder = new TemporaryFolder();
        Draw(folder["a.tif"], 1, 0, 0);
        Draw(folder["b.tif"], 1, 9, 6);
        File.WriteAllText(folder["in.csv"], "x,y\n0,0\n100.5,60.25\n");
        var (code, text, error) = CommandLine.Run("align", folder["a.tif"], folder["b.tif"], "--out", folder["out.tif"], "--points", folder["in.csv"], "--points-out", folder["points.csv"], "--json");
        Assert.True(code == 0, error);
        using var json = JsonDocument.Parse(text);
        var root = json.RootElement;
        Assert.True(root.GetProperty("verdict").GetString() == "aligned", text);
        Assert.NotEmpty(root.GetProperty("model").GetString()!);
        Assert.True(root.GetProperty("heldOut").GetProperty("agreeing").GetInt32() > 10);
        Assert.Contains("write", root.GetProperty("stages").EnumerateArray().Select(s => s.GetProperty("name").GetString()));
        using (var made = ImageFile.Open(folder["out.tif"]))
        using (var given = ImageFile.Open(folder["b.tif"]))
            Assert.Equal((Width, Height, given.Facts.Format, given.Facts.Bands), (made.Facts.Width, made.Facts.Height, made.Facts.Format, made.Facts.Bands));
        var points = File.ReadAllLines(folder["points.csv"]);
        Assert.Equal((3, "x,y"), (points.Length, points[0]));
        Near([9, 6], points[1]);
        Near([109.5, 66.25], points[2]);
    }

    [Fact]
    public void Two_unrelated_images_are_an_answer_and_leave_no_files()
    {
        using var folder = new TemporaryFolder();
        Draw(folder["a.tif"], 1, 0, 0);
        Draw(folder["b.tif"], 2, 0, 0);
        File.WriteAllText(folder["in.csv"], "x,y\n1,1\n");
        var (code, text, error) = CommandLine.Run("align", folder["a.tif"], folder["b.tif"], "--out", folder["out.tif"], "--points", folder["in.csv"], "--points-out", folder["points.csv"], "--json");
        Assert.True(code == 0, error);
        using var json = JsonDocument.Parse(text);
        Assert.Equal("not-aligned", json.RootElement.GetProperty("verdict").GetString());
        Assert.Equal(["a.tif", "b.tif", "in.csv"], Directory.GetFiles(folder.Path).Select(Path.GetFileName).Order());
    }

    [Fact]
    public void A_lens_frame_without_a_board_is_told_and_one_of_another_size_is_refused()
    {
        using var folder = new TemporaryFolder();
        Draw(folder["a.tif"], 1, 0, 0);
        Draw(folder["b.tif"], 1, 9, 6);
        var (code, text, error) = CommandLine.Run("align", folder["a.tif"], folder["b.tif"], "--lens", folder["a.tif"]);
        Assert.True(code == 0, error);
        Assert.Contains("Note: a.tif gives no lens and is not used.", text, StringComparison.Ordinal);
        using (var small = Image.Black(Height, Width)) small.Tiffsave(folder["small.tif"]);
        (code, _, error) = CommandLine.Run("align", folder["a.tif"], folder["b.tif"], "--lens", folder["a.tif"], "--lens", folder["small.tif"], "--out", folder["out.tif"]);
        Assert.Equal(2, code);
        Assert.Contains("(lens-size)", error, StringComparison.Ordinal);
        Assert.False(File.Exists(folder["out.tif"]));
    }

    [Theory]
    [InlineData("--points", "in.csv")]
    [InlineData("--points-out", "out.csv")]
    [InlineData("--model", "elastic")]
    [InlineData("--points", "in.csv", "--points-out", "out.csv")]
    public void Invalid_requests_end_with_2_and_leave_nothing(params string[] options)
    {
        using var folder = new TemporaryFolder();
        Draw(folder["a.tif"], 1, 0, 0);
        File.WriteAllText(folder["in.csv"], "x,y\n1,2\nsomewhere\n");
        var (code, _, error) = CommandLine.Run(["align", folder["a.tif"], folder["a.tif"], .. options.Select(o => o.EndsWith(".csv", StringComparison.Ordinal) ? folder[o] : o)]);
        Assert.Equal(2, code);
        Assert.Contains("What to do", error, StringComparison.Ordinal);
        Assert.Equal(["a.tif", "in.csv"], Directory.GetFiles(folder.Path).Select(Path.GetFileName).Order());
    }

    [Fact]
    public void Invalid_missing_image()
    {
        using var folder = new TemporaryFolder();
        Draw(folder["a.tif"], 1, 0, 0);
        var (code, _, error) = CommandLine.Run("align", folder["a.tif"], folder["none.tif"], "--out", folder["out.tif"]);
        Assert.Equal(2, code);
        Assert.Contains("none.tif", error, StringComparison.Ordinal);
        Assert.Single(Directory.GetFiles(folder.Path));
    }

    [Theory]
    [InlineData("output-in-use", "--out", "a.tif")]
    [InlineData("output-in-use", "--out", "b.tif")]
    [InlineData("output-in-use", "--points", "in.csv", "--points-out", "in.csv")]
    [InlineData("output-in-use", "--points", "in.csv", "--points-out", "out", "--out", "out")]
    [InlineData("cannot-write", "--out", "none/out.tif")]
    [InlineData("cannot-write", "--points", "in.csv", "--points-out", "none/out.csv", "--out", "out.tif")]
    public void Invalid_outputs_are_refused_and_nothing_that_was_there_changes(string code, params string[] options)
    {
        using var folder = new TemporaryFolder();
        Draw(folder["a.tif"], 1, 0, 0);
        Draw(folder["b.tif"], 1, 9, 6);
        File.WriteAllText(folder["in.csv"], "x,y\n1,2\n");
        var before = Contents(folder);
        var (exit, _, error) = CommandLine.Run(["align", folder["a.tif"], folder["b.tif"], .. options.Select(o => o.StartsWith('-') ? o : folder[o])]);
        Assert.Equal(2, exit);
        Assert.Contains(code, error, StringComparison.Ordinal);
        Assert.Equal(before, Contents(folder));
    }

    private static IReadOnlyList<string> Contents(TemporaryFolder folder) =>
        [.. Directory.GetFiles(folder.Path).Order(StringComparer.Ordinal).Select(f => $"{Path.GetFileName(f)} {Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(f)))}")];

    private static void Near(double[] expected, string line)
    {
        var found = line.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray();
        for (var i = 0; i < 2; i++) Assert.Equal(expected[i], found[i], 0.1);
    }

    /// <summary>16-bit grey: sixty waves of fixed random directions and phases.</summary>
    private static void Draw(string path, int seed, double right, double down)
    {
        var dice = new Random(seed);
        var waves = Enumerable.Range(0, 60).Select(_ => (Turn: Math.PI * dice.NextDouble(), F: 2 * Math.PI / (8 * Math.Pow(15, dice.NextDouble())), Phase: 6.28 * dice.NextDouble())).ToList();
        var data = new ushort[Width * Height];
        for (var i = 0; i < data.Length; i++)
        {
            var (x, y) = (i % Width + right, i / Width + down);
            data[i] = (ushort)Math.Clamp(30000 + 1500 * waves.Sum(w => Math.Cos(w.F * (x * Math.Cos(w.Turn) + y * Math.Sin(w.Turn)) + w.Phase)), 0, 65535);
        }
        using var image = Image.NewFromMemory(data, Width, Height, 1, Enums.BandFormat.Ushort);
        using var grey = image.Copy(interpretation: Enums.Interpretation.Grey16);
        grey.Tiffsave(path);
    }
}
