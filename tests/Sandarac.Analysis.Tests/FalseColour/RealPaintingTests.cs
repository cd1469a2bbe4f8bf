using Sandarac.Analysis.Alignment;
using Sandarac.Analysis.FalseColour;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Quality;
using Sandarac.Analysis.Tests.Support;

namespace Sandarac.Analysis.Tests.FalseColour;

/// <summary>A real painting in visible and near-infrared light, aligned by its makers (Lapray et al., SPIE 10677 (2018)); it fills the frame.</summary>
public class RealPaintingTests
{
    [Fact]
    public void A_painting_that_fills_the_frame_has_no_corners_to_find()
    {
        var visible = SharedData.Require("multiband", "sRGB.tif");
        var infrared = SharedData.Require("multiband", "Raw", "NIR_filtre_nir_0_aligned.tif");
        foreach (var (file, light) in new[] { (visible, Light.Visible), (infrared, Light.Infrared) })
        {
            var found = FaceCorners.From(TestRun.Of(new FaceCornersReading(), [("photograph", TestRun.Open(file, light))]).Outcome);
            TestContext.Current.SendDiagnosticMessage(found.Reason);
            Assert.True(found.Verdict == FaceVerdict.NotAligned, found.Reason);
        }
    }

    [Fact]
    public void False_colour_holds_the_files_own_values_over_their_white()
    {
        var (visible, infrared) = (SharedData.Require("multiband", "sRGB.tif"), SharedData.Require("multiband", "Raw", "NIR_filtre_nir_0_aligned.tif"));
        var (outcome, rasters) = TestRun.Of(new FalseColourReading(), [("infrared", TestRun.Open(infrared, Light.Infrared)), ("visible", TestRun.Open(visible, Light.Visible))]);
        var whites = outcome.Figures.Where(f => f.Name == "white-level").Select(f => f.Value!.Value).ToArray();
        using var ir = TestRun.Open(infrared).Image;
        using var vis = TestRun.Open(visible).Image;
        foreach (var (x, y) in new[] { (500, 400), (17, 700), (1000, 33) })
        {
            Assert.Equal(ir.ReadWindow(x, y, 1, 1)[0].Data[0] / whites[0], rasters["false-colour"][0][x, y], 5);
            Assert.Equal(vis.ReadWindow(x, y, 1, 1)[0].Data[0] / whites[1], rasters["false-colour"][1][x, y], 5);
            Assert.Equal(vis.ReadWindow(x, y, 1, 1)[1].Data[0] / whites[2], rasters["false-colour"][2][x, y], 5);
        }
    }

    [Fact]
    public void Its_quality_is_told()
    {
        var outcome = TestRun.Of(new PhotographQuality(), [("photograph", TestRun.Open(SharedData.Require("multiband", "sRGB.tif"), Light.Visible))]).Outcome;
        foreach (var f in outcome.Figures) TestContext.Current.SendDiagnosticMessage($"{f.Name} {f.Subject}: {f.Value} +- {f.Uncertainty} {f.Note}");
        foreach (var w in outcome.Warnings) TestContext.Current.SendDiagnosticMessage(w.Message);
        Assert.NotEmpty(outcome.Figures);
    }
}
