using System.Numerics;

namespace Sandarac.Imaging.Fourier;

/// <summary>
/// The Fourier transform of a real plane. As the plane is real, value (-u, -v) is the conjugate of value (u, v), and only the columns
/// u = 0 .. width/2 are held: <see cref="Columns"/> = width/2 + 1 (rounded down) of them, in <see cref="Height"/> rows.
/// </summary>
/// <remarks>
/// Row-major and split: the real parts in <see cref="Re"/>, the imaginary parts in <see cref="Im"/>, both at index v * Columns + u.
/// Row v holds the frequency v / height for v up to height/2, and (v - height) / height beyond: zero frequency comes first, nothing is
/// shifted to the middle.
/// </remarks>
public sealed class Spectrum
{
    /// <summary>A spectrum of zeros.</summary>
    /// <param name="width">Columns of the plane it belongs to, at least 1; not the columns of the spectrum.</param>
    /// <param name="height">Rows of the plane, at least 1.</param>
    /// <param name="scaling">The convention of its values, which the inverse will follow.</param>
    public Spectrum(int width, int height, FourierScaling scaling = FourierScaling.InverseByCount)
        : this(width, height, scaling, n => new float[n])
    {
    }

    private Spectrum(int width, int height, FourierScaling scaling, Func<int, float[]> allocate)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        Width = width;
        Height = height;
        Columns = width / 2 + 1;
        Scaling = scaling;
        Re = allocate(checked(Columns * height));
        Im = allocate(Re.Length);
    }

    /// <summary>A spectrum whose values are yet to be written, all of them.</summary>
    internal static Spectrum Unwritten(int width, int height, FourierScaling scaling) =>
        new(width, height, scaling, n => GC.AllocateUninitializedArray<float>(n));

    /// <summary>Columns of the plane.</summary>
    public int Width { get; }

    /// <summary>Rows of the plane and of the spectrum.</summary>
    public int Height { get; }

    /// <summary>Columns of the spectrum: <see cref="Width"/>/2 + 1.</summary>
    public int Columns { get; }

    /// <summary>Which direction divides.</summary>
    public FourierScaling Scaling { get; }

    /// <summary>Real parts, row-major, <see cref="Columns"/> a row.</summary>
    public float[] Re { get; }

    /// <summary>Imaginary parts, as <see cref="Re"/>.</summary>
    public float[] Im { get; }

    /// <summary>The value at any whole frequency, those that are not held included.</summary>
    /// <param name="u">Waves across the plane's width; may be negative or beyond the width, for it repeats.</param>
    /// <param name="v">Waves down the plane's height; likewise.</param>
    public Complex At(int u, int v)
    {
        (u, v) = (Wrap(u, Width), Wrap(v, Height));
        if (u < Columns) return new Complex(Re[v * Columns + u], Im[v * Columns + u]);
        var i = Wrap(-v, Height) * Columns + Width - u;
        return new Complex(Re[i], -Im[i]);
    }

    /// <summary>The frequency of a column, 0 to 0.5 cycles per pixel.</summary>
    public double CyclesPerPixelX(int column) => (double)column / Width;

    /// <summary>The frequency of a row, above -0.5 to 0.5 cycles per pixel; positive runs down the plane.</summary>
    public double CyclesPerPixelY(int row) => (double)(row <= Height / 2 ? row : row - Height) / Height;

    private static int Wrap(int i, int n) => (i % n + n) % n;
}
