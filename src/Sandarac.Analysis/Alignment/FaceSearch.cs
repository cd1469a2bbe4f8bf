using MathNet.Numerics.Distributions;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment;

/// <summary>A face that was found.</summary>
/// <param name="Lines">Its sides and the lens.</param>
/// <param name="Residual">Distances of the points used from their side, pixels.</param>
/// <param name="Coverage">Share of each side that is seen.</param>
/// <param name="Confidence">0 to 1.</param>
/// <param name="CornerUncertainty">Half-widths of the corners' 95 % intervals.</param>
/// <param name="K1Uncertainty">Half-width of the coefficient's 95 % interval.</param>
internal sealed record FoundFace(FaceLines Lines, SideResidual Residual, double[] Coverage, double Confidence, Point2[] CornerUncertainty, double K1Uncertainty);

/// <summary>The search for the painted face: coarse sides, a look at what lies inside and outside, then the sides at full size.</summary>
internal static class FaceSearch
{
    /// <summary>Least share of the frame that a face fills; a chart in the corner of a frame fills less.</summary>
    private const double LeastArea = 0.15;

    /// <summary>Least share of cells inside with texture: a chart, a flat-field board or a blank frame has fewer.</summary>
    private const double LeastTexture = 0.05;

    /// <summary>Share of a side left out at each end, where the other side's edge disturbs the profile.</summary>
    private const double Trim = 0.02;

    private const double NarrowReach = 2.5;

    /// <summary>Pixels within which a change lies on the line.</summary>
    private const double NearLine = 1.5;

    /// <summary>Parts of each side that are left out in turn for the uncertainty.</summary>
    private const int Parts = 8;

    /// <summary>A face, or why there is none.</summary>
    public static (FoundFace? Face, string? NoAnswer) Find(InputImage image, int longestSide, RunContext context)
    {
        var facts = image.Image.Facts;
        if (Math.Min(facts.Width, facts.Height) < 64) return (null, "The photograph is smaller than 64 pixels.");
        var small = ReducedImage.Of(image, longestSide, context);
        var range = Range(small.Planes);
        if (range <= 0) return (null, "The photograph is blank.");
        if (Coarse(small, range, out var curves) is { } none) return (null, none);
        var (width, height) = (small.Planes[0].Width, small.Planes[0].Height);
        var rough = FaceFitting.Fit([.. curves.Select((c, i) => Sampled(c, new SideFrame((Side)i, width, height)))], width, height).Corners();
        if (Shape(rough, width, height) is { } odd) return (null, odd);
        var surround = FaceSurround.Of(small.Planes, rough, 0.01 * range);
        if (surround.InsideTextured < LeastTexture) return (null, FormattableString.Invariant($"Only {surround.InsideTextured * 100:0} % of what lies inside the four sides has any texture: a chart or an even board rather than a painting."));
        if (surround.InsideTextured < 2 * surround.OutsideTextured) return (null, "What lies outside the four sides is as lively as what lies inside: they are lines within the picture.");
        if (image.Light == Light.Xray && double.IsNaN(surround.OutsideTextured)) return (null, "The border found is as narrow as a film's own: a plate that shows only a part.");
        if (image.Light == Light.Xray && OutsideDiffers(small.Planes[0], rough, range)) return (null, "The tone just outside differs from side to side: a plate that shows only a part, with the film's own border.");
        return (Refine(image, small.Factor, curves, rough, surround, context), null);
    }

    /// <summary>Range of values without the extreme half percent, over all bands, as a share of full scale.</summary>
    private static double Range(Plane[] planes) => planes.Max(p =>
    {
        // Sorted once, as they are: there are millions.
        var sorted = (float[])p.Data.Clone();
        Array.Sort(sorted);
        return Robust.QuantileOfSorted<float>(sorted, 0.995) - Robust.QuantileOfSorted<float>(sorted, 0.005);
    });

    private static string? Coarse(ReducedImage small, double range, out SideCurve[] curves)
    {
        var (width, height) = (small.Planes[0].Width, small.Planes[0].Height);
        var (across, down) = (Changes.Of(small.Planes, true), Changes.Of(small.Planes, false));
        var found = Enum.GetValues<Side>().Select(s => new SideFrame(s, width, height)).Select(f => CoarseSides.Find(f.IsUpright ? across : down, f.IsUpright ? down : across, f, 0.004 * range)).ToArray();
        curves = found!;
        var missing = Enum.GetValues<Side>().Where(s => found[(int)s] is null).Select(s => s.ToString().ToLowerInvariant()).ToArray();
        return missing.Length == 0 ? null : $"No straight boundary between surround and painting was found on the {string.Join(" and the ", missing)} side.";
    }

    private static Point2[] Sampled(SideCurve curve, SideFrame frame) =>
        [.. Enumerable.Range(0, 41).Select(i => (0.1 + 0.8 * i / 40) * frame.Along).Select(a => frame.Point(a, curve.At(a)))];

    private static string? Shape(Point2[] c, int width, int height)
    {
        var area = 0.5 * Math.Abs(Enumerable.Range(0, 4).Sum(i => c[i].X * c[(i + 1) % 4].Y - c[(i + 1) % 4].X * c[i].Y));
        if (area < LeastArea * width * height) return FormattableString.Invariant($"The four sides found enclose {area / width / height * 100:0} % of the frame: less than a painting would fill.");
        return c.Any(p => p.X < 0 || p.Y < 0 || p.X > width || p.Y > height) ? "The sides found meet outside the frame: the photograph shows only a part." : null;
    }

