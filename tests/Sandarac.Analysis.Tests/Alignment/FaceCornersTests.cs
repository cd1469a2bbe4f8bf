using Sandarac.Analysis.Alignment;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Alignment;

public class FaceCornersTests
{
    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(-0.03, 0.45)]
    [InlineData(0.02, 0.9)]
    [InlineData(-0.01, 0.02)]
    public void Known_corners_are_found(double k1, double surround)
    {
        var scene = FaceScene.Tilted(k1);
        var found = Find(scene.Draw(FaceScene.Painted, (_, _) => surround));
        Report(scene, found);
        Assert.Equal(FaceVerdict.Aligned, found.Verdict);
        for (var i = 0; i < 4; i++) Assert.InRange(found.Corners[i].DistanceTo(scene.Corners[i]), 0, 0.5);
        Assert.InRange(found.K1, k1 - 0.002, k1 + 0.002);
    }

    [Fact]
    public void A_chart_and_a_ruler_in_the_surround_do_not_move_the_sides()
    {
        var scene = FaceScene.Tilted(-0.01);
        var found = Find(scene.Draw(FaceScene.Painted, (x, y) => x is > 200 and < 420 && y is > 10 and < 40 ? ((int)(x / 20) % 2 == 0 ? 0.9 : 0.1) : x is > 8 and < 30 && y is > 300 and < 600 ? 0.95 : 0.5));
        Report(scene, found);
        for (var i = 0; i < 4; i++) Assert.InRange(found.Corners[i].DistanceTo(scene.Corners[i]), 0, 1.0);
    }

    [Fact]
    public void A_blank_frame_has_no_face() => Assert.Equal(FaceVerdict.NotAligned, Find(Synthetic.Of(600, 500, (_, _) => 0.5)).Verdict);

    [Fact]
    public void A_detail_that_fills_the_frame_has_no_face() =>
        Assert.Equal(FaceVerdict.NotAligned, Find(Synthetic.Of(800, 600, (x, y) => FaceScene.Painted(x / 2, y / 2))).Verdict);

    [Fact]
    public void A_chart_close_up_has_no_face()
    {
        var scene = FaceScene.Tilted();
        var found = Find(scene.Draw((x, y) => x % 83 < 8 || y % 100 < 8 ? 0.1 : 0.15 + 0.8 * (((int)(x / 83) * 5 + (int)(y / 100) * 7) % 24) / 24.0, (_, _) => 0.5));
        Assert.Equal(FaceVerdict.NotAligned, found.Verdict);
    }

    [Fact]
    public void A_plate_that_shows_two_sides_and_a_cradle_has_no_face()
    {
        // Upper left part of a panel: two real sides, then straight bars inside, painting up to the other borders.
        var plate = Synthetic.Of(800, 800, (x, y) => x < 60 || y < 50 ? 0.02 : FaceScene.Painted(x / 2, y / 2) * 0.5 + (x % 200 is > 80 and < 130 ? 0.25 : 0) + (y % 260 is > 100 and < 160 ? 0.2 : 0));
        foreach (var light in (Light?[])[null, Light.Xray])
        {
            var found = Find(plate, light);
            Assert.True(found.Verdict == FaceVerdict.NotAligned, found.Reason);
        }
    }

    [Fact]
    public void A_micrograph_has_no_face()
    {
        // Wavy layers between dark resin above and below.
        var micrograph = Synthetic.Of(900, 600, (x, y) =>
        {
            var (top, bottom) = (150 + 30 * Math.Sin(x / 80) + 8 * Math.Sin(x / 9), 430 + 20 * Math.Sin(x / 110 + 1));
            return y < top || y > bottom ? 0.08 : 0.3 + 0.3 * Math.Floor((y - top) / 60) / 5 + 0.08 * Math.Sin(x / 3.1) * Math.Sin(y / 2.7);
        });
        Assert.Equal(FaceVerdict.NotAligned, Find(micrograph).Verdict);
    }

    private static FaceCorners Find(Plane picture, Light? light = null)
    {
        using var folder = new TempFolder();
        var file = TestTiff.Write16(folder["face.tif"], picture.Select(v => 60000 * v).AddNoise(250, 7));
        var (outcome, _) = TestRun.Of(new FaceCornersReading(), [("photograph", TestRun.Open(file, light))]);
        return FaceCorners.From(outcome);
    }

    private static void Report(FaceScene scene, FaceCorners found) => TestContext.Current.SendDiagnosticMessage(
        $"{found.Verdict} k1 {found.K1:0.0000} ({scene.K1}) errors {string.Join(" ", found.Corners.Select((c, i) => FormattableString.Invariant($"{c.DistanceTo(scene.Corners[i]):0.00}")))} residual {found.ResidualPx}; {found.Reason}");
}
