using Sandarac.Analysis.Alignment;
using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

/// <summary>An examination with a calibration frame: the photographs and the board are drawn through one lens.</summary>
public sealed class LensTests
{
    private const double HeightMm = 272, WidthMm = 319;
    private static readonly HomographyMap Lens = CameraLens.AboutMiddle(-0.06, SmallPhotographs.Width, SmallPhotographs.Height).Under([1, 0, 0, 0, 1, 0, 0, 0, 1]);

    [Fact]
    public void A_frame_gives_its_lens_to_photographs_of_its_size_and_is_none_itself()
    {
        using var home = new TemporaryStudio();
        var folder = Draw(home);
        var board = Path.Combine(folder, "board.tif");
        SmallPhotographs.WriteBoard(board, Lens);
        SmallPhotographs.WriteCropped(Path.Combine(folder, "IR_cropped.tif"), 319, 272, 1, 4);
        var examination = Examine(home, folder, board);
        Assert.Equal(["IR_cropped.tif", "VIS_01.tif"], examination.Photographs.Select(p => p.FileName));

        var alignment = examination.Photographs[1].Alignments.InForce()!;
        var map = Assert.IsType<HomographyMap>(alignment.Map);
        Assert.Equal(-0.06, map.K1, 0.005);
        Assert.InRange(Error(map), 0, 0.25);
        var without = FaceAlignment.FromCorners(alignment.Corners, CameraLens.AboutMiddle(0, SmallPhotographs.Width, SmallPhotographs.Height), HeightMm, WidthMm).Map;
        Assert.InRange(Error(without), 1, 5);
        Assert.Contains("board.tif", alignment.Reason, StringComparison.Ordinal);
        Assert.Equal(0, ((HomographyMap)examination.Photographs[0].Alignments.InForce()!.Map!).K2);

        using var db = home.Studio.CreateDb();
        var plan = AlignmentPlan.Of(db.RequireRun(alignment.RunId!.Value));
        Assert.Equal(new CameraLens(map.Centre, map.Radius, map.K1, map.K2), plan.Lens!.Lens);
        Assert.Equal(Storage.ObjectStore.Hash(board), Assert.Single(plan.Lens.Frames).Sha256);
        // The same frame again changes nothing.
        Assert.Equal(alignment.Id, Examine(home, folder, board).Photographs[1].Alignments.InForce()!.Id);
    }

    [Fact]
    public void A_frame_without_a_board_is_told_and_not_used()
    {
        using var home = new TemporaryStudio();
        var (folder, empty) = (Draw(home), Path.Combine(home.Root, "empty.tif"));
        TinyTiff.Write(empty, SmallPhotographs.Width, SmallPhotographs.Height, 1, new ushort[SmallPhotographs.Width * SmallPhotographs.Height]);
        var examination = Examine(home, folder, empty);
        Assert.Contains("empty.tif", Assert.Single(examination.Warnings, w => w.Code == "lens-not-used").Message, StringComparison.Ordinal);
        Assert.DoesNotContain("empty.tif", Assert.Single(examination.Photographs).Alignments.InForce()!.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_frame_that_no_photograph_is_as_large_as_is_told()
    {
        using var home = new TemporaryStudio();
        var (folder, board) = (Draw(home), Path.Combine(home.Root, "board.tif"));
        SmallPhotographs.WriteBoard(board, Lens);
        File.Delete(Path.Combine(folder, "VIS_01.tif"));
        SmallPhotographs.WriteCropped(Path.Combine(folder, "VIS_cropped.tif"), 319, 272, 3, 4);
        Assert.Contains("board.tif", Assert.Single(Examine(home, folder, board).Warnings, w => w.Code == "lens-not-used").Message, StringComparison.Ordinal);
    }

    private static string Draw(TemporaryStudio home)
    {
        var folder = Directory.CreateDirectory(Path.Combine(home.Root, "photographs")).FullName;
        SmallPhotographs.WriteThrough(Path.Combine(folder, "VIS_01.tif"), Lens, 3, 1);
        return folder;
    }

    private static Examination Examine(TemporaryStudio home, string folder, string frame) => new Examining(home.Studio).Examine(folder,
        new ExamineOptions { UserName = "test", CornersOnly = true, HeightMm = HeightMm, WidthMm = WidthMm, Lens = [frame] }, cancellation: TestContext.Current.CancellationToken);

    /// <summary>The farthest that the map puts a place of the face from where it belongs, pixels.</summary>
    private static double Error(HomographyMap map)
    {
        Point2[] face = [new(0, 0), new(WidthMm, 0), new(WidthMm, HeightMm), new(0, HeightMm)];
        var truth = Homography.Fit(face, SmallPhotographs.Corners);
        var places = from i in Enumerable.Range(0, 9) from j in Enumerable.Range(0, 9) select new Point2(i / 8.0 * WidthMm, j / 8.0 * HeightMm);
        return places.Max(p => map.ToPixel(p).DistanceTo(Lens.ToPixel(truth.Apply(p))));
    }
}
