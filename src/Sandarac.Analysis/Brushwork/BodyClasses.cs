using Sandarac.Imaging;

namespace Sandarac.Analysis.Brushwork;

/// <summary>How much body the paint has, by its relief.</summary>
internal enum Body
{
    /// <summary>No furrows to speak of.</summary>
    Watery,

    /// <summary>Furrows that only raking light shows.</summary>
    Thin,

    /// <summary>The brush's furrows stand.</summary>
    Full,

    /// <summary>Ridges and crests.</summary>
    Impasto,
}

/// <summary>Classes of body by thresholds of local Sq. Where the thresholds lie is common practice, no source: they are parameters, and shown.</summary>
/// <param name="Thin">From here on not watery, um.</param>
/// <param name="Full">From here on not thin, um.</param>
/// <param name="Impasto">From here on impasto, um.</param>
internal sealed record BodyThresholds(double Thin, double Full, double Impasto)
{
    /// <summary>The class of a place; null without data.</summary>
    public Body? Of(double sq) => double.IsNaN(sq) ? null : sq < Thin ? Body.Watery : sq < Full ? Body.Thin : sq < Impasto ? Body.Full : Body.Impasto;

    /// <summary>Share of each class in what has data, in the order of <see cref="Body"/>; and that part's pixels.</summary>
    public (double[] Shares, int Pixels) Shares(Plane sq)
    {
        var counts = new int[4];
        foreach (var v in sq.Data)
            if (Of(v) is { } body) counts[(int)body]++;
        var pixels = counts.Sum();
        return ([.. counts.Select(c => pixels == 0 ? 0 : (double)c / pixels)], pixels);
    }
}
