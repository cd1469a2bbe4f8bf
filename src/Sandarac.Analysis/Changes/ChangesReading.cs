using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Numbers;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>What changed between two photographs of one painting in one light.</summary>
public sealed class ChangesReading : Reading
{
    private const int WorkingSide = 6000;

    /// <summary>Least share of the face that both show, and of its cells with detail in which they agree.</summary>
    private const double LeastOverlap = 0.25, LeastAgreement = 0.7;

    /// <summary>Lamps farther apart than this light relief differently, degrees: common practice, no source.</summary>
    private const double LampsApart = 10;

    private static readonly double[] Discs = [0.5, 1, 2, 5];

    private static readonly NumberParameter FalseAlarms = new("false-alarms", "False candidates at most", "How many candidates chance alone may be expected to give over the whole face.", null, 0.05, 1e-6, 10);

    private static readonly NumberParameter LeastColour = new("least-difference", "Least difference", "Places that differ by less in CIELAB (1976), averaged over their scale and over their outline, are left out although they stand out of the noise: lamps are never twice in one place.", "dE", 1, 0, 50);

    private static readonly LengthParameter Widest = new("widest", "Widest average", "Standard deviation of the widest average in which changes are looked for: faint changes of some three times this width gain by it.", 2.5, 0.1, 50);