    /// <summary>Whether the medians just outside the four sides differ by more than a tenth of the range. X-rays cast no shadow beside the painting, so that the
    /// surround of a whole radiograph has one tone.</summary>
    private static bool OutsideDiffers(Plane plane, Point2[] corners, double range)
    {
        double[] tones = [.. Enumerable.Range(0, 4).Select(i => Robust.Median(Outside(plane, corners[i], corners[(i + 1) % 4])))];
        return tones.Max() - tones.Min() > 0.1 * range;
    }

    private static IEnumerable<double> Outside(Plane plane, Point2 from, Point2 to)
    {
        var length = from.DistanceTo(to);
        for (var k = 1; k < 100; k++)
        {
            // Clockwise from the upper left, the outside lies to the left of the way.
            var (x, y) = (from.X + (to.X - from.X) * k / 100 + 4 * (to.Y - from.Y) / length, from.Y + (to.Y - from.Y) * k / 100 - 4 * (to.X - from.X) / length);
            if (x >= 0 && y >= 0 && x < plane.Width && y < plane.Height) yield return plane[(int)x, (int)y];
        }
    }

    private static FoundFace Refine(InputImage image, int factor, SideCurve[] curves, Point2[] rough, FaceSurround surround, RunContext context)
    {
        var facts = image.Image.Facts;
        var reach = 2 * factor + 4;
        SideTrace[] traces = [.. curves.Select((curve, i) => Trace(image, new SideFrame((Side)i, facts.Width, facts.Height), curve.Scaled(factor), rough[i], rough[(i + 1) % 4], factor, reach, context))];
        Point2[][] points = [.. traces.Select((t, i) => t.Points(curves[i].Scaled(factor).At, reach, inLight: false).ToArray())];
        var lines = FaceFitting.Fit(points, facts.Width, facts.Height);
        for (var i = 0; i < 2; i++)
        {
            points = [.. traces.Select(t => t.Points(a => lines.DepthAt(t.Frame, a), NarrowReach, inLight: true).ToArray())];
            lines = FaceFitting.Fit(points, facts.Width, facts.Height);
        }
        double[][] distances = [.. points.Select((p, i) => lines.Distances((Side)i, p))];
        double[][] weights = [.. distances.Select(FaceFitting.Weights)];
        double[] used = [.. distances.SelectMany((d, i) => d.Where((_, k) => weights[i][k] > 0).Select(Math.Abs))];
        double[] coverage = [.. traces.Select(t => (double)Near(t, lines, reach) / Math.Max(1, t.Count))];
        var (corners, k1) = Uncertainty(points, weights, lines.Camera.K1, facts.Width, facts.Height);
        var even = double.IsNaN(surround.OutsideTextured) ? 0.5 : 1 - surround.OutsideTextured;
        return new FoundFace(lines, new SideResidual(Robust.Median(used), Robust.Quantile(used, 0.95)), coverage, coverage.Min() * even, corners, k1);
    }

    /// <summary>
    /// Profiles whose strongest change, looked for as far as the coarse sides could err, lies on the line. Along a true side nearly all do; along a line through the
    /// picture's own strokes only as many as chance has it.
    /// </summary>
    private static int Near(SideTrace trace, FaceLines lines, int reach) =>
        trace.Places(a => lines.DepthAt(trace.Frame, a), reach, inLight: false).Count(p => Math.Abs(p.Depth - lines.DepthAt(trace.Frame, p.Along)) <= NearLine);

    private static SideTrace Trace(InputImage image, SideFrame frame, SideCurve curve, Point2 from, Point2 to, int factor, int reach, RunContext context)
    {
        var (a, b) = frame.IsUpright ? (from.Y * factor, to.Y * factor) : (from.X * factor, to.X * factor);
        var (low, high) = (Math.Min(a, b), Math.Max(a, b));
        return SideTrace.Read(image, frame, curve, low + Trim * (high - low), high - Trim * (high - low), reach, context);
    }

    private static (Point2[] Corners, double K1) Uncertainty(Point2[][] points, double[][] weights, double k1, int width, int height)
    {
        FaceLines[] fits = [.. Enumerable.Range(0, 4 * Parts).Select(n => FaceFitting.Fit(points, [.. weights.Select((w, side) => Without(w, side == n / Parts ? n % Parts : -1))], k1, width, height))];
        Point2[][] corners = [.. fits.Select(f => f.Corners())];
        return ([.. Enumerable.Range(0, 4).Select(i => new Point2(Spread(corners.Select(c => c[i].X)), Spread(corners.Select(c => c[i].Y))))], Spread(fits.Select(f => f.Camera.K1)));
    }

    private static double[] Without(double[] weights, int part) => [.. weights.Select((w, i) => i * Parts / weights.Length == part ? 0 : w)];

    /// <summary>Half-width of the 95 % interval by the jackknife; Student's t for the few parts of the side that decides.</summary>
    private static double Spread(IEnumerable<double> values)
    {
        double[] v = [.. values];
        var mean = v.Average();
        return StudentT.InvCDF(0, 1, Parts - 1, 0.975) * Math.Sqrt((v.Length - 1.0) / v.Length * v.Sum(x => (x - mean) * (x - mean)));
    }
}
