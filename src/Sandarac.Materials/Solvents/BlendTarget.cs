namespace Sandarac.Materials.Solvents;

/// <summary>What a blend shall lie near, in one of the two systems; the systems are never mixed.</summary>
public abstract record BlendTarget
{
    /// <summary>Unit of distances to it.</summary>
    public abstract string Unit { get; }

    /// <summary>How far a mixture lies from it; no answer where a part lacks the system's parameters.</summary>
    public abstract double? DistanceOf(Mixture mixture);

    /// <summary>The target's own place.</summary>
    internal abstract Place Centre { get; }

    /// <summary>A solvent's place; null when the table lacks it.</summary>
    internal abstract Place? PlaceOf(Solvent solvent);
}

/// <summary>A place in Hansen's space.</summary>
/// <param name="Parameters">MPa^0.5.</param>
/// <param name="Radius">Radius R0 of the region whose centre it is, MPa^0.5; null for a place by itself.</param>
public sealed record HansenTarget(HansenParameters Parameters, double? Radius = null) : BlendTarget
{
    /// <inheritdoc/>
    public override string Unit => "MPa^0.5";

    /// <inheritdoc/>
    public override double? DistanceOf(Mixture mixture) => mixture.Hansen.Value?.DistanceTo(Parameters);

    internal override Place Centre => Place.Of(Parameters);

    internal override Place? PlaceOf(Solvent solvent) => solvent.Hansen is { } h ? Place.Of(h.Value) : null;
}

/// <summary>A place on the Teas triangle.</summary>
/// <param name="Fractions">Percent.</param>
public sealed record TeasTarget(TeasFractions Fractions) : BlendTarget
{
    /// <inheritdoc/>
    public override string Unit => "points";

    /// <inheritdoc/>
    public override double? DistanceOf(Mixture mixture) => mixture.Teas.Value?.DistanceTo(Fractions);

    internal override Place Centre => Place.Of(Fractions);

    internal override Place? PlaceOf(Solvent solvent) => solvent.Teas is { } t ? Place.Of(t.Value) : null;
}
