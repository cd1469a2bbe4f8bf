using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Tests.Alignment.Lenses;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Pairs;

/// <summary>A photograph through a lens that is known from a chessboard, on a reference without one. Only its middle shows anything: what a map does in its corners, no patch tells.</summary>
public sealed class KnownLensTests : IDisposable
{
    private const int Width = 900, Height = 700;
    private static readonly HomographyMap Truth = Through([1.03, 0.02, -18, -0.015, 0.98, 9, 3e-5, -2e-5, 1]);
    private static readonly double[] Inset = [0.02, 0.98];
    private readonly TempFolder _folder = new();
    private readonly string _reference, _moving, _board;

    public KnownLensTests()
    {
        var painting = new Texture(5);
        _reference = TestTiff.WriteFloat(_folder["reference.tif"], painting.Photograph(Width, Height));
        var seen = painting.Photograph(Width, Height, Truth.ToPlane);
        _moving = TestTiff.WriteFloat(_folder["moving.tif"], Synthetic.Of(Width, Height, (x, y) => IsMiddle(x, y) ? seen[(int)x, (int)y] : Texture.Mean));
        _board = TestTiff.WriteFloat(_folder["board.tif"], BoardScene.Photograph(Width, Height, Through([0.1, 0.003, -46, -0.002, 0.1, -34, 1e-5, -2e-5, 1])));
    }

    [Theory]
    [InlineData(null, MapModel.Homography)]
    [InlineData(MapModel.HomographyWithLens, MapModel.HomographyWithLens)]
    public void Known_lens_is_held_and_places_the_corners_where_no_patches_are(MapModel? wanted, MapModel expected)
    {
        var (without, with) = (Align(wanted), Align(wanted, _board));
        TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant($"farthest corner: {CornerError(without):0.00} px without ({without.Model}), {CornerError(with):0.00} px with the lens"));
        Assert.Equal((PairVerdict.Aligned, expected), (with.Verdict, with.Model!.Value));
        Assert.InRange(CornerError(with), 0, 0.5);
        Assert.InRange(CornerError(with), 0, CornerError(without) / 2);
        var map = Assert.IsType<HomographyMap>(with.Map);
        Assert.Equal(with.Lens!.Lens, new CameraLens(map.Centre, map.Radius, map.K1, map.K2));
        Assert.Equal("board.tif", Assert.Single(with.Lens.Frames).Name);
        Assert.Equal(64, with.Lens.Frames[0].Sha256.Length);
    }

    [Fact]
    public void A_frame_without_a_board_is_told_and_not_used()
    {
        var empty = TestTiff.WriteFloat(_folder["empty.tif"], Synthetic.Of(Width, Height, (_, _) => 0.5).AddNoise(0.05, 3));
        var (without, with) = (Align(null), Align(null, empty));
        Assert.Null(with.Lens);
        Assert.Contains("empty.tif", Assert.Single(with.Warnings, w => w.Code == "lens-not-used").Message, StringComparison.Ordinal);
        Assert.Equal(CornerError(without), CornerError(with));
    }

    [Fact]
    public void Among_several_frames_one_without_a_board_is_left_out()
    {
        var empty = TestTiff.WriteFloat(_folder["empty.tif"], Synthetic.Of(Width, Height, (_, _) => 0.5).AddNoise(0.05, 3));
        var with = Align(null, empty, _board);
        Assert.Equal(["board.tif"], with.Lens!.Frames.Select(f => f.Name));
        Assert.Contains(with.Warnings, w => w.Code == "lens-no-board");
    }

    [Fact]
    public void Invalid_frame_of_another_size_is_refused()
    {
        var turned = TestTiff.WriteFloat(_folder["turned.tif"], new Plane(Height, Width));
        var problem = Assert.Throws<InputProblem>(() => Align(null, _board, turned));
        Assert.Equal(("lens-size", turned), (problem.Code, problem.Subject));
        Assert.Contains($"{Height} x {Width}", problem.Message, StringComparison.Ordinal);
    }

    public void Dispose() => _folder.Dispose();

    private BareAlignmentResult Align(MapModel? model, params string[] frames) =>
        BareAlignment.Run(new BareAlignmentRequest(_reference, _moving, Model: model, Lens: frames), null, TestContext.Current.CancellationToken);

    private static double CornerError(BareAlignmentResult result) =>
        (from x in Inset from y in Inset let p = new Point2(x * Width, y * Height) select result.Map!.ToPlane(p).DistanceTo(Truth.ToPlane(p))).Max();

    private static bool IsMiddle(double x, double y) => Math.Abs(x - Width / 2.0) < 0.27 * Width && Math.Abs(y - Height / 2.0) < 0.27 * Height;

    private static HomographyMap Through(double[] pixelToPlane) => new(pixelToPlane, new Point2(Width / 2.0 + 4, Height / 2.0 - 3), Math.Sqrt(Width * Width + Height * Height) / 2, -0.05, 0.008);
}
