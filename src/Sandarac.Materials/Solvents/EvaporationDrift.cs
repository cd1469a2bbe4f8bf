namespace Sandarac.Materials.Solvents;

/// <summary>What is left of a mixture when part of it has evaporated.</summary>
/// <param name="EvaporatedPercent">Share of the first volume that is gone, percent.</param>
/// <param name="Left">What is left.</param>
public sealed record DriftPoint(double EvaporatedPercent, Mixture Left);

/// <summary>
/// How a mixture's composition drifts as it evaporates: ideal evaporation by Raoult's law at a steady 20 C from an open, stirred film, every vapour carried off equally fast. dn_i/dt = -k x_i p_i has the solution
/// n_i = n_i0 exp(-p_i s) with ds = k dt / n, so volumes v_i = v_i0 exp(-p_i s) need no molar volumes, and s follows from the volume that is left by root finding. Real mixtures deviate: alcohols in hydrocarbons evaporate
/// faster than this, azeotropes do not drift, cooling and what is in the film slow all.
/// </summary>
/// <param name="Points">From the mixture itself to the last that is computed.</param>
/// <param name="Cautions">What the figures rest on.</param>
public sealed record EvaporationDrift(IReadOnlyList<DriftPoint> Points, IReadOnlyList<string> Cautions)
{
    /// <summary>How far it is followed, percent of the volume.</summary>
    public const double FollowedPercent = 95;

    /// <summary>The drift of a mixture, followed until 95 % of its volume is gone.</summary>
    /// <param name="mixture">Which.</param>
    /// <param name="steps">How many points beyond the first.</param>
    /// <returns>No answer when the vapour pressure of a part is not known.</returns>
    public static Answer<EvaporationDrift> Of(Mixture mixture, int steps = 38) =>
        mixture.Lacking(s => s.VapourPressureKPa is null) is { } names ? new(null, $"The table has no vapour pressure of {names}, or only an upper bound.")
            : new(new([.. Enumerable.Range(0, steps + 1).Select(i => At(mixture, FollowedPercent * i / steps))], [.. CautionsOf(mixture)]), null);

    /// <summary>Relative energy difference to a region along the way; empty where a part has no Hansen parameters.</summary>
    public IReadOnlyList<(double EvaporatedPercent, double Red)> RedTo(HansenSphere region) => [.. Points.Where(p => p.Left.Hansen.Value is not null).Select(p => (p.EvaporatedPercent, region.Red(p.Left.Hansen.Value!)))];

    /// <summary>What is left after a share of the volume has evaporated.</summary>
    /// <param name="mixture">A mixture whose parts all have a vapour pressure.</param>
    /// <param name="evaporatedPercent">0 to below 100.</param>
    internal static DriftPoint At(Mixture mixture, double evaporatedPercent)
    {
        var (left, pressures) = (1 - evaporatedPercent / 100, mixture.Parts.Select(p => p.Solvent.VapourPressureKPa!.Value).ToArray());
        var gone = Progress(mixture.Parts, pressures, left);
        return new(evaporatedPercent, new([.. mixture.Parts.Select((p, i) => new MixturePart(p.Solvent, p.Fraction * Math.Exp(-pressures[i] * gone) / left))]));
    }

    /// <summary>The s at which so much is left. Volume against s is convex and falls, so Newton's steps from 0 never overshoot; a pressure a hundred thousand times another's takes some dozens.</summary>
    private static double Progress(IReadOnlyList<MixturePart> parts, double[] pressures, double left)
    {
        var s = 0.0;
        for (var round = 0; round < 500; round++)
        {
            var (volume, slope) = (0.0, 0.0);
            for (var i = 0; i < pressures.Length; i++)
            {
                var v = parts[i].Fraction * Math.Exp(-pressures[i] * s);
                (volume, slope) = (volume + v, slope + v * pressures[i]);
            }
            var step = (volume - left) / slope;
            s += step;
            if (step <= 1e-14 * s) break;
        }
        return s;
    }

    private static IEnumerable<string> CautionsOf(Mixture mixture)
    {
        yield return "Ideal evaporation at 20 C: real mixtures deviate, alcohols in hydrocarbons most, and azeotropes do not drift.";
        if (mixture.Parts.Count == 1) yield return "A solvent by itself does not drift.";
        if (mixture.Lacking(s => s.VapourPressure!.Value is { High: > 0 } p && p.High > p.Low || s.MolarMass is null) is { } cuts) yield return $"{cuts}: a cut of many liquids is taken for one, with the middle of its vapour pressures; its own drift is left out.";
        if (mixture.Lacking(s => !s.VapourPressure!.IsVerified || s.VapourPressure.Source.Contains("extrapolated", StringComparison.Ordinal)) is { } weak) yield return $"{weak}: vapour pressure from memory, or extrapolated below its measured range.";
    }
}
