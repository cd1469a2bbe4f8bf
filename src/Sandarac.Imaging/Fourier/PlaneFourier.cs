namespace Sandarac.Imaging.Fourier;

/// <summary>
/// The two-dimensional Fourier transform of real planes of any size. Lengths with no prime factor above 7 go by mixed radix, others by
/// Bluestein's chirp (<see cref="FastLength"/> finds the former).
/// </summary>
/// <remarks>
/// <para>Computed in float32 with constants rounded once from double. Taken over all values, the error is about 2e-7 of the result; it does
/// not shrink with a single value, so that a faint period beside a large mean is lost. Subtract the mean first.</para>
/// <para>Values that are not finite have no transform: one NaN or infinity in the input leaves no finite real part anywhere in the
/// result. No-data must be filled first.</para>
/// <para>The same numbers come out whatever the number of threads and the width of the processor's vectors.</para>
/// </remarks>
public static class PlaneFourier
{
    /// <summary>Below this many pixels, starting a second thread costs more than it saves.</summary>
    private const int WorthSharing = 128 * 128;

    /// <summary>Transforms a plane.</summary>
    /// <param name="plane">Finite values, any unit.</param>
    /// <param name="scaling">Which direction divides.</param>
    /// <param name="parallel">Number of threads and cancellation; all cores when null.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static Spectrum Forward(Plane plane, FourierScaling scaling = FourierScaling.InverseByCount, ParallelOptions? parallel = null)
    {
        var (width, height) = (plane.Width, plane.Height);
        var result = Spectrum.Unwritten(width, height, scaling);
        var rows = new RowPass(width, height, scaling == FourierScaling.Symmetric ? SymmetricFactor(width, height) : 1);
        var columns = new ColumnPass(result.Columns, height);
        parallel = Sharing(plane.Data.Length, parallel);
        InSteps(height, RowPass.RowsAtOnce, rows.Room, parallel,
            (top, room) => rows.Forward(plane.Data, result.Re, result.Im, top, room));
        InSteps(result.Columns, Lane.Count, columns.Room, parallel,
            (left, room) => columns.Forward(result.Re, result.Im, result.Re, result.Im, left, room));
        return result;
    }

    /// <summary>Transforms a spectrum back, by the scaling it was made with.</summary>
    /// <param name="spectrum">Left as it is. Should it not be that of a real plane, its first column and that at half the width are read as
    /// if they were.</param>
    /// <param name="parallel">Number of threads and cancellation; all cores when null.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static Plane Inverse(Spectrum spectrum, ParallelOptions? parallel = null)
    {
        var (width, height) = (spectrum.Width, spectrum.Height);
        var result = new Plane(width, height, GC.AllocateUninitializedArray<float>(checked(width * height)));
        var between = Spectrum.Unwritten(width, height, spectrum.Scaling);
        var rows = new RowPass(width, height,
            spectrum.Scaling == FourierScaling.Symmetric ? SymmetricFactor(width, height) : (float)(1.0 / ((double)width * height)));
        var columns = new ColumnPass(spectrum.Columns, height);
        parallel = Sharing(result.Data.Length, parallel);
        InSteps(spectrum.Columns, Lane.Count, columns.Room, parallel,
            (left, room) => columns.Inverse(spectrum.Re, spectrum.Im, between.Re, between.Im, left, room));
        InSteps(height, RowPass.RowsAtOnce, rows.Room, parallel,
            (top, room) => rows.Inverse(between.Re, between.Im, result.Data, top, room));
        return result;
    }

    private static float SymmetricFactor(int width, int height) => (float)(1 / Math.Sqrt((double)width * height));

    private static ParallelOptions Sharing(int pixels, ParallelOptions? parallel)
    {
        if (pixels >= WorthSharing) return parallel ?? new ParallelOptions();
        return new ParallelOptions { MaxDegreeOfParallelism = 1, CancellationToken = parallel?.CancellationToken ?? default };
    }

    private static void InSteps(int count, int step, int room, ParallelOptions parallel, Action<int, LaneRoom> body) =>
        Parallel.For(0, (count + step - 1) / step, parallel, () => new LaneRoom(room), (i, _, mine) =>
        {
            body(i * step, mine);
            return mine;
        }, mine => mine.Dispose());
}
