using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Pairs;

/// <summary>What is no pair, or an odd one: an answer or a problem in words, never another exception.</summary>
public class InvalidPairsTests
{
    private const int Width = 360;
    private const int Height = 300;
    private static readonly Texture Painting = new(5);

    private static readonly Dictionary<string, Func<Plane>> Nothing = new()
    {
        ["constant"] = () => Synthetic.Of(Width, Height, (_, _) => 1000),
        ["no data"] = () => Synthetic.Of(Width, Height, (_, _) => double.NaN),
        ["infinite"] = () => Synthetic.Of(Width, Height, (x, _) => x < 100 ? double.PositiveInfinity : double.NegativeInfinity),
        ["another texture"] = () => new Texture(6).Photograph(Width, Height),
        ["noise"] = () => Synthetic.Of(Width, Height, (_, _) => 1000).AddNoise(100, 3),
        ["a ramp"] = () => Synthetic.Of(Width, Height, (x, y) => x + 0.3 * y),
        ["one bright pixel"] = () => Synthetic.Of(Width, Height, (x, y) => (int)x == 180 && (int)y == 150 ? 60000 : 0),
    };

    public static TheoryData<string> Names => [.. Nothing.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Invalid_pairs_are_not_aligned_and_have_no_map(string name)
    {
        using var pairs = new TestPairs();
        var (textured, other) = (pairs.Float(Painting.Photograph(Width, Height)), pairs.Float(Nothing[name]()));
        foreach (var (reference, moving) in new[] { (textured, other), (other, textured) })
        {
            var found = TestPairs.Align(reference, moving, depth: SearchDepth.Likely);
            Assert.True(found.Verdict == PairVerdict.NotAligned, $"{name}: {found.Reason}");
            Assert.Null(found.Map);
            Assert.NotEmpty(found.Reason);
        }
    }

    [Theory]
    [InlineData("constant")]
    [InlineData("no data")]
    public void Extreme_nothing_on_itself_is_no_pair(string name)
    {
        using var pairs = new TestPairs();
        Assert.Equal(PairVerdict.NotAligned, TestPairs.Align(pairs.Float(Nothing[name]()), pairs.Float(Nothing[name]()), depth: SearchDepth.Likely).Verdict);
    }

    /// <summary>Here every size, turn and hand is tried, and one of some hundred thousand places is the likeliest.</summary>
    [Fact]
    public void Invalid_noise_against_noise_is_not_aligned_wherever_it_is_laid()
    {
        using var pairs = new TestPairs();
        Plane Noise(int seed) => Synthetic.Of(Width, Height, (_, _) => 1000).AddNoise(100, seed);
        var found = TestPairs.Align(pairs.Float(Noise(8)), pairs.Float(Noise(9)));
        Assert.True(found is { Verdict: PairVerdict.NotAligned, Map: null }, found.Reason);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(63, 300)]
    [InlineData(300, 63)]
    public void Invalid_too_small(int width, int height)
    {
        using var pairs = new TestPairs();
        var (textured, small) = (pairs.Float(Painting.Photograph(Width, Height)), pairs.Float(Painting.Photograph(width, height)));
        Assert.Equal("too-small", Assert.Throws<InputProblem>(() => TestPairs.Align(textured, small)).Code);
        Assert.Equal("too-small", Assert.Throws<InputProblem>(() => TestPairs.Align(small, textured)).Code);
    }

    /// <summary>64 pixels are taken: an answer of any kind, but one.</summary>
    [Fact]
    public void Extreme_the_smallest_photograph_has_an_answer()
    {
        using var pairs = new TestPairs();
        var found = TestPairs.Align(pairs.Float(Painting.Photograph(Width, Height)), pairs.Float(Painting.Photograph(64, 64, p => new Point2(p.X + 100, p.Y + 100))), depth: SearchDepth.Likely);
        Assert.Equal(found.Verdict == PairVerdict.NotAligned, found.Map is null);
    }

    [Theory]
    [InlineData("grey 16", "rgb 16")]
    [InlineData("grey 8", "grey 16")]
    [InlineData("rgb 8", "rgba 8")]
    [InlineData("grey 16", "rgba 8")]
    [InlineData("rgb 16", "grey float")]
    public void Known_depth_and_number_of_bands_do_not_matter(string still, string moved)
    {
        using var pairs = new TestPairs();
        PairImage Kind(string kind, Plane plane)
        {
            var (small, opaque) = (plane.Select(v => v / 8), Synthetic.Of(plane.Width, plane.Height, (_, _) => 255));
            return kind switch
            {
                "grey 8" => pairs.Bits8(small), "grey 16" => pairs.Bits16(plane), "grey float" => pairs.Float(plane), "rgb 16" => pairs.Bits16(plane, plane, plane),
                "rgb 8" => pairs.Bits8(small, small, small), _ => pairs.Bits8(small, small, small, opaque),
            };
        }

        var (reference, moving) = (Kind(still, Painting.Photograph(Width, Height)), Kind(moved, Painting.Photograph(Width, Height, p => new Point2(p.X + 7.3, p.Y - 4.6))));
        if (moved == "rgba 8") Assert.Equal(3, moving.Colours);
        var found = TestPairs.Align(reference, moving);
        Assert.True(found.Verdict == PairVerdict.Aligned, found.Reason);
        var errors = TestPairs.Errors(found.Map!, p => new Point2(p.X + 7.3, p.Y - 4.6), reference, moving);
        TestPairs.Say($"{still} - {moved}", found, errors);
        Assert.InRange(errors[errors.Length / 2], 0, 0.1);
    }

    [Fact]
    public void Invalid_cancelled_before_and_meanwhile()
    {
        using var pairs = new TestPairs();
        var (reference, moving) = (pairs.Float(Painting.Photograph(Width, Height)), pairs.Float(Nothing["another texture"]()));
        using var cancelled = new CancellationTokenSource();
        var stages = 0;
        void CancelAtFirst(string stage)
        {
            stages++;
            cancelled.Cancel();
        }

        void Align() => PairAligner.Align(AlignmentTarget.OfPixels(reference), moving, new PairOptions(), new ParallelOptions { CancellationToken = cancelled.Token }, CancelAtFirst);
        Assert.ThrowsAny<OperationCanceledException>(Align);
        Assert.Equal(1, stages);
        Assert.ThrowsAny<OperationCanceledException>(Align);
        Assert.Equal(1, stages);
    }
}
