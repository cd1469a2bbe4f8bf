using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Analysis.Alignment.Rulers;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Rulers;

/// <summary>A face and a ruler in one plane, seen by a pinhole camera whose tilt is known here and nowhere else.</summary>
public class RuledFaceTests
{
    private const double WidthMm = 518, HeightMm = 412, Distance = 1500, PixelsPerMm = 2.4;

    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(1, -0.5, 0)]
    [InlineData(-2, 2, 0.01)]
    [InlineData(4, 3, -0.02)]
    public void Known_sizes_are_found_within_their_uncertainty(double tiltX, double tiltY, double k1)
    {
        var seen = Seen(tiltX, tiltY, k1);
        Point2[] corners = [seen(new(0, 0)), seen(new(WidthMm, 0)), seen(new(WidthMm, HeightMm)), seen(new(0, HeightMm))];
        foreach (var (from, to) in (ReadOnlySpan<(Point2, Point2)>)[(new(80, 333), new(380, 333)), (new(500, 20), new(500, 320)), (new(-20, 430), new(150, 420))])
        {
            var ruler = new RulerScale(1 / PixelsPerMm, 1e-5, from.DistanceTo(to), seen(from), seen(to));
            var face = RuledFace.Of(corners, 0.1, CameraLens.AboutMiddle(k1, 1345, 1100), 1345, 1100, ruler);
            TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant($"{tiltX}, {tiltY}: {face.WidthMm:0.00} x {face.HeightMm:0.00}, {100 * face.Uncertainty:0.000} %"));
            Assert.InRange(Math.Abs(face.WidthMm / WidthMm - 1), 0, face.Uncertainty);
            Assert.InRange(Math.Abs(face.HeightMm / HeightMm - 1), 0, face.Uncertainty);
            Assert.InRange(face.Uncertainty, 0, 0.05);
        }
    }

    [Fact]
    public void Invalid_corners_are_refused() => Assert.Throws<ArgumentException>(() =>
        RuledFace.Of([new(0, 0), new(0, 100), new(100, 100), new(100, 0)], 0.1, CameraLens.AboutMiddle(0, 200, 200), 200, 200, new RulerScale(1, 0, 50, new(10, 10), new(60, 10))));

    /// <summary>Camera at a distance along the axis through the face's middle, the face tilted about both axes.</summary>
    private static Func<Point2, Point2> Seen(double tiltX, double tiltY, double k1)
    {
        var (a, b) = (tiltX * Math.PI / 180, tiltY * Math.PI / 180);
        var lens = new HomographyMap([1, 0, 0, 0, 1, 0, 0, 0, 1], new Point2(672.5, 550), Math.Sqrt(1345 * 1345 + 1100 * 1100) / 2, k1);
        return mm =>
        {
            var (x, y) = (mm.X - WidthMm / 2, mm.Y - HeightMm / 2);
            var (u, z) = (x * Math.Cos(a), x * Math.Sin(a));
            var (v, depth) = (y * Math.Cos(b) - z * Math.Sin(b), Distance + y * Math.Sin(b) + z * Math.Cos(b));
            return lens.ToPixel(new Point2(672.5 + PixelsPerMm * u * Distance / depth, 550 + PixelsPerMm * v * Distance / depth));
        };
    }
}
