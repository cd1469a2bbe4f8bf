using System.Numerics;

namespace Sandarac.Imaging.Fourier;

/// <summary>Transforms down columns: as many neighbouring columns at once as there are lanes, so that nothing need be transposed.</summary>
internal sealed unsafe class ColumnPass(int columns, int height)
{
    private readonly LinePlan _plan = LinePlan.For(height);

    /// <summary>Samples of work space.</summary>
    public int Room => _plan.Room;

    /// <summary>Transforms the columns from <paramref name="left"/> on. Source and target may be the same.</summary>
    public void Forward(float[] re, float[] im, float[] toRe, float[] toIm, int left, LaneRoom room) => Run(re, im, toRe, toIm, left, room);

    /// <summary>Transforms back, without a factor: the forward transform between exchanged real and imaginary parts.</summary>
    public void Inverse(float[] re, float[] im, float[] toRe, float[] toIm, int left, LaneRoom room) => Run(im, re, toIm, toRe, left, room);

    private void Run(float[] re, float[] im, float[] toRe, float[] toIm, int left, LaneRoom room)
    {
        fixed (float* fromR = &re[left], fromI = &im[left], toR = &toRe[left], toI = &toIm[left])
        {
            var count = Math.Min(Lane.Count, columns - left);
            for (var y = 0; y < height; y++)
            {
                var at = (nint)y * columns;
                room.A[y] = new Lane(Load(fromR + at, count), Load(fromI + at, count));
            }
            var lines = _plan.Run(room.A, room.B);
            for (var y = 0; y < height; y++)
            {
                Store(lines[y].Re, toR + (nint)y * columns, count);
                Store(lines[y].Im, toI + (nint)y * columns, count);
            }
        }
    }

    private static Vector<float> Load(float* from, int count)
    {
        if (count == Lane.Count) return Vector.Load(from);
        var lanes = Vector<float>.Zero;
        for (var j = 0; j < count; j++) lanes = lanes.WithElement(j, from[j]);
        return lanes;
    }

    private static void Store(Vector<float> lanes, float* to, int count)
    {
        if (count == Lane.Count) lanes.Store(to);
        else
            for (var j = 0; j < count; j++) to[j] = lanes[j];
    }
}
