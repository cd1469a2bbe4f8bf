using NetVips;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>Two images that do not show the same thing.</summary>
/// <param name="Kind">How they were put together.</param>
/// <param name="Fixed">The image laid on.</param>
/// <param name="Moving">The image laid.</param>
internal sealed record WrongPair(string Kind, string Fixed, string Moving)
{
    private const int Width = 640, Height = 480;

    public string Name => $"{Path.GetFileNameWithoutExtension(Fixed)} + {Path.GetFileNameWithoutExtension(Moving)}";

    /// <summary>
    /// Each pair's fixed image with the moving images of the next pair of its family, of the one half the family on, and of the one half of all
    /// pairs on; the scene is never the same.
    /// </summary>
    public static IEnumerable<WrongPair> Swapped(IReadOnlyList<LandmarkedPair> pairs)
    {
        var within = pairs.GroupBy(p => p.Family).SelectMany(f => Shifted("one family", [.. f], 1).Concat(Shifted("one family", [.. f], f.Count() / 2)));
        return within.Concat(Shifted("two families", pairs, pairs.Count / 2)).DistinctBy(p => (p.Fixed, p.Moving));
    }

    /// <summary>Images in which there is nothing to find, beside each family's first pair and beside each other.</summary>
    public static IEnumerable<WrongPair> Empty(IReadOnlyList<LandmarkedPair> pairs, string folder)
    {
        var (blank, noise, otherNoise) = (Blank(folder), Noise(folder, 1), Noise(folder, 2));
        foreach (var first in pairs.GroupBy(p => p.Family).Select(f => f.First()))
        {
            yield return new WrongPair("blank", first.Fixed, blank);
            yield return new WrongPair("noise", first.Fixed, noise);
            yield return new WrongPair("noise", noise, first.Moving);
        }
        yield return new WrongPair("blank", blank, blank);
        yield return new WrongPair("noise", noise, otherNoise);
    }

    private static IEnumerable<WrongPair> Shifted(string kind, IReadOnlyList<LandmarkedPair> pairs, int step) =>
        from i in Enumerable.Range(0, pairs.Count)
        let other = pairs[(i + step) % pairs.Count]
        where !RegistrationData.ShowTheSame(pairs[i], other)
        select new WrongPair(kind, pairs[i].Fixed, other.Moving);

    private static string Blank(string folder)
    {
        using var image = Image.Black(Width, Height).Linear([1.0], [128.0], uchar: true);
        return Save(image, folder, "blank");
    }

    /// <summary>Not the image library's noise: with another seed that is the same shifted by a pixel, in part, and so something to be found.</summary>
    private static string Noise(string folder, int seed)
    {
        var random = new Random(seed);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        var values = Enumerable.Range(0, Width * Height).Select(_ => (byte)Math.Clamp(Math.Round(128 + 40 * Normal()), 0, 255)).ToArray();
        using var image = Image.NewFromMemory(values, Width, Height, 1, Enums.BandFormat.Uchar);
        return Save(image, folder, $"noise{seed}");
    }

    private static string Save(Image image, string folder, string name)
    {
        var path = Path.Combine(folder, name + ".png");
        image.Pngsave(path);
        return path;
    }
}
