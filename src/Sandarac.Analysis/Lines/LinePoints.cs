using Sandarac.Imaging;

namespace Sandarac.Analysis.Lines;

/// <summary>A pixel in the middle of a line.</summary>
/// <param name="Pixel">Its index.</param>
/// <param name="X">The middle's place, pixels, found between pixels.</param>
/// <param name="Y">The same.</param>
/// <param name="Normal">Direction across the line, radians.</param>
/// <param name="Strength">Depth of the line.</param>
/// <param name="Other">Depth in a second plane, in the same place and direction; NaN without data there.</param>
internal readonly record struct LinePoint(int Pixel, double X, double Y, double Normal, float Strength, float Other);

/// <summary>Finds the middles of lines.</summary>
/// <param name="field">The lines.</param>
/// <param name="other">Derivatives of a second plane, which is looked at along the same lines.</param>
/// <param name="shape">What was taken for a line.</param>
internal sealed class LinePoints(LineField field, Derivatives other, LineShape shape)
{
    /// <summary>A pixel's own curvature must point across the line to within this angle: averaging draws spurs out of every spot and end of a line.</summary>
    private const double OwnDirection = 0.4;

    /// <summary>How far off a pixel the bottom of the valley may lie: half the smoothing's standard deviation, and what a pixel's size hides. It lies on a line's middle, but a whole standard deviation off the strongest curvature beside a step from dark to light.</summary>
    private const double Bottom = 0.5, Hidden = 0.4;

    private readonly (int Dx, int Dy, float Weight)[][] _steps = [.. Enumerable.Range(0, LineShape.Directions).Select(shape.Steps)];

    /// <summary>Pixels that are stronger than those beside them across the line.</summary>
    /// <param name="least">Least strength.</param>
    /// <param name="margin">Pixels left out along the border, where a picture's edge looks like a line.</param>
    public IReadOnlyList<LinePoint> Stronger(float least, int margin)
    {
        var (strength, points, left) = (field.Strength, new List<LinePoint>(), Math.Max(2, margin));
        for (var y = left; y < strength.Height - left; y++)
            for (var x = left; x < strength.Width - left; x++)
                if (strength[x, y] > least && Middle(x, y) is { } point) points.Add(point);
        return points;
    }

    private LinePoint? Middle(int x, int y)
    {
        var i = y * field.Strength.Width + x;
        var normal = LineShape.Angle(field.Direction[i]);
        if (Math.Abs(Math.IEEERemainder(field.Derivatives.Principal(i) - normal, Math.PI)) > OwnDirection) return null;
        var (sin, cos) = Math.SinCos(normal);
        var (here, before, after) = (field.Strength.Data[i], Between(field.Strength, x - cos, y - sin), Between(field.Strength, x + cos, y + sin));
        if (!(here >= before && here > after)) return null;
        // Steger, section 2.3: the bottom lies at -slope / curvature.
        var bottom = shape.DepthPerCurvature * Averaged(i, p => field.Derivatives.Slope(p, cos, sin)) / here;
        if (Math.Abs(bottom) > Bottom * shape.Across + Hidden) return null;
        var seen = float.IsFinite(other.Xx.Data[i]) ? (float)(shape.DepthPerCurvature * Averaged(i, p => other.Curvature(p, cos, sin))) : float.NaN;
        var shift = 0.5 * (after - before) / (2 * here - before - after);
        return new LinePoint(i, x + 0.5 + shift * cos, y + 0.5 + shift * sin, normal, here, seen);
    }

    /// <summary>Weighted mean along the line through a pixel; places without data, or beyond the border, count as nothing.</summary>
    private double Averaged(int pixel, Func<int, double> value)
    {
        var (width, sum) = (field.Strength.Width, 0.0);
        var (x, y) = (pixel % width, pixel / width);
        foreach (var (dx, dy, weight) in _steps[field.Direction[pixel]])
            if (x + dx >= 0 && x + dx < width && y + dy >= 0 && y + dy < field.Strength.Height && value(pixel + dy * width + dx) is var v && double.IsFinite(v)) sum += weight * v;
        return sum;
    }

    /// <summary>Between the four pixels about a place, linearly; NaN beyond the border. Pixels' middles have whole numbers here.</summary>
    internal static float Between(Plane plane, double x, double y)
    {
        var (i, j) = ((int)Math.Floor(x), (int)Math.Floor(y));
        if (i < 0 || j < 0 || i + 1 >= plane.Width || j + 1 >= plane.Height) return float.NaN;
        var (u, v) = ((float)(x - i), (float)(y - j));
        return (1 - v) * ((1 - u) * plane[i, j] + u * plane[i + 1, j]) + v * ((1 - u) * plane[i, j + 1] + u * plane[i + 1, j + 1]);
    }
}
