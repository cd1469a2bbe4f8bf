using Sandarac.Imaging.Geometry;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Cameras;

/// <summary>A frame and where the plane lies in it.</summary>
/// <param name="Width">Pixels across.</param>
/// <param name="Height">Pixels down.</param>
/// <param name="Map">Pixels to mm, lens distortion included.</param>
internal sealed record Pose(int Width, int Height, HomographyMap Map)
{
    /// <summary>The plane's corners in pixels: upper left, upper right, lower right, lower left.</summary>
    public Point2[] Corners { get; } = [.. PlaneCorners.Select(Map.ToPixel)];

    /// <summary>The plane's corners, mm, in the same order.</summary>
    public static IReadOnlyList<Point2> PlaneCorners { get; } =
        [new(0, 0), new(SpecimenPainting.WidthMm, 0), new(SpecimenPainting.WidthMm, SpecimenPainting.HeightMm),
            new(0, SpecimenPainting.HeightMm)];

    /// <summary>A camera on a copying stand, nearly square to the panel, the panel filling some 91 % of the frame's width. Photographs of
    /// one set-up
    /// share its pose but for the little that a tripod and a lens move between exposures.</summary>
    public static Pose OnStand(double pixelsPerInch, int seed, int setup, int exposure)
    {
        var dice = new Dice(seed ^ 0x0CA3E7A, setup);
        var scale = pixelsPerInch / 25.4;
        var (w, h) = ((int)Math.Round(SpecimenPainting.WidthMm * scale / 0.91), (int)Math.Round(SpecimenPainting.HeightMm * scale / 0.885));
        var (turn, tiltX, tiltY) = (Degrees(dice.Between(-0.8, 0.8)), Degrees(dice.Between(-0.7, 0.7)), Degrees(dice.Between(-0.7, 0.7)));
        var (offX, offY) = (dice.Between(-4, 4), dice.Between(-4, 4));
        var (k1, k2) = (dice.Between(-0.014, 0.006), dice.Between(-0.002, 0.002));
        var nudge = new Dice(seed ^ 0x0CA3E7B, setup * 1000 + exposure);
        turn += Degrees(nudge.Between(-0.03, 0.03));
        (offX, offY) = (offX + nudge.Between(-0.5, 0.5), offY + nudge.Between(-0.5, 0.5));
        Point2[] seen = [.. PlaneCorners.Select(p => Project(p, turn, tiltX, tiltY, offX, offY))];
        Point2[] pixels = [.. seen.Select(p => new Point2(w / 2.0 + p.X * scale, h / 2.0 + p.Y * scale))];
        var toPlane = Homography.Fit(pixels, PlaneCorners);
        var centre = new Point2(w / 2.0 + dice.Between(-0.01, 0.01) * w, h / 2.0 + dice.Between(-0.01, 0.01) * h);
        return new Pose(w, h, new HomographyMap(toPlane.Coefficients, centre, Math.Sqrt((double)w * w + (double)h * h) / 2, k1, k2));
    }

    /// <summary>Square to the plane: a film on the panel, or a microscope's stage.</summary>
    public static Pose Square(double leftMm, double topMm, double widthMm, double heightMm, double pixelsPerInch, double turnDegrees)
    {
        var mm = 25.4 / pixelsPerInch;
        var (c, s) = (Math.Cos(Degrees(turnDegrees)) * mm, Math.Sin(Degrees(turnDegrees)) * mm);
        return new Pose((int)Math.Round(widthMm / mm), (int)Math.Round(heightMm / mm),
            new HomographyMap([c, -s, leftMm, s, c, topMm, 0, 0, 1]));
    }

    /// <summary>A pinhole 1500 mm away from the panel's centre.</summary>
    private static Point2 Project(Point2 mm, double turn, double tiltX, double tiltY, double offX, double offY)
    {
        const double distance = 1500;
        var (x, y) = (mm.X - SpecimenPainting.WidthMm / 2, mm.Y - SpecimenPainting.HeightMm / 2);
        (x, y) = (x * Math.Cos(turn) - y * Math.Sin(turn), x * Math.Sin(turn) + y * Math.Cos(turn));
        var depth = distance + x * Math.Sin(tiltX) + y * Math.Sin(tiltY);
        return new Point2((x * Math.Cos(tiltX)) * distance / depth + offX, (y * Math.Cos(tiltY)) * distance / depth + offY);
    }

    private static double Degrees(double d) => d * Math.PI / 180;
}
