using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Pairs;

/// <summary>Shifts by parts of a pixel, on a texture that is evaluated and not resampled: the truth is exact.</summary>
public class PhaseShiftTests
{
    /// <summary>The first is the shift of the example "Image Registration" in scikit-image's gallery, there (-22.4, 13.32) rows and columns.</summary>
    [Theory]
    [InlineData(13.32, -22.4)]
    [InlineData(0, 0)]
    [InlineData(0.5, 0.5)]
    [InlineData(-0.25, 61.75)]
    public void Known_shift_is_found_to_a_fiftieth_of_a_pixel(double x, double y)
    {
        var texture = new Texture(1);
        using var pairs = new TestPairs();
        var (reference, moving) = (pairs.Float(texture.Photograph(600, 480)), pairs.Float(texture.Photograph(600, 480, p => new Point2(p.X + x, p.Y + y))));
        var found = TestPairs.Align(reference, moving, MapModel.Similarity);
        Assert.Equal(PairVerdict.Aligned, found.Verdict);
        var errors = TestPairs.Errors(found.Map!, p => new Point2(p.X + x, p.Y + y), reference, moving);
        TestPairs.Say($"shift {x} {y}", found, errors);
        Assert.InRange(errors[^1], 0, 0.02);
    }

    /// <summary>A single patch: the quadratic surface through nine values of the correlation is good to a few hundredths of a pixel.</summary>
    [Theory]
    [InlineData(0.3, -0.7)]
    [InlineData(-4.4, 2.25)]
    [InlineData(6.5, -5.5)]
    public void Known_shift_of_one_patch(double x, double y)
    {
        var texture = new Texture(2);
        var taps = GaussianTaps.Of(1.2);
        var margin = StructureField.Margin(taps);
        var patch = texture.Photograph(64 + 2 * margin, 64 + 2 * margin, p => new Point2(p.X + 8, p.Y + 8));
        var window = texture.Photograph(80 + 2 * margin, 80 + 2 * margin, p => new Point2(p.X - x, p.Y - y));
        foreach (var kind in new[] { StructureKind.Directions, StructureKind.Gradients })
        {
            var peak = PatchCorrelation.Find(StructureField.Of([patch], taps, kind), StructureField.Of([window], taps, kind), eitherSign: false);
            TestContext.Current.SendDiagnosticMessage($"{kind} {x} {y}: {peak}");
            Assert.NotNull(peak);
            Assert.InRange(new Point2(peak.Value.X, peak.Value.Y).DistanceTo(new Point2(x, y)), 0, 0.1);
            Assert.False(peak.Value.Reversed);
        }
    }

    [Fact]
    public void Known_light_for_dark_is_found_and_told()
    {
        var texture = new Texture(2);
        var taps = GaussianTaps.Of(1.2);
        var patch = StructureField.Of([texture.Photograph(72, 72, p => new Point2(p.X + 8, p.Y + 8))], taps, StructureKind.Gradients);
        var window = StructureField.Of([texture.Photograph(88, 88, p => new Point2(p.X - 2.5, p.Y)).Select(v => 2000 - v)], taps, StructureKind.Gradients);
        var peak = PatchCorrelation.Find(patch, window, eitherSign: true)!.Value;
        Assert.True(peak.Reversed);
        Assert.InRange(new Point2(peak.X, peak.Y).DistanceTo(new Point2(2.5, 0)), 0, 0.1);
    }

    [Fact]
    public void Invalid_plain_patch_or_window_has_no_place()
    {
        var taps = GaussianTaps.Of(1.2);
        var (plain, textured) = (Synthetic.Of(72, 72, (_, _) => 7), new Texture(2).Photograph(88, 88));
        Assert.Null(PatchCorrelation.Find(StructureField.Of([plain], taps, StructureKind.Gradients), StructureField.Of([textured], taps, StructureKind.Gradients), true));
        Assert.Null(PatchCorrelation.Find(StructureField.Of([new Texture(2).Photograph(72, 72)], taps, StructureKind.Directions), StructureField.Of([Synthetic.Of(88, 88, (_, _) => 7)], taps, StructureKind.Directions), true));
    }
}
