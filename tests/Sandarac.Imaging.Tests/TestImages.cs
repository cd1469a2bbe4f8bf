using NetVips;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Tests;

/// <summary>Small images made for tests; every sample is a known function of its place.</summary>
internal static class TestImages
{
    /// <summary>A 16-bit value that differs at every place and band.</summary>
    public static ushort Value(int x, int y, int band) => (ushort)((x * 7 + y * 131 + band * 20011) % 65521);

    public static Image Rgb16(int width, int height)
    {
        var data = new ushort[width * height * 3];
        for (var i = 0; i < data.Length; i++) data[i] = Value(i / 3 % width, i / 3 / width, i % 3);
        return Image.NewFromMemory(data, width, height, 3, Enums.BandFormat.Ushort).Copy(interpretation: Enums.Interpretation.Rgb16);
    }

    public static Image Rgb8(int width, int height)
    {
        var data = new byte[width * height * 3];
        for (var i = 0; i < data.Length; i++) data[i] = (byte)Value(i / 3 % width, i / 3 / width, i % 3);
        return Image.NewFromMemory(data, width, height, 3, Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb);
    }

    /// <summary>Writes a float pyramid whose band b at pixel centre (x, y) holds f(x, y, b).</summary>
    public static void FloatPyramid(string path, int width, int height, int bands, Func<double, double, int, double> f)
    {
        using var writer = new FloatRasterWriter(path, width, height, bands);
        var planes = Enumerable.Range(0, bands).Select(b =>
        {
            var plane = new Plane(width, height);
            for (var y = 0; y < height; y++)
                for (var x = 0; x < width; x++) plane[x, y] = (float)f(x + 0.5, y + 0.5, b);
            return plane;
        }).ToArray();
        writer.WriteWindow(0, 0, planes);
        writer.Complete(TestContext.Current.CancellationToken);
    }
}
