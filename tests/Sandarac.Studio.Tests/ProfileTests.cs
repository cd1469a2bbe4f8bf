using System.Text.Json;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio.Places;

namespace Sandarac.Studio.Tests;

/// <summary>What a map holds along a line.</summary>
public sealed class ProfileTests : IDisposable
{
    private const int Width = 300, Height = 200;
    private const double Mm = 0.1;
    private readonly string _path = Path.Combine(Path.GetTempPath(), $"{Guid.NewGuid():N}.tif");
    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    /// <summary>Against scipy.ndimage.map_coordinates; see References/Profiles.</summary>
    [Fact]
    public void A_band_along_a_bent_line_is_what_scipy_reads()
    {
        using var file = Waves();
        using var reference = JsonDocument.Parse(File.ReadAllText("References/Profiles/band.json"));
        var expected = reference.RootElement.GetProperty("values").EnumerateArray().Select(v => v.ValueKind == JsonValueKind.Null ? (double?)null : v.GetDouble()).ToArray();
        var band = new BandAlongLine([new(3, 4), new(22.5, 11), new(28, 2.5)], 0.5);
        Assert.Equal(reference.RootElement.GetProperty("length").GetDouble(), band.Length, 12);
        var values = band.Read(new RasterBetween(file), new Point2(0, 0), Mm, expected.Length - 1, 5, _stop);
        Assert.Equal(expected.Count(v => v is null), values.Count(v => v is null));
        Assert.InRange(values.Count(v => v is null), 1, 40);
        Assert.All(expected.Zip(values), v => Assert.Equal(v.First ?? double.NaN, v.Second ?? double.NaN, 1e-4));
    }

    [Fact]
    public void A_band_lies_evenly_on_both_sides_and_a_map_has_its_own_corner()
    {
        using var file = Waves((x, y) => (y - 100) * (y - 100));
        // Down the middle of row 100 the mean of y^2 over an even band of 2 n + 1 rows is n (n + 1) / 3.
        var values = new BandAlongLine([new(5, 15.05), new(20, 15.05)], 1.1).Read(new RasterBetween(file), new Point2(0, 5), Mm, 150, 11, _stop);
        Assert.All(values, v => Assert.Equal(10, v!.Value, 1e-9));
    }

    [Fact]
    public void Beyond_the_map_there_is_nothing()
    {
        using var file = Waves();
        var values = new BandAlongLine([new(-5, 10), new(5, 10)], 0).Read(new RasterBetween(file), new Point2(0, 0), Mm, 100, 1, _stop);
        Assert.All(values.Take(50), v => Assert.Null(v));
        Assert.All(values.Skip(51), v => Assert.NotNull(v));
    }

    public void Dispose() => File.Delete(_path);

    private PyramidFile Waves(Func<int, int, double>? value = null)
    {
        var plane = new Plane(Width, Height);
        for (var y = 0; y < Height; y++)
            for (var x = 0; x < Width; x++)
                plane[x, y] = value is not null ? (float)value(x, y) : y is >= 80 and < 92 && x is >= 150 and < 170 ? float.NaN : (float)(40 * Math.Sin(2 * Math.PI * x / 13.7) * Math.Cos(2 * Math.PI * y / 9.1));
        using var writer = new FloatRasterWriter(_path, Width, Height, 1);
        writer.WriteWindow(0, 0, [plane]);
        writer.Complete(_stop);
        return PyramidFile.Open(_path);
    }
}
