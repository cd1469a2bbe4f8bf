using NetVips;

namespace Sandarac.Browser.Tests;

/// <summary>A picture of the screen: 8-bit red, green, blue.</summary>
public sealed class Screen
{
    private readonly byte[] _pixels;
    private readonly int _width;

    private Screen(byte[] pixels, int width)
    {
        _pixels = pixels;
        _width = width;
    }

    public static Screen Of(byte[] png)
    {
        using var image = Image.NewFromBuffer(png);
        using var colour = image.ExtractBand(0, 3);
        return new Screen(colour.WriteToMemory<byte>(), colour.Width);
    }

    public (int R, int G, int B) At(double x, double y)
    {
        var i = ((int)y * _width + (int)x) * 3;
        return (_pixels[i], _pixels[i + 1], _pixels[i + 2]);
    }

    /// <summary>Largest difference of a channel at one place of two screens.</summary>
    public int Difference(Screen other, double x, double y)
    {
        var (a, b) = (At(x, y), other.At(x, y));
        return Math.Max(Math.Abs(a.R - b.R), Math.Max(Math.Abs(a.G - b.G), Math.Abs(a.B - b.B)));
    }
}
