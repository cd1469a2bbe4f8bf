namespace Sandarac.Studio.Record;

/// <summary>A guided sequence of views of a painting, with captions.</summary>
public sealed class Walk : Written<WalkContent>;

/// <summary>How two layers are shown together.</summary>
public enum ViewCompare
{
    /// <summary>One alone.</summary>
    Alone,

    /// <summary>Linked, beside each other.</summary>
    Beside,

    /// <summary>With a movable edge.</summary>
    Divide,

    /// <summary>One through the other.</summary>
    Fade,

    /// <summary>One through a round glass on the other.</summary>
    Loupe,
}

/// <summary>One view.</summary>
/// <param name="Id">Its key.</param>
/// <param name="Title">What it is called.</param>
/// <param name="Caption">What there is to see.</param>
/// <param name="X">Middle of the view, mm from the left edge.</param>
/// <param name="Y">Middle of the view, mm from the upper edge.</param>
/// <param name="WidthMm">Width of the view, mm.</param>
/// <param name="LayerA">Id of the layer on A, as the Easel names it.</param>
/// <param name="LayerB">Id of the layer on B; null when A is alone.</param>
/// <param name="Compare">How both are shown.</param>
/// <param name="Amount">Place of the edge, or share of B in the fade, 0 to 1.</param>
/// <param name="LampAzimuth">Where the lamp of Relight stands, degrees clockwise from the top; null without it.</param>
/// <param name="LampElevation">How high it stands, degrees; null without it.</param>
/// <param name="Zones">Zones that are shown.</param>
public sealed record WalkStep(Guid Id, string Title, string Caption, double X, double Y, double WidthMm, string LayerA, string? LayerB, ViewCompare Compare, double Amount,
    double? LampAzimuth, double? LampElevation, IReadOnlyList<Guid> Zones);

/// <summary>What is written of a walk.</summary>
public sealed record WalkContent
{
    /// <summary>What it is called.</summary>
    public string Title { get; init; } = "";

    /// <summary>Language of its captions, BCP 47: "en", "es".</summary>
    public string Language { get; init; } = "en";

    /// <summary>The views in their order.</summary>
    public IReadOnlyList<WalkStep> Steps { get; init; } = [];
}
