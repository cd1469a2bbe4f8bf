using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Pairs;

/// <summary>A photograph of an analytic texture is drawn through a known map and aligned: the map comes back.</summary>
public class RoundtripTests
{
    private const int Width = 600;
    private const int Height = 480;
    private static readonly Texture Painting = new(3);

    private static readonly Dictionary<string, (int Width, int Height, HomographyMap Map)> Maps = new()
    {
        ["translation"] = (Width, Height, Similar(1, 0, 31.7, -18.2)),
        ["turned by 37 degrees"] = (480, 460, Similar(1, 37, 250, -70)),
        ["turned by 90 degrees and mirrored, seen from behind"] = (Height, Width, Similar(1, 90, Width + 3.4, 5.6, Height)),
        ["scale 0.4"] = (250, 200, Similar(2.5, 3, 4, -6)),
        ["scale 2.5"] = (1500, 1200, Similar(0.4, -3, -5, 12)),
        ["an overlap of a third"] = (Width, Height, Similar(1, 2, 400, 5)),
        ["homography"] = (Width, Height, new HomographyMap([1.04, 0.03, -20, -0.02, 0.97, 15, 6e-5, -4e-5, 1])),
        ["homography with lens"] = (Width, Height, new HomographyMap([1.04, 0.03, -20, -0.02, 0.97, 15, 6e-5, -4e-5, 1], new Point2(Width / 2.0, Height / 2.0), Math.Sqrt(Width * Width + Height * Height) / 2, -0.04)),
    };

    public static TheoryData<string> Names => [.. Maps.Keys];

    /// <summary>Every place of the overlap lies within a tenth of a pixel of the reference in the median.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Roundtrip_of(string name)
    {
        var (width, height, map) = Maps[name];
        var found = Check(name, width, height, map.ToPlane, v => v);
        Assert.NotEqual(MapModel.Smooth, found.Model);
        if (name == "homography with lens") Assert.Equal(MapModel.HomographyWithLens, found.Model);
    }

    [Fact]
    public void Roundtrip_with_light_and_dark_exchanged() => Check("reversed", Width, Height, Similar(1, 4, 10, -7).ToPlane, v => 2500 - v);

    /// <summary>As where one pigment fades and another darkens: brightness is a steep curve with a turn.</summary>
    [Fact]
    public void Roundtrip_with_contrast_reversed_in_the_darks_alone() => Check("half reversed", Width, Height, Similar(1, 4, 10, -7).ToPlane, v => Math.Abs(v - 1000));

    /// <summary>A panel that bends by three pixels up and down over its width asks for more than a homography, and gets it.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Roundtrip_of_a_smooth_bending(double a)
    {
        Point2 Bend(Point2 p) => new(p.X + 5 + a * Math.Sin(2 * Math.PI * p.Y / 520 + 0.6), p.Y - 3 + a * Math.Sin(2 * Math.PI * p.X / 560));
        Assert.Equal(MapModel.Smooth, Check("bending", Width, Height, Bend, v => v).Model);
    }

    private static PairAlignment Check(string name, int width, int height, Func<Point2, Point2> truth, Func<float, float> tone)
    {
        using var pairs = new TestPairs();
        var (reference, moving) = (pairs.Float(Painting.Photograph(Width, Height)), pairs.Float(Painting.Photograph(width, height, truth).Select(tone)));
        var found = TestPairs.Align(reference, moving);
        Assert.True(found.Verdict == PairVerdict.Aligned, $"{name}: {found.Reason}");
        var errors = TestPairs.Errors(found.Map!, truth, reference, moving);
        TestPairs.Say(name, found, errors);
        Assert.InRange(errors[errors.Length / 2], 0, 0.1);
        return found;
    }

    /// <summary>Turned about the first pixel's corner, then moved; mirrored first where a width is given.</summary>
    private static HomographyMap Similar(double scale, double degrees, double x, double y, int? mirrored = null)
    {
        var (c, s) = (scale * Math.Cos(degrees * Math.PI / 180), scale * Math.Sin(degrees * Math.PI / 180));
        return mirrored is { } w ? new HomographyMap([-c, -s, x + c * w, -s, c, y + s * w, 0, 0, 1]) : new HomographyMap([c, -s, x, s, c, y, 0, 0, 1]);
    }
}
