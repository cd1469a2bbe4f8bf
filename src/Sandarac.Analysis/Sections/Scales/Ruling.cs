using System.Globalization;
using Sandarac.Analysis.Alignment.Rulers;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Sections.Scales;

/// <summary>Evenly ruled lines as a stage micrometer shows them.</summary>
/// <param name="Fit">Where its ticks stand, pixels.</param>
/// <param name="Ticks">How many are followed.</param>
/// <param name="Degrees">Direction in which they follow one another, clockwise against the rows, -90 to 90.</param>
/// <param name="Residual">Root mean square distance of ticks from where an even ruling has them, pixels.</param>
/// <param name="LongerEvery">Every which tick is longer, 5 or 2; null when none is seen to be.</param>
internal sealed record Ruling(TickFit Fit, int Ticks, double Degrees, double Residual, int? LongerEvery)
{
    /// <summary>Of a larger picture, its middle: at full size, for a reduced one could show a false ruling.</summary>
    private const int MostSide = 4096;

    /// <summary>Smallest picture, pixels.</summary>
    private const int LeastSide = 64;

    /// <summary>Residual, as a share of a step, from which lines are not even enough, and power in other directions from which a picture is woven or chequered. On drawn
    /// rulings they are below 0.006 and 0.04, on woven cloth above 0.015 and 0.5. The bounds are ours.</summary>
    private const double MostUneven = 0.02, MostCrosswise = 0.3;

    /// <summary>By how much light that falls off shifts the last tick against the first, as a share of a step: on drawn rulings up to about so much.</summary>
    private const double Shifted = 0.005;

    /// <summary>Half-width of the 95 % interval of <see cref="Step"/>, as a share of it.</summary>
    public double Uncertainty => Math.Sqrt(Math.Pow(Fit.Uncertainty, 2) + Math.Pow(Shifted / (Ticks - 1), 2));

    /// <summary>Distance of the ticks, pixels.</summary>
    public double Step => Math.Abs(Fit.Distance(0));

    /// <summary>The ruling that is seen best; null when there is none.</summary>
    public static Ruling? Find(InputImage image, RunContext context)
    {
        var facts = image.Image.Facts;
        if (Math.Min(facts.Width, facts.Height) < LeastSide) return null;
        var picture = Middle(image);
        var parallel = context.Workers;
        foreach (var peak in RulingPeaks.Of(picture, parallel))
        {
            context.Cancellation.ThrowIfCancellationRequested();
            if (peak.Crosswise <= MostCrosswise && Of(picture, peak) is { } ruling) return ruling;
        }
        return null;
    }

    /// <summary>What is to be known of it.</summary>
    /// <param name="name">The image.</param>
    /// <param name="division">The division that was stated, um.</param>
    public IEnumerable<Warning> Warnings(string name, double division) => LongerEvery switch
    {
        5 => [],
        2 => [new Warning("every-second-tick-longer", string.Create(CultureInfo.InvariantCulture, $"In {name} every second tick is longer: are these fifths and tenths, and finer ticks between them too faint to see? The scale takes the distance of neighbouring ticks for {division} um."))],
        _ => [new Warning("longer-ticks-not-seen", string.Create(CultureInfo.InvariantCulture, $"In {name} no longer ticks at every fifth were seen: nothing checks that neighbouring ticks are {division} um apart."))],
    };

    private static Ruling? Of(Plane picture, RulingPeak peak)
    {
        var band = RulingBand.Along(picture, peak);
        if (RulingTicks.Of(band.Profile(), band.Frequency) is not { } ticks) return null;
        var fit = TickFit.Of(ticks.Along);
        var residual = Math.Sqrt(ticks.Along.Select((a, i) => Math.Pow(a - fit.Along(i - (ticks.Along.Length - 1) / 2.0), 2)).Average());
        if (residual > MostUneven * Math.Abs(fit.Distance(0))) return null;
        return new Ruling(fit, ticks.Along.Length, Math.IEEERemainder(band.Degrees, 180), residual, ticks.LongerEvery(band.Profile(whole: true)));
    }

    /// <summary>The mean of the bands; what is not finite becomes the mean of the rest.</summary>
    private static Plane Middle(InputImage image)
    {
        var facts = image.Image.Facts;
        var (width, height) = (Math.Min(MostSide, facts.Width), Math.Min(MostSide, facts.Height));
        var bands = Bands.Of(image.Image.ReadWindow((facts.Width - width) / 2, (facts.Height - height) / 2, width, height), facts);
        var grey = new Plane(width, height, [.. bands[0].Data.Select((_, i) => (float)(bands.Average(b => (double)b.Data[i]) / facts.FullScale))]);
        var mean = (float)grey.Data.Where(float.IsFinite).Select(v => (double)v).DefaultIfEmpty(0).Average();
        return grey.Select(v => float.IsFinite(v) ? v : mean);
    }
}
