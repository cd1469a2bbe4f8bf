namespace Sandarac.Studio.BuildUp;

/// <summary>What a stage of the making, or of what was done later, is.</summary>
public enum StageKind
{
    /// <summary>Panel, canvas, plate.</summary>
    Support,

    /// <summary>Size, sealing.</summary>
    Size,

    /// <summary>Ground.</summary>
    Ground,

    /// <summary>Priming, isolating layer, toned or not.</summary>
    Priming,

    /// <summary>Drawing under the paint.</summary>
    Drawing,

    /// <summary>Paint, glaze, metal leaf.</summary>
    Paint,

    /// <summary>Varnish or another clear coat.</summary>
    Varnish,

    /// <summary>Dirt on a surface that lay open.</summary>
    Dirt,

    /// <summary>Filling, retouching, overpaint: what was done to the painting after it was made.</summary>
    Intervention,

    /// <summary>Something else, or not known.</summary>
    Other,
}

/// <summary>Kinds of stages in words.</summary>
public static class StageKinds
{
    /// <summary>"ground"; "kind not said".</summary>
    public static string Word(this StageKind kind) => kind == StageKind.Other ? "kind not said" : $"{kind}".ToLowerInvariant();
}

/// <summary>How one stage lies to another.</summary>
public enum RelationKind
{
    /// <summary>The first lies over the second.</summary>
    Over,

    /// <summary>The first lies under the second.</summary>
    Under,

    /// <summary>Both are one stage, seen in two places.</summary>
    Same,
}

/// <summary>A stage of the build-up.</summary>
/// <param name="Id">Its key.</param>
/// <param name="Name">What people call it: "toned priming".</param>
/// <param name="Kind">What it is.</param>
public sealed record BuildUpStage(Guid Id, string Name, StageKind Kind);

/// <summary>That one stage lies over, lies under or is the same as another, and what it rests on.</summary>
/// <param name="Id">Its key.</param>
/// <param name="Stage">The first stage.</param>
/// <param name="Kind">How the first lies to the second.</param>
/// <param name="Other">The second stage.</param>
/// <param name="Evidence">What it rests on, in words: "sample 2, layer 3 over layer 2".</param>
public sealed record BuildUpRelation(Guid Id, Guid Stage, RelationKind Kind, Guid Other, string Evidence)
{
    /// <summary>The stage that lies over the other; of two that are the same, the first.</summary>
    internal Guid Upper => Kind == RelationKind.Under ? Other : Stage;

    /// <summary>The stage that lies under the other; of two that are the same, the second.</summary>
    internal Guid Lower => Kind == RelationKind.Under ? Stage : Other;

    /// <summary>Whether it orders its stages.</summary>
    internal bool Orders => Kind != RelationKind.Same;
}
