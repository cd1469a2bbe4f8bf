using Sandarac.Analysis.FalseColour;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.FalseColour;

public class FalseColourTests
{
    /// <summary>By hand: (R, G, B, IR) = (200, 100, 50, 30) is shown as (30, 200, 100), over 255.</summary>
    [Fact]
    public void Known_pixel_moves_one_band_on()
    {
        Plane Even(float value) => new Plane(8, 8).Select(_ => value);
        using var folder = new TempFolder();
        var (visible, infrared) = (TestTiff.Write8(folder["VIS_01.tif"], Even(200), Even(100), Even(50)), TestTiff.Write8(folder["IR_01.tif"], Even(30)));
        var (_, rasters) = TestRun.Of(new FalseColourReading(), [("infrared", TestRun.Open(infrared, Light.Infrared)), ("visible", TestRun.Open(visible, Light.Visible))],
            new() { ["white"] = "full-scale" });
        Assert.Equal([30, 200, 100], rasters["false-colour"].Select(p => Math.Round(255.0 * p[3, 4], 4)));
    }
}
