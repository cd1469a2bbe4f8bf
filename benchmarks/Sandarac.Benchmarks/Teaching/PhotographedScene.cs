using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging;
using Sandarac.Imaging.Colour;
using Sandarac.Imaging.Formats;

namespace Sandarac.Benchmarks.Teaching;

/// <summary>
/// A real painting, photographed in near infrared through a polariser at four angles: the layers. Its visible colour is known from a photograph that the layers do not hold, and is the truth:
/// near infrared must tell paint of three colours apart by how much it reflects, how glossily and how roughly.
/// </summary>
internal static class PhotographedScene
{
    public static readonly IReadOnlyList<string> Classes = ["dark", "blue", "warm"];

    /// <summary>The data state no scale: so many mm make the reading's windows 1, 2 and 4 pixels wide.</summary>
    private const double AssumedMmPerPixel = 0.5;

    /// <summary>Colours are means over a square so many pixels to either side; alignment left a border without data.</summary>
    private const int Beside = 2, Border = 16;

    private static readonly string[] Angles = ["0", "45", "90", "135"];

    /// <summary>Null where the data are not present.</summary>
    public static TaughtScene? Load()
    {
        if (SharedFolder.Find("multiband") is not { } folder) return null;
        using var image = ImageFile.Open(Path.Combine(folder, "sRGB.tif"));
        var colours = image.ReadWindow(0, 0, image.Facts.Width, image.Facts.Height);
        CieLab?[] lab = [.. Enumerable.Range(0, colours[0].Data.Length).Select(i => Colour(colours, i % colours[0].Width, i / colours[0].Width))];
        return new TaughtScene([.. Angles.Select(a => Path.Combine(folder, "Raw", $"NIR_filtre_nir_{a}_aligned.tif"))], AssumedMmPerPixel, colours[0].Width, colours[0].Height, name => [.. lab.Select(c => c is { } colour && Is(name, colour))]);
    }

    /// <summary>The rule: what is between the classes is nobody's.</summary>
    private static bool Is(string name, CieLab colour) => name switch
    {
        "dark" => colour.L < 10,
        "blue" => colour.L > 20 && colour.B < -15,
        "warm" => colour.L > 20 && colour.B > 10,
        _ => throw new ArgumentOutOfRangeException(nameof(name)),
    };

    private static CieLab? Colour(Plane[] colours, int x, int y)
    {
        if (x < Border || y < Border || x >= colours[0].Width - Border || y >= colours[0].Height - Border) return null;
        double Mean(Plane band) => (from v in Enumerable.Range(y - Beside, 2 * Beside + 1) from u in Enumerable.Range(x - Beside, 2 * Beside + 1) select Srgb.ToLight(band[u, v] / 255)).Average();
        return CieLab.FromLinear(Mean(colours[0]), Mean(colours[1]), Mean(colours[2]));
    }
}
