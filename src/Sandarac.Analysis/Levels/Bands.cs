using Sandarac.Imaging;
using Sandarac.Imaging.Formats;

namespace Sandarac.Analysis.Levels;

/// <summary>The bands of an image that hold light, alpha left out.</summary>
internal static class Bands
{
    /// <summary>How many there are.</summary>
    public static int Count(ImageFacts facts) => facts.Bands - (facts.HasAlpha ? 1 : 0);

    /// <summary>Whether values are whole numbers from 0 to 65535 at most.</summary>
    public static bool AreSmallIntegers(ImageFacts facts) => facts.Format is SampleFormat.UInt8 or SampleFormat.UInt16;

    /// <summary>The bands of a window, NaN where alpha is 0.</summary>
    public static Plane[] Of(Plane[] window, ImageFacts facts)
    {
        if (!facts.HasAlpha) return window;
        var alpha = window[^1].Data;
        return [.. window[..^1].Select(p => new Plane(p.Width, p.Height, [.. p.Data.Select((v, i) => alpha[i] == 0 ? float.NaN : v)]))];
    }

    /// <summary>"red", "green", "blue", "grey", or the band's number.</summary>
    public static string Name(ImageFacts facts, int band) => Count(facts) switch
    {
        1 => "grey",
        3 => ((string[])["red", "green", "blue"])[band],
        _ => FormattableString.Invariant($"band {band + 1}"),
    };
}
