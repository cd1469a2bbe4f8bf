using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>
/// The numbers of a map in a form in which all are of one size: moving pixels counted from the image's middle in half diagonals, the target from a middle
/// in a unit of like size. The homography goes from target to ideal pixels; the lens then moves them outward or inward.
/// </summary>
/// <param name="Width">Columns of the moving photograph.</param>
/// <param name="Height">Rows.</param>
/// <param name="Middle">Middle of the matches on the target.</param>
/// <param name="Unit">Their spread, target units.</param>
/// <param name="Mirrored">Whether the photograph shows the target from behind.</param>
/// <param name="Known">The photograph's lens, where it is known: every model is seen through it, and none fits another.</param>
internal sealed record MapFrame(int Width, int Height, Point2 Middle, double Unit, bool Mirrored, CameraLens? Known = null)
{
    private Point2 Centre => new(Width / 2.0, Height / 2.0);

    private double Radius => CameraLens.HalfDiagonal(Width, Height);

    private double Hand => Mirrored ? -1 : 1;

    /// <summary>The known lens's two terms and centre in own units; null when it is not known.</summary>
    private readonly double[]? _held = Known is null ? null : InOwnUnits(Known, Width, Height);

    public static MapFrame For(PairImage moving, IReadOnlyList<Match> matches, HomographyMap map) =>
        For(moving.File.Width, moving.File.Height, [.. matches.Select(m => m.Target)], map, moving.Lens);

    public static MapFrame For(int width, int height, IReadOnlyList<Point2> places, HomographyMap map, CameraLens? known = null)
    {
        Point2 middle = new(places.Average(p => p.X), places.Average(p => p.Y));
        return new MapFrame(width, height, middle, Math.Max(1e-9, places.Max(p => p.DistanceTo(middle))), IsMirrored(map, new Point2(width / 2.0, height / 2.0)), known);
    }

    /// <summary>How many numbers a model has.</summary>
    public static int Count(MapModel model) => model switch
    {
        MapModel.Similarity => 4,
        MapModel.Affine => 6,
        MapModel.Homography => 8,
        _ => 12,
    };

    /// <summary>How many numbers of a model are fitted here: not those of a lens that is known.</summary>
    public int Free(MapModel model) => Known is null ? Count(model) : Math.Min(Count(model), Count(MapModel.Homography));

    /// <summary>A map's numbers.</summary>
    public double[] Parameters(HomographyMap map, MapModel model)
    {
        // From target (own units) to ideal pixels (own units).
        var inverse = new Homography(map.PixelToPlane).Inverse();
        Point2[] corners = [new(-1, -1), new(1, -1), new(1, 1), new(-1, 1)];
        Point2[] pixels = [.. corners.Select(c => inverse.Apply(new Point2(Middle.X + c.X * Unit, Middle.Y + c.Y * Unit))).Select(p => new Point2((p.X - Centre.X) / Radius, (p.Y - Centre.Y) / Radius))];
        var h = Homography.Fit(corners, pixels).Coefficients;
        return model switch
        {
            MapModel.Similarity => Similar(h),
            MapModel.Affine => [h[0], h[1], h[2], h[3], h[4], h[5]],
            _ when Free(model) == 8 => [.. h.Take(8)],
            _ when map is { K1: 0, K2: 0 } => [.. h.Take(8), 0, 0, 0, 0],
            _ => [.. h.Take(8), .. InOwnUnits(new CameraLens(map.Centre, map.Radius, map.K1, map.K2), Width, Height)],
        };
    }

    /// <summary>The map of numbers.</summary>
    public HomographyMap Map(double[] p, MapModel model)
    {
        var h = Full(p, model);
        Point2[] corners = [new(-1, -1), new(1, -1), new(1, 1), new(-1, 1)];
        Point2[] pixels = [.. corners.Select(new Homography([.. h, 1]).Apply).Select(q => new Point2(Centre.X + q.X * Radius, Centre.Y + q.Y * Radius))];
        Point2[] targets = [.. corners.Select(c => new Point2(Middle.X + c.X * Unit, Middle.Y + c.Y * Unit))];
        var toPlane = Homography.Fit(pixels, targets).Coefficients;
        return p.Length == 12 ? new HomographyMap(toPlane, new Point2(Centre.X + p[10] * Radius, Centre.Y + p[11] * Radius), Radius, p[8], p[9])
            : Known?.Under(toPlane) ?? new HomographyMap(toPlane, Centre, Radius);
    }

