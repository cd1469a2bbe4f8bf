using System.Globalization;
using Sandarac.Imaging;

namespace Sandarac.Materials.Solvents;

/// <summary>What a blend shall lie near, in one of the two systems; the systems are never mixed.</summary>
public abstract record BlendTarget
{
    /// <summary>Unit of distances to it.</summary>
    public abstract string Unit { get; }

    /// <summary>Distances that agree to so much are taken for alike, in the unit: what rounding in the tables amounts to.</summary>
    internal abstract double Alike { get; }

    /// <summary>How far a mixture lies from it; no answer where a part lacks the system's parameters.</summary>
    public abstract double? DistanceOf(Mixture mixture);

    /// <summary>How strong a solvent is: its polar and hydrogen parts together, in the unit. A mixture's is the mean of its parts' by volume. The table has it where it has the place.</summary>
    public abstract double StrengthOf(Solvent solvent);

    /// <summary>Reads a target: "hansen:18.6,10.5,7.5" with the radius after a further comma, "teas:60,20,20", the name of a region, or a mixture whose Hansen parameters are wanted, "toluene 50 + acetone 50".</summary>
    /// <exception cref="InputProblem">It is none of these, or the mixture's parameters are not known.</exception>
    public static BlendTarget Parse(string text, IEnumerable<HansenSphere> regions)
    {
        if (text.Split(':', 2) is [var system, var list] && Numbers(list) is { } numbers)
            switch (system.Trim().ToLowerInvariant(), numbers)
            {
                case ("teas", [var d, var p, var h]): return new TeasTarget(TeasFractions.Of(d, p, h));
                case ("hansen", [var d, var p, var h]): return new HansenTarget(HansenSphere.Of("target", new(d, p, h), 1, "target").Centre);
                case ("hansen", [var d, var p, var h, var r]): return new HansenTarget(new(d, p, h), HansenSphere.Of("target", new(d, p, h), r, "target").Radius);
            }
        if (regions.FirstOrDefault(r => r.Name.Equals(text.Trim(), StringComparison.OrdinalIgnoreCase)) is { } region) return new HansenTarget(region.Centre, region.Radius);
        if (!text.Contains('+', StringComparison.Ordinal) && SolventTable.Find(text.TrimEnd([' ', '%', .. "0123456789."])) is null)
            throw new InputProblem("blend-target", text, $"\"{text}\" is no place.", $"Give hansen:DD,DP,DH, teas:FD,FP,FH, a mixture such as \"toluene 50 + acetone 50\", or one of: {string.Join(", ", regions.Select(r => r.Name))}.");
        var hansen = Mixture.Parse(text).Hansen;
        return new HansenTarget(hansen.Value ?? throw new InputProblem("blend-target", text, hansen.NoAnswer!, "Give its place as hansen:DD,DP,DH or teas:FD,FP,FH."));
    }

    /// <summary>The target's own place.</summary>
    internal abstract Place Centre { get; }

    /// <summary>A solvent's place; null when the table lacks it.</summary>
    internal abstract Place? PlaceOf(Solvent solvent);

    private static double[]? Numbers(string list)
    {
        double?[] read = [.. list.Split(',').Select(t => double.TryParse(t, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) ? v : (double?)null)];
        return read.All(v => v is not null) ? [.. read.Select(v => v!.Value)] : null;
    }
}

/// <summary>A place in Hansen's space.</summary>
/// <param name="Parameters">MPa^0.5.</param>
/// <param name="Radius">Radius R0 of the region whose centre it is, MPa^0.5; null for a place by itself.</param>
public sealed record HansenTarget(HansenParameters Parameters, double? Radius = null) : BlendTarget
{
    /// <inheritdoc/>
    public override string Unit => "MPa^0.5";

    internal override double Alike => 0.1;

    /// <inheritdoc/>
    public override double? DistanceOf(Mixture mixture) => mixture.Hansen.Value?.DistanceTo(Parameters);

    /// <inheritdoc/>
    public override double StrengthOf(Solvent solvent) => solvent.Hansen!.Value.Polar + solvent.Hansen.Value.Hydrogen;

    internal override Place Centre => Place.Of(Parameters);

    internal override Place? PlaceOf(Solvent solvent) => solvent.Hansen is { } h ? Place.Of(h.Value) : null;
}

/// <summary>A place on the Teas triangle.</summary>
/// <param name="Fractions">Percent.</param>
public sealed record TeasTarget(TeasFractions Fractions) : BlendTarget
{
    /// <inheritdoc/>
    public override string Unit => "points";

    internal override double Alike => 0.5;

    /// <inheritdoc/>
    public override double? DistanceOf(Mixture mixture) => mixture.Teas.Value?.DistanceTo(Fractions);

    /// <inheritdoc/>
    public override double StrengthOf(Solvent solvent) => 100 - solvent.Teas!.Value.Dispersion;

    internal override Place Centre => Place.Of(Fractions);

    internal override Place? PlaceOf(Solvent solvent) => solvent.Teas is { } t ? Place.Of(t.Value) : null;
}
