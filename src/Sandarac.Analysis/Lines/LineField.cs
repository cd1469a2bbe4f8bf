using System.Numerics.Tensors;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Lines;

/// <summary>How strongly each pixel of a plane lies on a dark line, and in which direction.</summary>
/// <param name="Strength">Depth of the line, unit of the plane: the middle less its sides, positive when it is darker; NaN without data.</param>
/// <param name="Direction">The direction of its normal, one of <see cref="LineShape.Directions"/>.</param>
/// <param name="Derivatives">Derivatives of the plane.</param>
/// <remarks>
/// The second derivative across a line, smoothed by a Gaussian (C. Steger, An unbiased detector of curvilinear structures, IEEE PAMI 20 (1998) 113), averaged along the line
/// with Gaussian weights in each of several directions; the strongest counts. What is short or winds, such as age cracks, weakens; a faint line that goes on stays.
/// </remarks>
internal sealed record LineField(Plane Strength, byte[] Direction, Derivatives Derivatives)
{
    /// <summary>Finds lines in a plane.</summary>
    /// <param name="plane">Values; usually logarithms of light.</param>
    /// <param name="shape">What is taken for a line.</param>
    /// <param name="threads">Threads at most; changes no number.</param>
    public static LineField Of(Plane plane, LineShape shape, ParallelOptions threads)
    {
        var field = new LineField(plane.Select(_ => float.NegativeInfinity), new byte[plane.Data.Length], Derivatives.Of(plane, shape.Across));
        var (curvature, averaged) = (new Plane(plane.Width, plane.Height), new Plane(plane.Width, plane.Height));
        for (var direction = 0; direction < LineShape.Directions; direction++)
        {
            Average(field.Derivatives, curvature, averaged, direction, shape, threads);
            for (var i = 0; i < averaged.Data.Length; i++)
                if (averaged.Data[i] > field.Strength.Data[i]) (field.Strength.Data[i], field.Direction[i]) = (averaged.Data[i], (byte)direction);
        }
        for (var i = 0; i < plane.Data.Length; i++)
            if (!float.IsFinite(field.Derivatives.Xx.Data[i])) field.Strength.Data[i] = float.NaN;
        return field;
    }

    /// <summary>Depth across one direction, averaged along the line; places without data count as no line.</summary>
    private static void Average(Derivatives from, Plane curvature, Plane to, int direction, LineShape shape, ParallelOptions threads)
    {
        var (sin, cos) = Math.SinCos(LineShape.Angle(direction));
        var scale = shape.DepthPerCurvature;
        Parallel.For(0, to.Height, threads, y =>
        {
            for (var i = y * to.Width; i < (y + 1) * to.Width; i++)
                curvature.Data[i] = (float)(scale * from.Curvature(i, cos, sin)) is var v && float.IsFinite(v) ? v : 0;
        });
        var steps = shape.Steps(direction);
        Parallel.For(0, to.Height, threads, y =>
        {
            to.Row(y).Clear();
            foreach (var (dx, dy, weight) in steps)
                if (y + dy >= 0 && y + dy < to.Height) Add(curvature.Row(y + dy), dx, weight, to.Row(y));
        });
    }

    private static void Add(Span<float> from, int dx, float weight, Span<float> to)
    {
        var (start, count) = (Math.Max(0, -dx), to.Length - Math.Abs(dx));
        if (count <= 0) return;
        var target = to.Slice(start, count);
        TensorPrimitives.MultiplyAdd(from.Slice(start + dx, count), weight, target, target);
    }
}
