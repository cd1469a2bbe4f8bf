using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Pairs;

/// <summary>Alignment by hand.</summary>
public class PointPairsTests
{
    private const int Width = 800;
    private const int Height = 600;

    private static HomographyMap True(MapModel model) => model switch
    {
        MapModel.Similarity => new([0.9, 0.3, 14, -0.3, 0.9, -8, 0, 0, 1]),
        MapModel.Affine => new([0.9, 0.35, 14, -0.3, 1.1, -8, 0, 0, 1]),
        MapModel.Homography => new([0.9, 0.35, 14, -0.3, 1.1, -8, 8e-5, -6e-5, 1]),
        _ => new([0.9, 0.35, 14, -0.3, 1.1, -8, 8e-5, -6e-5, 1], new Point2(412, 293), 500, -0.04, 0.01),
    };

    /// <summary>Scattered, as a person sets them.</summary>
    private static PointPair[] Pairs(PlaneMap map, int count) =>
        [.. Enumerable.Range(0, count).Select(i => new Point2(60 + 680 * Frac(0.5 + i * 0.754877666), 50 + 500 * Frac(0.5 + i * 0.569840296))).Select(p => new PointPair(map.ToPlane(p), p))];

    private static double Frac(double v) => v - Math.Floor(v);

    [Theory]
    [InlineData(MapModel.Similarity, 2)]
    [InlineData(MapModel.Affine, 3)]
    [InlineData(MapModel.Homography, 4)]
    [InlineData(MapModel.Homography, 9)]
    [InlineData(MapModel.HomographyWithLens, 14)]
    [InlineData(MapModel.Smooth, 14)]
    public void Roundtrip_exact_pairs_give_the_map_back(MapModel model, int count)
    {
        var map = True(model == MapModel.Smooth ? MapModel.HomographyWithLens : model);
        var fit = PointPairs.Fit(Pairs(map, count), Width, Height, model);
        foreach (var pair in Pairs(map, 40)) Assert.InRange(fit.Map.ToPlane(pair.Pixel).DistanceTo(pair.Place), 0, model < MapModel.HomographyWithLens ? 1e-6 : 0.05);
        Assert.Equal(count, fit.Residuals.Count);
    }

    [Fact]
    public void Roundtrip_a_mirrored_photograph_from_three_pairs()
    {
        var map = new HomographyMap([-1.2, 0.1, 700, 0.1, 1.2, 30, 0, 0, 1]);
        var fit = PointPairs.Fit(Pairs(map, 3), Width, Height, MapModel.Affine);
        foreach (var pair in Pairs(map, 20)) Assert.InRange(fit.Map.ToPlane(pair.Pixel).DistanceTo(pair.Place), 0, 1e-6);
    }

    [Theory]
    [InlineData(MapModel.Similarity)]
    [InlineData(MapModel.Affine)]
    [InlineData(MapModel.Homography)]
    [InlineData(MapModel.HomographyWithLens)]
    [InlineData(MapModel.Smooth)]
    public void Invalid_too_few(MapModel model)
    {
        var pairs = Pairs(True(model), PointPairs.Fewest(model));
        pairs[^1] = pairs[^1] with { Used = false };
        Assert.Equal("too-few-pairs", Assert.Throws<InputProblem>(() => PointPairs.Fit(pairs, Width, Height, model)).Code);
        Assert.Equal("too-few-pairs", Assert.Throws<InputProblem>(() => PointPairs.Fit([], Width, Height, model)).Code);
    }

    [Theory]
    [InlineData(MapModel.Affine)]
    [InlineData(MapModel.Homography)]
    [InlineData(MapModel.HomographyWithLens)]
    [InlineData(MapModel.Smooth)]
    public void Invalid_on_one_line(MapModel model)
    {
        PointPair[] line = [.. Enumerable.Range(1, 12).Select(i => new Point2(50 * i, 40 * i)).Select(p => new PointPair(True(MapModel.Similarity).ToPlane(p), p))];
        Assert.Equal("pairs-degenerate", Assert.Throws<InputProblem>(() => PointPairs.Fit(line, Width, Height, model)).Code);
    }

    [Theory]
    [InlineData(MapModel.Similarity)]
    [InlineData(MapModel.Homography)]
    public void Invalid_all_in_one_place(MapModel model) =>
        Assert.Equal("pairs-degenerate", Assert.Throws<InputProblem>(() => PointPairs.Fit([.. Enumerable.Repeat(new PointPair(new(5, 5), new(7, 7)), 6)], Width, Height, model)).Code);

