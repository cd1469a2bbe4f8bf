namespace Sandarac.Imaging.Fourier;

/// <summary>
/// Transforms along rows, between a real plane and half-spectra. Two real rows a and b travel as one complex line a + i b: with Z its
/// transform, that of a is (Z[u] + conj Z[-u]) / 2 and that of b is (Z[u] - conj Z[-u]) / 2i.
/// </summary>
/// <remarks>One step takes <see cref="RowsAtOnce"/> rows. Even rows are real parts, each with the odd row below it as its imaginary part: which
/// two share their roundings must not depend on the width of the vectors.</remarks>
internal sealed unsafe class RowPass(int width, int height, float scale)
{
    private readonly LinePlan _plan = LinePlan.For(width);
    private readonly int _columns = width / 2 + 1;

    /// <summary>Rows in one step.</summary>
    public static int RowsAtOnce => 2 * Lane.Count;

    /// <summary>Samples of work space: the lines, or both half-spectra.</summary>
    public int Room => Math.Max(_plan.Room, 2 * _columns);

    /// <summary>Transforms the rows from <paramref name="top"/> on, times the scale.</summary>
    public void Forward(float[] plane, float[] re, float[] im, int top, LaneRoom room)
    {
        var rows = height - top;
        fixed (float* source = &plane[(nint)top * width], toRe = &re[(nint)top * _columns], toIm = &im[(nint)top * _columns])
        {
            RowsToLines(source, rows, room.A);
            var lines = _plan.Run(room.A, room.B);
            var halves = lines == room.A ? room.B : room.A;
            Separate(lines, halves);
            for (var half = 0; half < 2; half++)
            {
                var (offset, own) = (half * _columns, RowsOf(half, rows));
                var first = (float*)(halves + half);
                Transposing.FromLanes(first, 4 * Lane.Count, toRe + offset, 2 * _columns, own, _columns);
                Transposing.FromLanes(first + Lane.Count, 4 * Lane.Count, toIm + offset, 2 * _columns, own, _columns);
            }
        }
    }

    /// <summary>Transforms back the rows from <paramref name="top"/> on, times the scale. Imaginary parts that a real row cannot have, in
    /// the first column and at half the width, are ignored.</summary>
    public void Inverse(float[] re, float[] im, float[] plane, int top, LaneRoom room)
    {
        var rows = height - top;
        fixed (float* fromRe = &re[(nint)top * _columns], fromIm = &im[(nint)top * _columns], target = &plane[(nint)top * width])
        {
            for (var half = 0; half < 2; half++)
            {
                var (offset, own) = (half * _columns, RowsOf(half, rows));
                var first = (float*)(room.A + half);
                Transposing.ToLanes(fromRe + offset, 2 * _columns, own, _columns, first, 4 * Lane.Count);
                Transposing.ToLanes(fromIm + offset, 2 * _columns, own, _columns, first + Lane.Count, 4 * Lane.Count);
            }
            Join(room.A, room.B);
            LinesToRows(_plan.Run(room.B, room.A), target, rows);
        }
    }

    private void RowsToLines(float* source, int rows, Lane* lines)
    {
        Transposing.ToLanes(source, 2 * width, RowsOf(0, rows), width, (float*)lines, 2 * Lane.Count);
        Transposing.ToLanes(source + width, 2 * width, RowsOf(1, rows), width, (float*)lines + Lane.Count, 2 * Lane.Count);
    }

    /// <summary>The lines come swapped from an inverse: the even rows are the imaginary parts.</summary>
    private void LinesToRows(Lane* lines, float* target, int rows)
    {
        Transposing.FromLanes((float*)lines + Lane.Count, 2 * Lane.Count, target, 2 * width, RowsOf(0, rows), width);
        Transposing.FromLanes((float*)lines, 2 * Lane.Count, target + width, 2 * width, RowsOf(1, rows), width);
    }

    /// <summary>How many of the rows that are left are even (half 0) or odd (half 1).</summary>
    private static int RowsOf(int half, int rows) => (rows + 1 - half) / 2;

    /// <summary>From Z to the half-spectra of a and b, alternating.</summary>
    private void Separate(Lane* lines, Lane* halves)
    {
        var half = scale / 2;
        for (var u = 0; u < _columns; u++)
        {
            var (z, mirror) = (lines[u], lines[u == 0 ? 0 : width - u]);
            var (sum, difference) = (z + mirror, z - mirror);
            halves[2 * u] = new Lane(sum.Re, difference.Im) * half;
            halves[2 * u + 1] = new Lane(sum.Im, -difference.Re) * half;
        }
    }

    /// <summary>From the half-spectra of a and b to Z, swapped for the inverse.</summary>
    private void Join(Lane* halves, Lane* lines)
    {
        for (var u = 0; u < _columns; u++)
        {
            var (a, b) = (halves[2 * u] * scale, halves[2 * u + 1] * scale);
            if (u == 0 || 2 * u == width)
            {
                lines[u] = new Lane(b.Re, a.Re);
                continue;
            }
            lines[u] = new Lane(a.Im + b.Re, a.Re - b.Im);
            lines[width - u] = new Lane(b.Re - a.Im, a.Re + b.Im);
        }
    }
}