    private static double[] InOwnUnits(CameraLens lens, int width, int height)
    {
        var radius = CameraLens.HalfDiagonal(width, height);
        var scale = radius / lens.Radius;
        return [lens.K1 * scale * scale, lens.K2 * Math.Pow(scale, 4), (lens.Centre.X - width / 2.0) / radius, (lens.Centre.Y - height / 2.0) / radius];
    }

    /// <summary>What is left of a match, target units, and how it changes with each number.</summary>
    /// <param name="p">The numbers.</param>
    /// <param name="model">What they are.</param>
    /// <param name="match">The match.</param>
    /// <param name="rows">Receives the two rows of derivatives.</param>
    public Point2 Residual(double[] p, MapModel model, Match match, double[,] rows)
    {
        Point2 seen = new((match.Moving.X - Centre.X) / Radius, (match.Moving.Y - Centre.Y) / Radius);
        Point2 t = new((match.Target.X - Middle.X) / Unit, (match.Target.Y - Middle.Y) / Unit);
        var at = Project(p, model, t);
        // How target units turn into pixels here; its inverse turns the difference in pixels into one on the target.
        const double h = 1e-5;
        var (px, py) = (Project(p, model, new Point2(t.X + h, t.Y)), Project(p, model, new Point2(t.X, t.Y + h)));
        var (a, b, c, d) = ((px.X - at.X) / h, (py.X - at.X) / h, (px.Y - at.Y) / h, (py.Y - at.Y) / h);
        var determinant = a * d - b * c;
        Point2 ToTarget(double x, double y) => new(Unit * (d * x - b * y) / determinant, Unit * (a * y - c * x) / determinant);
        var q = (double[])p.Clone();
        for (var k = 0; k < p.Length; k++)
        {
            const double step = 1e-6;
            q[k] = p[k] + step;
            var moved = Project(q, model, t);
            q[k] = p[k];
            var change = ToTarget((at.X - moved.X) / step, (at.Y - moved.Y) / step);
            (rows[0, k], rows[1, k]) = (change.X, change.Y);
        }
        return ToTarget(seen.X - at.X, seen.Y - at.Y);
    }

    private Point2 Project(double[] p, MapModel model, Point2 t)
    {
        var ideal = Ideal(p, model, t);
        return p.Length == 12 ? Distort(p.AsSpan(8), ideal) : _held is null ? ideal : Distort(_held, ideal);
    }

    private Point2 Ideal(double[] p, MapModel model, Point2 t)
    {
        double x, y, w = 1;
        if (model == MapModel.Similarity)
        {
            return new Point2(p[0] * t.X - Hand * p[1] * t.Y + p[2], p[1] * t.X + Hand * p[0] * t.Y + p[3]);
        }
        (x, y) = (p[0] * t.X + p[1] * t.Y + p[2], p[3] * t.X + p[4] * t.Y + p[5]);
        if (p.Length >= 8) w = p[6] * t.X + p[7] * t.Y + 1;
        return new Point2(x / w, y / w);
    }

    /// <summary>Through a lens of two terms and a centre.</summary>
    private static Point2 Distort(ReadOnlySpan<double> lens, Point2 ideal)
    {
        var (dx, dy) = (ideal.X - lens[2], ideal.Y - lens[3]);
        var r2 = dx * dx + dy * dy;
        var f = 1 + r2 * (lens[0] + r2 * lens[1]);
        return new Point2(lens[2] + dx * f, lens[3] + dy * f);
    }

    private double[] Full(double[] p, MapModel model) => model switch
    {
        MapModel.Similarity => [p[0], -Hand * p[1], p[2], p[1], Hand * p[0], p[3], 0, 0],
        MapModel.Affine => [.. p, 0, 0],
        _ => p[..8],
    };

    private double[] Similar(IReadOnlyList<double> h) => [(h[0] + Hand * h[4]) / 2, (h[3] - Hand * h[1]) / 2, h[2], h[5]];

    private static bool IsMirrored(HomographyMap map, Point2 pixel)
    {
        var (o, x, y) = (map.ToPlane(pixel), map.ToPlane(new Point2(pixel.X + 1, pixel.Y)), map.ToPlane(new Point2(pixel.X, pixel.Y + 1)));
        return (x.X - o.X) * (y.Y - o.Y) - (x.Y - o.Y) * (y.X - o.X) < 0;
    }
}
