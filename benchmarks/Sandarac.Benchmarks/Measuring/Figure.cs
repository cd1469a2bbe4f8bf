namespace Sandarac.Benchmarks.Measuring;

/// <summary>A measured figure.</summary>
/// <param name="What">What was measured: "1024 x 1024 forward, 1 thread".</param>
/// <param name="Unit">Unit of both values.</param>
/// <param name="Ours">Our value; null when it could not be measured.</param>
public sealed record Figure(string What, string Unit, double? Ours)
{
    /// <summary>The peer's value from the same run; null when there is no peer or it is not present.</summary>
    public double? Peer { get; init; }

    /// <summary>What the peer was, with its version; or why there is none.</summary>
    public string PeerName { get; init; } = "";

    /// <summary>The limit; null when the figure is only reported.</summary>
    public Limit? Limit { get; init; }

    /// <summary>Anything else to know: spread, peak memory, why it could not be measured.</summary>
    public string Note { get; init; } = "";

    /// <summary>Ours over the peer's; null when one of them is missing or infinite, or the peer's is 0.</summary>
    public double? Ratio => Ours / Peer is { } ratio && double.IsFinite(ratio) && Peer < double.PositiveInfinity ? ratio : null;

    /// <summary>Whether the limit is met; null when there is none or the figure is missing.</summary>
    public bool? Met => Limit is null ? null : (Limit.OfRatio ? Ratio : Ours) is { } value ? value <= Limit.AtMost : null;

    /// <summary>The figure in one line.</summary>
    public string Sentence => $"{What}: {Show(Ours)} {Unit}"
        + (Peer is null ? "" : $", peer {Show(Peer)} {Unit}" + (Ratio is null ? "" : $", ratio {Ratio:0.00}"))
        + (PeerName.Length == 0 ? "" : $" ({PeerName})") + (Note.Length == 0 ? "" : $"; {Note}");

    internal static string Show(double? value) => value switch
    {
        null => "-",
        double.PositiveInfinity => "none",
        >= 100 => $"{value:0}",
        >= 10 => $"{value:0.0}",
        _ => $"{value:0.00}",
    };
}

/// <summary>What a figure must not exceed.</summary>
/// <param name="AtMost">Largest value.</param>
/// <param name="OfRatio">Whether it is the ratio to the peer that is limited, not the value itself.</param>
public sealed record Limit(double AtMost, bool OfRatio);