    /// <summary>A pair that is not used is measured and does not count: its residual is how far it was set wrong, to the last digit.</summary>
    [Fact]
    public void Known_residual_of_an_unused_pair()
    {
        var map = True(MapModel.Affine);
        var pairs = Pairs(map, 8);
        pairs[2] = pairs[2] with { Place = new Point2(pairs[2].Place.X - 3, pairs[2].Place.Y + 4), Used = false };
        var fit = PointPairs.Fit(pairs, Width, Height, MapModel.Affine);
        Assert.InRange(fit.Residuals[2].DistanceTo(new Point2(3, -4)), 0, 1e-6);
        Assert.Equal(5, fit.LeftOut[2]!.Value, 1e-6);
    }

    /// <summary>A wrong pair draws the map to itself: its own residual is less than it is wrong, 10; without it the others agree and it shows all of it.</summary>
    [Fact]
    public void Known_a_wrong_pair_is_the_one_without_which_the_others_agree()
    {
        var pairs = Pairs(True(MapModel.Homography), 9);
        pairs[4] = pairs[4] with { Place = new Point2(pairs[4].Place.X + 6, pairs[4].Place.Y - 8) };
        var fit = PointPairs.Fit(pairs, Width, Height, MapModel.Homography);
        Assert.Equal(4, fit.OthersRms.Index().MinBy(o => o.Item).Index);
        Assert.InRange(fit.OthersRms[4]!.Value, 0, 1e-6);
        Assert.Equal(10, fit.LeftOut[4]!.Value, 1e-5);
        Assert.True(MapFit.Length(fit.Residuals[4]) < 10);
    }

    [Fact]
    public void Extreme_pairs_that_just_fix_the_model_cannot_be_left_out()
    {
        var fit = PointPairs.Fit(Pairs(True(MapModel.Affine), 3), Width, Height, MapModel.Affine);
        Assert.All(fit.LeftOut, l => Assert.Null(l));
        Assert.All(fit.OthersRms, o => Assert.Null(o));
    }

    [Fact]
    public void Roundtrip_snap_brings_a_pixel_back_from_five_away()
    {
        var texture = new Texture(7);
        var map = new HomographyMap([0.98, 0.12, 14, -0.12, 0.98, 40, 0, 0, 1]);
        using var images = new TestPairs();
        var (reference, moving) = (images.Float(texture.Photograph(500, 400)), images.Float(texture.Photograph(500, 400, map.ToPlane)));
        foreach (var pixel in new Point2[] { new(250.4, 200.9), new(180, 230.5) })
        {
            var snapped = PointPairs.Snap(AlignmentTarget.OfPixels(reference), moving, map, new PointPair(map.ToPlane(pixel), new Point2(pixel.X + 3, pixel.Y - 4)));
            Assert.NotNull(snapped);
            Assert.Equal(map.ToPlane(pixel), snapped.Value.Pair.Place);
            Assert.InRange(snapped.Value.Pair.Pixel.DistanceTo(pixel), 0, 0.1);
        }
    }

    [Fact]
    public void Invalid_snap_where_nothing_stands_out()
    {
        using var images = new TestPairs();
        var plain = images.Float(Synthetic.Of(400, 400, (_, _) => 5));
        Assert.Null(PointPairs.Snap(AlignmentTarget.OfPixels(plain), plain, new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1]), new PointPair(new(200, 200), new(203, 204))));
    }

    [Fact]
    public void Known_only_spread_pairs_that_others_confirm_are_aligned()
    {
        var map = True(MapModel.Affine);
        (PairVerdict, string) Judged(PointPair[] pairs) => PairsJudgement.Judge(PointPairs.Fit(pairs, Width, Height, MapModel.Affine), pairs, Width, Height);
        Assert.Equal(PairVerdict.Aligned, Judged(Pairs(map, 8)).Item1);
        // Three pairs fix an affine map: no fourth says whether they are right.
        Assert.Equal(PairVerdict.Uncertain, Judged(Pairs(map, 3)).Item1);
        PointPair[] wrong = [.. Pairs(map, 8).Select((p, i) => i == 3 ? p with { Pixel = new(p.Pixel.X + 30, p.Pixel.Y) } : p)];
        Assert.Equal(PairVerdict.Uncertain, Judged(wrong).Item1);
        Assert.Equal(PairVerdict.Aligned, Judged([.. wrong.Select((p, i) => p with { Used = i != 3 })]).Item1);
        PointPair[] close = [.. Pairs(map, 8).Select(p => new Point2(300 + p.Pixel.X / 4, 200 + p.Pixel.Y / 4)).Select(p => new PointPair(map.ToPlane(p), p))];
        Assert.Equal(PairVerdict.Uncertain, Judged(close).Item1);
    }
}