    private static readonly LengthParameter Rim = new("rim", "Rim left out", "So much along every side of the picture is not compared: what lies behind a painting's edge shows there as soon as the two photographs are aligned a little differently.", 1.5, 0, 50);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "changes",
        Version = 1,
        Title = "Changes between two photographs",
        Summary = "Compares a later photograph with an earlier one in the same light: matched in place, light, colour and sharpness, and divided by the noise of the two, it proposes places that changed, each for a person to judge.",
        Citation = "Shifts: Lucas and Kanade, IJCAI 1981, 674. Light: least squares with Tukey's biweight, Holland and Welsch, Communications in Statistics A6 (1977) 813. Noise by light: Foi et al., IEEE Trans. Image Processing 17 (2008) 1737. Chance from the photographs themselves: Efron, J. American Statistical Association 99 (2004) 96; tail of peaks beyond a threshold as in Coles, An Introduction to Statistical Modeling of Extreme Values (2001), here of Weibull's form.",
        Limits = "A candidate is a place to look at: that two photographs differ there, not what happened. A change that is even over the face, or that fades over most of it, is matched away with the light: yellowing of a whole varnish is not seen. Changes in gloss, lifting and relief show only as far as the lamps show them, and lamps that moved can give differences on strong relief. What is smaller or fainter than the figures under Smallest change is missed. Both photographs must be in one light, not clipped, and their files' tone curves known.",
        Inputs =
        [
            new("baseline", "The earlier photograph.", [], ByLamp: true),
            new("later", "The later photograph, in the same light.", [], ByLamp: true),
        ],
        Parameters = [FalseAlarms, LeastColour, Widest, Rim],
        Rasters =
        [
            new("difference", "Difference in units of its noise, finest scale", "sd", ["sd"]),
            new("limit", "Difference over the limit, all scales", "1", ["1"]),
            new("colour-difference", "Difference in colour", "dE", ["dE"]),
        ],
        Figures =
        [
            new("candidates", "Places proposed", "1", "Counted; exact."),
            new("candidate-area", "Their area", "mm2", "Counted in pixels; uncertain by half a pixel along the outlines."),
            new("smallest-change", "Smallest change that would have been seen", "dE", "An even disc that turns lighter or darker in calm paint of the median light, by the limits in force and the noise measured. On strong contrast more is needed."),
            new("compared", "Share of the picture compared", "%", "Pixels that both photographs show, neither clipped nor black nor in the rim; counted, exact."),
            new("noise", "Noise of the difference", "%", "Standard deviation at the median light, both photographs together, in per cent of full scale; by medians in sixteen classes of light."),
            new("gain", "Unevenness of light taken out", "%", "Greatest over least gain of the smooth field over the picture, less one. A description of what was corrected."),
            new("shift", "Shift that was corrected", "mm", "Root mean square over cells; its uncertainty is what the last round still found."),
            new("sharpness", "Blur that was added", "mm", "Standard deviation of the Gaussian that brought the sharper one to the other's sharpness; above 0 the baseline was blurred. A description."),
            new("agreement", "Cells with detail that agree", "%", "Share of the cells whose detail correlates by at least one half; counted, exact."),
        ],
        Reach = new Reach.Whole(WorkingSide),
        OnPlane = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var (baseline, later) = (LightFrame.In("baseline", context), LightFrame.In("later", context));
        var widest = context.Pixels(Widest, baseline.Image);
        if (Incomparable(baseline, later) is { } why) return new Outcome { NoAnswer = why };
        var factor = ReducedLight.FactorFor(baseline, WorkingSide);
        context.Begin(0, 0.15);
        var pair = ChangePair.Read(baseline, later, factor, (int)Math.Ceiling(context.Pixels(Rim, baseline.Image) / factor), context);
        var share = pair.Shown / (double)(pair.Width * pair.Height);
        if (share < LeastOverlap) return new Outcome { NoAnswer = Text($"Only {100 * share:0} % of the picture is shown, unclipped, by both photographs.") };
        if (pair.IsOne) return new Outcome { NoAnswer = "The two photographs are one: every value is the same.", Figures = [Compared(share)] };
        if (LightMatch.Fit(pair) is not { } light) return new Outcome { NoAnswer = "The picture is too small to match the two photographs' light." };
        context.Begin(0.15, 0.5);
        var (shift, shifted) = ResidualShift.Correct(pair.Baseline, light.Apply(pair.Later, context.Workers), context.Workers);
        var (first, second, blur) = SharpnessMatch.Match(pair.Baseline, shifted, context.Workers);
        Blank(pair, first, second);
        context.Report(0.7);
        var noise = DifferenceNoise.Of(first, second, context.Workers);
        var agreement = PairAgreement.Of(first, second, noise, context.Workers);
        if (agreement.Telling == 0) return new Outcome { NoAnswer = "Nowhere do the photographs show detail above their noise, so it cannot be told whether they are aligned, or show the same painting.", Figures = [Compared(share)] };
        if (agreement.Agreeing < LeastAgreement * agreement.Telling) return new Outcome { NoAnswer = Text($"The photographs agree in {agreement.Agreeing} of {agreement.Telling} cells with detail: they are not aligned well enough, or do not show the same painting.") };
        var colour = ColourDifference.Of(first, second, context.Workers);
        context.Begin(0.5, 1);
        if (ChangeMap.Search(noise, first, colour, widest / factor, context.Value(FalseAlarms), context.Value(LeastColour), context.Report, context.Workers) is not { } map)
            return new Outcome { NoAnswer = "The picture is too small or too even to tell chance from change.", Figures = [Compared(share)] };
        var scale = new PixelScale(factor * baseline.Image.Scale!.Value.MmPerPixel, baseline.Image.Scale!.Value.Origin);
        Write(context, map, colour, scale);
        var outlines = colour.Averaged(ChangedPart.OutlineSigma, context.Workers);
        var words = new ChangeWords(map, outlines, scale.MmPerPixel, agreement.IsDoubtful);
        ChangedPart[] parts = [.. ChangedPart.Of(map, outlines).Where(p => words.Distance(p) >= context.Value(LeastColour))];
        return new Outcome
        {
            Candidates = [.. parts.OrderByDescending(p => map.Ratio.Data[p.Peak]).ThenBy(p => p.Peak).Select(words.Candidate)],
            Figures =
            [
                new("candidates", parts.Length, null, "counted: exact"),
                new("candidate-area", parts.Sum(words.Area), parts.Sum(words.AreaUncertainty)),
                .. Discs.Select(d => Smallest(d, Sensitivity.Of(map, noise, first, d / scale.MmPerPixel, context.Value(LeastColour)))),
                Compared(share),
                .. Enumerable.Range(0, pair.Bands).Select(b => new Figure("noise", 100 * NoiseAtMedian(noise, first, b), null, "a robust description", Bands.Name(baseline.Image.Image.Facts, b))),
                .. Enumerable.Range(0, pair.Bands).Select(b => new Figure("gain", 100 * Unevenness(light, pair, b), null, "a description", Bands.Name(baseline.Image.Image.Facts, b))),
                new("shift", shift.Size * scale.MmPerPixel, 1.96 * shift.Last * scale.MmPerPixel),
                new("sharpness", blur * scale.MmPerPixel, null, "a description"),
                new("agreement", 100.0 * agreement.Agreeing / agreement.Telling, null, "counted: exact"),
            ],
        };
    }

    /// <summary>Why two photographs cannot be compared at all; null when they can.</summary>
    private static string? Incomparable(LightFrame baseline, LightFrame later)
    {
        if (baseline.Image.Light is { } a && later.Image.Light is { } b && a != b) return $"The photographs are in different lights, {a.Code} and {b.Code}.";
        if (baseline.Bands != later.Bands) return Text($"The photographs have {baseline.Bands} and {later.Bands} bands.");
        if (baseline.Bands is not (1 or 3)) return "Only photographs of one band or of three can be compared.";
        if (baseline.Image.Lamp is { } from && later.Image.Lamp is { } to && Apart(from, to) is > LampsApart and var apart) return Text($"The lamps stood {apart:0} degrees apart.");
        return null;
    }

    /// <summary>By how much the lamps' angles differ, degrees; an unknown elevation counts as the other's.</summary>
    private static double Apart(LampAngles a, LampAngles b) =>
        Math.Max(Math.Abs(Math.IEEERemainder(a.Azimuth - b.Azimuth, 360)), a.Elevation is { } low && b.Elevation is { } high ? Math.Abs(low - high) : 0);

    /// <summary>What averages carried beyond the places that both show is taken back.</summary>
    private static void Blank(ChangePair pair, Plane[] first, Plane[] second)
    {
        for (var i = 0; i < first[0].Data.Length; i++)
        {
            if (pair.Shows(i) && first.Concat(second).All(p => float.IsFinite(p.Data[i]))) continue;
            foreach (var band in first.Concat(second)) band.Data[i] = float.NaN;
        }
    }

    private static void Write(RunContext context, ChangeMap map, ColourDifference colour, PixelScale scale)
    {
        void Raster(string name, Plane plane) => context.CreateRaster(name, plane.Width, plane.Height, scale).WriteWindow(0, 0, [plane]);
        Raster("difference", map.Scales[0].Values);
        Raster("limit", map.Ratio);
        var fine = colour.Averaged(map.Scales[0].Sigma, context.Workers);
        Raster("colour-difference", new Plane(map.Ratio.Width, map.Ratio.Height, [.. Enumerable.Range(0, map.Ratio.Data.Length).Select(i => float.IsFinite(map.Ratio.Data[i]) ? (float)fine.At(i) : float.NaN)]));
    }

    private static Figure Compared(double share) => new("compared", 100 * share, null, "counted: exact");

    private static Figure Smallest(double disc, double? least) => new("smallest-change", least, null, least is null ? "smaller than a pixel: no answer" : "for calm paint of the median light", Text($"disc of {disc} mm"));

    private static double NoiseAtMedian(DifferenceNoise noise, Plane[] light, int band) =>
        Math.Sqrt(noise.Levels[band].Variance(Robust.Median(light[band].Data.Where((v, i) => i % 31 == 0 && float.IsFinite(v)).Select(v => (double)v))));

    private static double Unevenness(LightMatch light, ChangePair pair, int band)
    {
        var (least, most) = (double.MaxValue, 0.0);
        for (var y = 0; y <= 20; y++)
            for (var x = 0; x <= 20; x++)
            {
                var (u, v) = (x * (pair.Width - 1) / 20, y * (pair.Height - 1) / 20);
                if (!pair.Shows(v * pair.Width + u)) continue;
                var gain = light.Gain(band, u + 0.5, v + 0.5);
                (least, most) = (Math.Min(least, gain), Math.Max(most, gain));
            }
        return most / least - 1;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
