using System.Globalization;
using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Lenses;

/// <summary>References/Lens: boards drawn through a known lens, OpenCV's corners and OpenCV's calibration; and boards drawn with our own maps.</summary>
public class LensCalibrationTests
{
    private static string Reference(string name) => Path.Combine(AppContext.BaseDirectory, "References", "Lens", name);

    private static Outcome OfBoards(params int[] numbers) => TestRun.Of(new LensCalibrationReading(), [.. numbers.Select(n => ("chessboard", TestRun.Open(Reference($"board{n}.png"))))]).Outcome;

    private static Figure Get(Outcome outcome, string name) => outcome.Figures.First(f => f.Name == name);

    [Fact]
    public void Known_lens_is_found_as_OpenCV_finds_it()
    {
        var rows = File.ReadLines(Reference("opencv.csv")).Skip(1).Select(l => l.Split(',').Skip(1).Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray()).ToArray();
        var outcome = OfBoards(1, 2, 3);
        string[] names = ["k1", "k2", "centre-x", "centre-y"];
        foreach (var (name, i) in names.Select((n, i) => (n, i)))
        {
            var figure = Get(outcome, name);
            TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant($"{name}: {figure.Value:0.00000} +- {figure.Uncertainty:0.00000}, truth {rows[0][i]}, OpenCV {rows[1][i]}"));
            Assert.InRange(rows[0][i], figure.Value!.Value - figure.Uncertainty!.Value, figure.Value.Value + figure.Uncertainty.Value);
            Assert.InRange(rows[1][i], figure.Value.Value - figure.Uncertainty.Value, figure.Value.Value + figure.Uncertainty.Value);
        }
        Assert.All(outcome.Figures.Where(f => f.Name == "corners"), f => Assert.Equal(117, f.Value));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Known_corners_are_where_OpenCV_has_them(int number)
    {
        var theirs = File.ReadLines(Reference("corners.csv")).Skip(1).Select(l => l.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray())
            .Where(v => v[0] == number).Select(v => new Point2(v[1], v[2])).ToList();
        using var image = Imaging.Formats.ImageFile.Open(Reference($"board{number}.png"));
        var ours = BoardCorner.In(image.ReadWindow(0, 0, image.Facts.Width, image.Facts.Height)[0]);
        double[] apart = [.. theirs.Select(t => ours.Min(o => o.At.DistanceTo(t)))];
        TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant($"median {apart.Order().ElementAt(apart.Length / 2):0.000}, max {apart.Max():0.000}"));
        Assert.InRange(apart.Max(), 0, 0.2);
    }

    /// <summary>Our own map draws the board, so a lens that is found can be applied as it is.</summary>
    [Fact]
    public void Roundtrip_a_lens_is_found_from_a_board_drawn_with_its_map()
    {
        var map = new HomographyMap([0.1, 0.004, -50, -0.003, 0.1, -38, 1e-5, -2e-5, 1], new Point2(505, 396), Math.Sqrt(1000 * 1000 + 800 * 800) / 2, -0.03, 0.004);
        var outcome = Of(BoardScene.Photograph(1000, 800, map));
        Assert.InRange(Math.Abs(Get(outcome, "k1").Value!.Value + 0.03), 0, Get(outcome, "k1").Uncertainty!.Value);
        Assert.InRange(Math.Abs(Get(outcome, "k2").Value!.Value - 0.004), 0, Get(outcome, "k2").Uncertainty!.Value);
        Assert.Empty(outcome.Warnings);
    }

    [Fact]
    public void A_board_in_a_corner_of_the_frame_is_warned_of()
    {
        var map = new HomographyMap([0.1, 0, -20, 0, 0.1, -15, 0, 0, 1]);
        Assert.Equal(LensCalibrationReading.CoverageCode, Assert.Single(Of(BoardScene.Photograph(1000, 800, map, half: 17)).Warnings).Code);
    }

    [Fact]
    public void Extreme_pictures_have_no_answer()
    {
        Plane[] pictures = [new(1, 1), new(30, 400), Synthetic.Of(300, 200, (_, _) => 0.5), Synthetic.Of(300, 200, (x, _) => (int)(x / 20) % 2), Synthetic.Of(400, 300, (_, _) => 0.5).AddNoise(0.1, 5), Synthetic.Of(200, 200, (_, _) => float.NaN)];
        foreach (var picture in pictures) Assert.NotNull(Of(picture).NoAnswer);
    }

    [Fact]
    public void Invalid_frames_of_two_sizes_are_refused()
    {
        using var folder = new TempFolder();
        var (a, b) = (TestTiff.WriteFloat(folder["a.tif"], new Plane(100, 80)), TestTiff.WriteFloat(folder["b.tif"], new Plane(80, 100)));
        Assert.Equal("input-size", Assert.Throws<InputProblem>(() => TestRun.Of(new LensCalibrationReading(), [("chessboard", TestRun.Open(a)), ("chessboard", TestRun.Open(b))])).Code);
    }

    private static Outcome Of(Plane picture)
    {
        using var folder = new TempFolder();
        return TestRun.Of(new LensCalibrationReading(), [("chessboard", TestRun.Open(TestTiff.WriteFloat(folder["board.tif"], picture)))]).Outcome;
    }
}
