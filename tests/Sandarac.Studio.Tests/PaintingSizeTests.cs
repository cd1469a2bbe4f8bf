using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Analysis.Alignment.Rulers;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Examine;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Tests;

/// <summary>Which size counts: stated, measured before, by a ruler, by tags, assumed. The face is 1000 x 800 pixels and the ruler's 100 mm are 200 pixels long.</summary>
public class PaintingSizeTests
{
    private static readonly Point2[] Corners = [new(100, 100), new(1100, 100), new(1100, 900), new(100, 900)];

    [Fact]
    public void A_ruler_in_a_frame_of_the_same_size_gives_the_size()
    {
        var painting = New();
        var warnings = PaintingSize.Decide(painting, new ExamineOptions(), [Face()], [Ruler()]);
        Assert.Equal((500.0, 400.0, ScaleOrigin.Ruler), (Math.Round(painting.WidthMm, 6), Math.Round(painting.HeightMm, 6), painting.SizeOrigin));
        // 0.1 % of the ruler; corners good to 0.1 pixel on a side of 800 add a fiftieth of that.
        Assert.InRange(painting.SizeUncertainty!.Value, 0.001, 0.00103);
        Assert.Equal(["size-from-ruler"], warnings.Select(w => w.Code));
        Assert.Equal(warnings, painting.SizeWarnings);
    }

    [Theory]
    [InlineData(400, 500, 0)]
    [InlineData(400.5, 500.8, 0)]
    [InlineData(403, 500, 1)]
    [InlineData(400, 490, 1)]
    public void A_stated_size_counts_and_a_contradiction_is_said(double height, double width, int contradictions)
    {
        var painting = New();
        PaintingSize.Decide(painting, new ExamineOptions { HeightMm = height, WidthMm = width }, [Face()], [Ruler()]);
        Assert.Equal((width, height, ScaleOrigin.Measured), (painting.WidthMm, painting.HeightMm, painting.SizeOrigin));
        Assert.Equal(contradictions, painting.SizeWarnings.Count(w => w.Code == "size-contradicts-ruler"));
        Assert.Null(painting.SizeUncertainty);
    }

    [Theory]
    [InlineData(ScaleOrigin.Measured)]
    [InlineData(ScaleOrigin.Distance)]
    public void What_was_measured_before_stays(ScaleOrigin origin)
    {
        var painting = New();
        (painting.WidthMm, painting.HeightMm, painting.SizeOrigin) = (600, 480, origin);
        PaintingSize.Decide(painting, new ExamineOptions(), [Face()], [Ruler()]);
        Assert.Equal((600.0, origin), (painting.WidthMm, painting.SizeOrigin));
        Assert.Single(PaintingSize.Decide(painting, new ExamineOptions(), [Face()], [Ruler()]), w => w.Code == "size-contradicts-ruler");
    }

    [Fact]
    public void A_ruler_in_a_frame_of_another_size_says_nothing()
    {
        var painting = New();
        PaintingSize.Decide(painting, new ExamineOptions(), [Face()], [Ruler(width: 1300)]);
        Assert.Equal(ScaleOrigin.Assumed, painting.SizeOrigin);
        PaintingSize.Decide(painting, new ExamineOptions(), [FaceInPhotograph.WholeFrame(Photograph("VIS_01.tif", 1200))], [Ruler()]);
        Assert.Equal(ScaleOrigin.Assumed, painting.SizeOrigin);
    }

    private static Painting New() => new() { Title = "Ferry at low water", SizeOrigin = ScaleOrigin.Assumed };

    private static FaceInPhotograph Face() => FaceInPhotograph.FromCorners(Photograph("VIS_01.tif", 1200), Corners, CameraLens.AboutMiddle(0, 1200, 900), 0.1);

    private static RulerInPhotograph Ruler(int width = 1200) => new(Photograph("VIS_chart.tif", width), new RulerScale(0.5, 0.0005, 100, new(300, 700), new(500, 700)));

    private static Photograph Photograph(string name, int width) => new()
    {
        FileName = name, Sha256 = name, LightReason = "", Light = "VIS", PaintingId = Guid.Empty,
        Facts = new ImageFacts { Width = width, Height = 1000, Bands = 3, Format = SampleFormat.UInt16, FullScale = 65535, Kind = "tiff" },
    };
}
