using Sandarac.Analysis.Declaring;

namespace Sandarac.Analysis.Quality;

/// <summary>Judges a photograph while the painting is still on the easel: clipping, exposure, noise, sharpness, evenness of the lighting, effective resolution.</summary>
public sealed class PhotographQuality : Reading
{
    internal static readonly ChoiceParameter Tone = new("tone", "Tone curve", "How the file's values encode light: as its colour profile says, or a curve that you state. Untagged files are taken as sRGB.",
        "profile", ["profile", "linear", "srgb", "gamma-1.8", "gamma-2.2"]);

    internal static readonly NumberParameter WarnClipped = new("warn-clipped", "Warn of clipping from", "Share of a band's pixels at an end of its range from which to warn (common practice, no source).", "%", 0.1, 0, 100);

    internal static readonly NumberParameter WarnSoft = new("warn-soft", "Warn of softness below", "MTF50 as a percentage of half the sampling frequency; 25 % is the limit for one star in FADGI 2016, paintings.", "%", 25, 0, 100);

    internal static readonly NumberParameter WarnUneven = new("warn-uneven", "Warn of uneven light from", "Difference in stops between the brightest and the darkest region, measured on a flat field (common practice, no source). Without a flat field, warnings begin 1 stop higher.", "stops", 0.2, 0, 10);

    internal static readonly NumberParameter WarnNoise = new("warn-noise", "Warn of noise from", "Noise as a percentage of full scale (common practice, no source).", "%", 2, 0, 100);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "photograph-quality",
        Version = 1,
        Title = "Quality of a photograph",
        Summary = "Says whether a photograph is clipped, noisy, soft or unevenly lit, while it can still be taken again.",
        Citation = "Noise: mask of Immerkaer, Computer Vision and Image Understanding 64 (1996) 300, with the median absolute deviation of Donoho and Johnstone, Biometrika 81 (1994) 425. Sharpness: edge method of ISO 12233 (from memory) on edges found in the picture. Evenness: medians of a flat field, or a robust second-degree surface.",
        Limits = "Noise includes the finest texture of the paint and is too low in files that were denoised or reduced. Sharpness is that of the sharpest straight edges in the picture: a picture without sharp edges gives too low a figure, and sharpening in the camera too high a one. "
            + "Without a flat field the painting's own tones are mixed into the evenness. Differences in raking, specular, transmitted light and in X-radiographs are wanted and not warned of.",
        Inputs =
        [
            new("photograph", "The photograph.", []),
            new("flat", "A photograph of an even board in the painting's place, same camera and lamps, if there is one.", [], 0, BoardOf: "photograph"),
        ],
        Parameters = [Tone, WarnClipped, WarnSoft, WarnUneven, WarnNoise],
        Rasters = [],
        Figures =
        [
            new("clipped-high", "Pixels at the bright end", "%", "For each band; at full scale, or at a lower value at which pixels are piled up. Exact count."),
            new("clipped-low", "Pixels at the dark end", "%", "For each band; at zero, or at a higher value at which pixels are piled up. Exact count."),
            new("headroom", "Light between the brightest pixels and full scale", "stops", "From the value that 99.9 % of the brightest band's pixels do not exceed. Exact but for the tone curve."),
            new("noise", "Noise", "counts", "Standard deviation of pixel noise, for shadows, middle tones and highlights of the brightest band; uncertainty from the spread between quiet blocks. The finest texture of the paint is included."),
            new("signal-to-noise", "Signal to noise", "1", "Mean value over noise at the same brightness."),
            new("mtf50", "Sharpness (MTF50)", "cycles/px", "Frequency at which the contrast of an edge falls to one half: upper quartile over the edges found, with the 95 % interval of that quartile. Gaussian blur of s pixels gives 0.187/s."),
            new("sampling-efficiency", "Sampling efficiency", "1", "Frequency at which contrast falls to one tenth over half the sampling frequency, at most 1; same edges and interval."),
            new("sampling", "Pixels for each millimetre", "px/mm", "From the scale; its own uncertainty is not known."),
            new("resolved", "Line pairs resolved at half contrast", "lp/mm", "MTF50 times sampling."),
            new("effective-sampling", "Effective pixels for each millimetre", "px/mm", "Sampling times sampling efficiency."),
            new("evenness", "Light by region", "stops", "Each region of the frame against the brightest, 0 or less; from the flat field when there is one, else an estimate into which the painting's own tones are mixed."),
            new("unevenness", "Brightest to darkest region", "stops", "Range of the regions; uncertainty as for the darkest."),
        ],
        Reach = new Reach.Blocks(QualityBlock.Size),
        RunsOnExamine = true,
        OnPlane = false,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var photograph = context.Inputs("photograph")[0];
        var survey = QualitySurvey.Of(photograph, context);
        if (survey.Counts.All(c => c.Total == 0)) return new Outcome { NoAnswer = "No pixel has data." };
        var flat = context.Inputs("flat").Select(f => QualitySurvey.Of(f, context)).FirstOrDefault();
        var sharpness = Sharpness.Of(survey, context);
        var report = new QualityReport(survey);
        report.AddClipping(context.Value(WarnClipped));
        report.AddNoise(context.Value(WarnNoise));
        report.AddSharpness(sharpness, context.Value(WarnSoft), photograph.Scale);
        report.AddEvenness(flat, context.Value(WarnUneven));
        return new Outcome { Figures = report.Figures, Warnings = report.Warnings };
    }
}
