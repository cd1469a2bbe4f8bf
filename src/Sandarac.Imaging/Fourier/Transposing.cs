using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.Arm;
using System.Runtime.Intrinsics.X86;

namespace Sandarac.Imaging.Fourier;

/// <summary>Moves rows of an image into lanes and back: sample x of row j goes to float j of vector x. Four rows by four samples at a
/// time.</summary>
internal static unsafe class Transposing
{
    /// <summary>Reads up to one vector's worth of rows; lanes without a row are set to 0.</summary>
    /// <param name="row">First sample of the first row.</param>
    /// <param name="stride">Floats from row to row.</param>
    /// <param name="rows">Rows to read; may be below 1 or above the lanes there are.</param>
    /// <param name="samples">Samples in each row.</param>
    /// <param name="lanes">First vector.</param>
    /// <param name="step">Floats from vector to vector.</param>
    public static void ToLanes(float* row, int stride, int rows, int samples, float* lanes, int step)
    {
        for (var j = 0; j < Lane.Count; j += 4)
        {
            var whole = j + 4 <= rows ? samples & ~3 : 0;
            for (var x = 0; x < whole; x += 4) Square(row + (nint)j * stride + x, stride, lanes + (nint)x * step + j, step);
            for (var jj = j; jj < j + 4; jj++)
                for (var x = whole; x < samples; x++)
                    lanes[(nint)x * step + jj] = jj < rows ? row[(nint)jj * stride + x] : 0;
        }
    }

    /// <summary>Writes what <see cref="ToLanes"/> reads; lanes without a row are left out.</summary>
    public static void FromLanes(float* lanes, int step, float* row, int stride, int rows, int samples)
    {
        for (var j = 0; j < Lane.Count; j += 4)
        {
            var whole = j + 4 <= rows ? samples & ~3 : 0;
            for (var x = 0; x < whole; x += 4) Square(lanes + (nint)x * step + j, step, row + (nint)j * stride + x, stride);
            for (var jj = j; jj < Math.Min(j + 4, rows); jj++)
                for (var x = whole; x < samples; x++)
                    row[(nint)jj * stride + x] = lanes[(nint)x * step + jj];
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Square(float* from, nint fromStride, float* to, nint toStride)
    {
        var (a, b) = (Vector128.Load(from), Vector128.Load(from + fromStride));
        var (c, d) = (Vector128.Load(from + 2 * fromStride), Vector128.Load(from + 3 * fromStride));
        var (acLow, acHigh, bdLow, bdHigh) = (ZipLow(a, c), ZipHigh(a, c), ZipLow(b, d), ZipHigh(b, d));
        ZipLow(acLow, bdLow).Store(to);
        ZipHigh(acLow, bdLow).Store(to + toStride);
        ZipLow(acHigh, bdHigh).Store(to + 2 * toStride);
        ZipHigh(acHigh, bdHigh).Store(to + 3 * toStride);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<float> ZipLow(Vector128<float> a, Vector128<float> b) =>
        Sse.IsSupported ? Sse.UnpackLow(a, b)
        : AdvSimd.Arm64.IsSupported ? AdvSimd.Arm64.ZipLow(a, b)
        : Vector128.Create(a[0], b[0], a[1], b[1]);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<float> ZipHigh(Vector128<float> a, Vector128<float> b) =>
        Sse.IsSupported ? Sse.UnpackHigh(a, b)
        : AdvSimd.Arm64.IsSupported ? AdvSimd.Arm64.ZipHigh(a, b)
        : Vector128.Create(a[2], b[2], a[3], b[3]);
}
