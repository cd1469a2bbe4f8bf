using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>How far an alignment of two photographs may be trusted.</summary>
public enum PairVerdict
{
    /// <summary>The structures agree all over.</summary>
    Aligned,

    /// <summary>They agree, but not everywhere or not closely: a person should look.</summary>
    Uncertain,

    /// <summary>No more agreement than chance gives.</summary>
    NotAligned,
}

/// <summary>What patches that had no part in the fit say of it, in target units.</summary>
/// <param name="Patches">Patches that were found again somewhere near.</param>
/// <param name="Agreeing">Those of them that lie within the gate.</param>
/// <param name="Gate">Beyond this a patch counts as taken for another, target units.</param>
/// <param name="Median">Half of the agreeing patches lie within.</param>
/// <param name="Mean">Their mean distance.</param>
/// <param name="P95">95 of 100 of them lie within.</param>
/// <param name="Max">The farthest of them.</param>
public sealed record HeldOutResidual(int Patches, int Agreeing, double Gate, double Median, double Mean, double P95, double Max);

/// <summary>A patch and what the map leaves of it when it is held out of the fit.</summary>
/// <param name="Place">On the target.</param>
/// <param name="Residual">Right and down, target units.</param>
/// <param name="Agrees">Whether it lies within the gate.</param>
public sealed record PatchResidual(Point2 Place, Point2 Residual, bool Agrees);

/// <summary>How a photograph lies on a reference.</summary>
public sealed record PairAlignment
{
    /// <summary>How far it may be trusted.</summary>
    public required PairVerdict Verdict { get; init; }

    /// <summary>Why, in words, with the thresholds.</summary>
    public required string Reason { get; init; }

    /// <summary>From the moving photograph's pixels to the target; null when not aligned.</summary>
    public PlaneMap? Map { get; init; }

    /// <summary>The model that was chosen.</summary>
    public MapModel? Model { get; init; }

    /// <summary>What was compared.</summary>
    public StructureKind? Kind { get; init; }

    /// <summary>Size of the patches' pixel, target units.</summary>
    public double Unit { get; init; }

    /// <summary>Held-out patches in figures.</summary>
    public HeldOutResidual? HeldOut { get; init; }

    /// <summary>Held-out patches one by one.</summary>
    public IReadOnlyList<PatchResidual> Patches { get; init; } = [];

    /// <summary>Decimal logarithm of the number of such agreements that chance alone would give.</summary>
    public double Log10FalseAlarms { get; init; }

    /// <summary>Share of the overlap, in sixteenths, in which patches agree.</summary>
    public double Spread { get; init; }

    /// <summary>Standard error of the whole photograph's place, target units.</summary>
    public double StandardError { get; init; }

    /// <summary>Where the time went.</summary>
    public IReadOnlyList<(string Name, double Seconds)> Stages { get; init; } = [];
}
