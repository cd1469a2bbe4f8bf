namespace Sandarac.Imaging;

/// <summary>
/// One band of numbers on a grid: float32, row-major, x right, y down, (0,0) the outer corner of the first pixel, so that the centre of
/// pixel (i, j) lies at (i + 0.5, j + 0.5). NaN is no-data.
/// </summary>
public sealed class Plane
{
    /// <summary>A plane of zeros.</summary>
    /// <param name="width">Columns, at least 1.</param>
    /// <param name="height">Rows, at least 1.</param>
    public Plane(int width, int height) : this(width, height, new float[checked(width * height)])
    {
    }

    /// <summary>Wraps an array without copying it.</summary>
    /// <param name="width">Columns, at least 1.</param>
    /// <param name="height">Rows, at least 1.</param>
    /// <param name="data">Row-major values, <paramref name="width"/> x <paramref name="height"/> of them.</param>
    /// <exception cref="ArgumentException">The array's length is not width x height.</exception>
    public Plane(int width, int height, float[] data)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        if (data.Length != checked(width * height))
            throw new ArgumentException($"{data.Length} values do not fill {width} x {height}.", nameof(data));
        Width = width;
        Height = height;
        Data = data;
    }

    /// <summary>Columns.</summary>
    public int Width { get; }

    /// <summary>Rows.</summary>
    public int Height { get; }

    /// <summary>The values, row-major.</summary>
    public float[] Data { get; }

    /// <summary>The value at column <paramref name="x"/>, row <paramref name="y"/>.</summary>
    public ref float this[int x, int y] => ref Data[y * Width + x];

    /// <summary>Row <paramref name="y"/>, <see cref="Width"/> values.</summary>
    public Span<float> Row(int y) => Data.AsSpan(y * Width, Width);

    /// <summary>A plane with every value passed through <paramref name="map"/>.</summary>
    public Plane Select(Func<float, float> map)
    {
        var result = new float[Data.Length];
        for (var i = 0; i < result.Length; i++) result[i] = map(Data[i]);
        return new Plane(Width, Height, result);
    }
}
