using Sandarac.Analysis.Spectra;
using Sandarac.Analysis.Spectra.Elements;

namespace Sandarac.Analysis.Tests.Spectra;

/// <summary>What an analysis found of a paint's elements. Looked for are elements with a line of their own that can be seen: of its counts in the middle of the line more than eight times the noise of all that is there, and more than
/// those of all other elements there together.</summary>
internal sealed record ElementScore(IReadOnlyList<string> Found, IReadOnlyList<string> Missed, IReadOnlyList<string> Wrong, IReadOnlyList<string> WronglyCertain)
{
    private const double Visible = 8;

    public static ElementScore Of(PaintSpectrum paint, SpectrumResult result, double total, double fwhmEv, EnergyScale scale, int channels)
    {
        var said = result.Elements.Where(e => e.Confidence != ElementConfidence.CannotBeTold).ToList();
        var seen = paint.Elements.Where(e => Shows(paint, e, total, fwhmEv, scale, channels)).ToList();
        var wrong = said.Where(e => !paint.Elements.Contains(e.Element)).ToList();
        return new ElementScore([.. said.Select(e => e.Element).Intersect(seen)], [.. seen.Except(said.Select(e => e.Element))], [.. wrong.Select(e => e.Element)], [.. wrong.Where(e => e.Confidence == ElementConfidence.Certain).Select(e => e.Element)]);
    }

    private static bool Shows(PaintSpectrum paint, string element, double total, double fwhmEv, EnergyScale scale, int channels)
    {
        double[] own = paint.Expected(total, fwhmEv, scale, channels, l => l.Element == element), lines = paint.Expected(total, fwhmEv, scale, channels, l => l.Element != "continuum"), all = paint.Expected(total, fwhmEv, scale, channels);
        return paint.Lines.Where(l => l.Element == element && l.Kev > 1.3).Any(l =>
        {
            var (at, half) = ((l.Kev - scale.OffsetKev) / scale.KevPerChannel, 0.6 * fwhmEv / 1000 / scale.KevPerChannel);
            int[] middle = [.. Enumerable.Range(0, channels).Where(c => Math.Abs(c - at) <= half)];
            var (counts, others, everything) = (middle.Sum(c => own[c]), middle.Sum(c => lines[c] - own[c]), middle.Sum(c => all[c]));
            return counts > Visible * Math.Sqrt(everything) && counts > 1.3 * others;
        });
    }
}
