using Sandarac.Analysis.Numbers;
using Sandarac.Analysis.Spectra.Elements;
using Sandarac.Analysis.Spectra.Fitting;

namespace Sandarac.Analysis.Spectra.Calibration;

/// <summary>Holds a scale against the lines that were found: each strong peak is fitted in the spectrum and, in the same way, in the model, whose lines lie where the table has them.</summary>
internal static class ScaleCheck
{
    /// <summary>Least significance of a peak that a scale may rest on, and how far off it may be, full widths at half maximum: farther, it is another line.</summary>
    private const double Strong = 12, Reach = 0.5;

    /// <summary>A table's energy and a detector's straightness, standard deviation, eV. Ours, no source; it keeps one huge peak from deciding alone.</summary>
    private const double LeastDoubtEv = 3;

    /// <summary>The scale through the lines found; the one given when fewer than three strong peaks lie on lines.</summary>
    public static EnergyCalibration Corrected(ElementSearch search, EnergyCalibration given, double[] background, IReadOnlyList<FittedPeak> peaks)
    {
        var axis = search.Axis;
        var model = search.Model.Sum(search.Fit.Amounts, _ => true);
        var ground = search.Model.Sum(search.Fit.Amounts, c => c.Owner == Component.Ground);
        var strong = peaks.Where(p => p.Significance >= Strong).ToList();
        var there = PeakFit.Of(model, ground, [.. peaks.Select(p => ((int)Math.Round(p.Channel), p.Significance))], axis.Sigma, false);
        List<(string Name, double Channel, double Kev, double Weight)> places = [];
        foreach (var p in strong)
        {
            var at = there.MinBy(t => Math.Abs(t.Channel - p.Channel))!;
            var off = Math.Abs(p.Channel - at.Channel) * axis.Scale.KevPerChannel;
            if (off > Reach * axis.Resolution.FwhmEv(axis.Scale.At(at.Channel)) / 1000 || at.Area < 0.5 * p.Area || at.Area > 2 * p.Area) continue;
            places.Add((PeakNames.Of(search, at.Channel) is [var name, ..] ? name : "", p.Channel, axis.Scale.At(at.Channel), 1 / (Math.Pow(p.ChannelSigma, 2) + Math.Pow(LeastDoubtEv / 1000 / axis.Scale.KevPerChannel, 2))));
        }
        for (var round = 0; round < 3 && places.Count >= 3; round++)
        {
            if (EnergyCalibration.Of(places, given.Origin) is not { } through) break;
            var spread = Math.Max(LeastDoubtEv, Robust.Sigma([.. through.Lines.Select(l => l.ResidualEv)]));
            var kept = places.Where((_, i) => Math.Abs(through.Lines[i].ResidualEv) < 4 * spread).ToList();
            if (kept.Count == places.Count) return through;
            places = kept;
        }
        return given;
    }
}
