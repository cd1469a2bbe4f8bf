namespace Sandarac.Materials.Calculators;

/// <summary>How much varnish a painting takes.</summary>
/// <param name="VolumeMl">Varnish, mL.</param>
/// <param name="ResinG">Resin in it, g.</param>
/// <param name="DryThicknessUm">Thickness of what stays when all of it dries on the painting, um; null without the resin's density.</param>
public sealed record VarnishNeed(double VolumeMl, double ResinG, double? DryThicknessUm)
{
    /// <summary>Computes it. What a litre covers depends on brush or spray, ground and hand: it is the user's own experience, no table's.</summary>
    /// <param name="areaCm2">Painted area, cm2.</param>
    /// <param name="coats">1 to 20.</param>
    /// <param name="coverageM2PerL">What a litre covers in one coat, m2.</param>
    /// <param name="resinPercent">Resin, g in 100 mL of varnish.</param>
    /// <param name="lossPercent">What is lost in brush, jar or spray, percent of what is needed: 0 to 95.</param>
    /// <param name="resinDensity">g/mL; null when not known.</param>
    /// <exception cref="Imaging.InputProblem">A figure cannot be.</exception>
    public static VarnishNeed Of(double areaCm2, int coats, double coverageM2PerL, double resinPercent, double lossPercent = 0, double? resinDensity = null)
    {
        Given.Within(coats, 1, 20, "coats", "coats");
        var onPainting = Given.Positive(areaCm2, "area", "cm2") / 1e4 * coats / Given.Positive(coverageM2PerL, "coverage", "m2 per litre") * 1000;
        var volume = onPainting / (1 - Given.Within(lossPercent, 0, 95, "loss", "percent") / 100);
        var resin = Given.Within(resinPercent, double.Epsilon, 100, "resin", "g in 100 mL") / 100;
        return new(volume, volume * resin, resinDensity is { } d ? onPainting * resin / Given.Positive(d, "density of the resin", "g/mL") / areaCm2 * 1e4 : null);
    }
}
