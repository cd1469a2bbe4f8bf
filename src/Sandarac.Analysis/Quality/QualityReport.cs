using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Quality;

/// <summary>Turns what was measured into figures, and into warnings in the words of the easel.</summary>
internal sealed class QualityReport(QualitySurvey survey)
{
    private const string Counted = "counted over all pixels: exact";
    private const string FewBlocks = "too few unclipped blocks of 32 pixels";
    private static readonly Light[] UnevenOnPurpose = [Light.Raking, Light.Specular, Light.Transmitted, Light.TransmittedInfrared, Light.Xray, Light.Section];

    private readonly List<Figure> _figures = [];
    private readonly List<Warning> _warnings = [];

    public IReadOnlyList<Figure> Figures => _figures;

    public IReadOnlyList<Warning> Warnings => _warnings;

    private string BandName => Bands.Name(survey.Image.Image.Facts, survey.Band);

    public void AddClipping(double warnPercent)
    {
        var facts = survey.Image.Image.Facts;
        var ends = survey.Counts.Select(c => Clipping.Of(c, survey.FullScale)).ToArray();
        _figures.AddRange(ends.Select((e, b) => new Figure("clipped-high", 100 * e.HighShare, null, Level(e.HighShare, e.HighLevel, survey.FullScale), Bands.Name(facts, b))));
        _figures.AddRange(ends.Select((e, b) => new Figure("clipped-low", 100 * e.LowShare, null, Level(e.LowShare, e.LowLevel, 0), Bands.Name(facts, b))));
        foreach (var (e, b) in ends.Select((e, b) => (e, b)))
        {
            if (e.HighShare * 100 >= warnPercent && e.HighShare > 0)
                Warn("clipped-high", $"{Percent(e.HighShare)} of the {Bands.Name(facts, b)} band is burnt out: differences in the brightest passages are lost. Expose less and take it again.");
            if (e.LowShare * 100 >= warnPercent && e.LowShare > 0)
                Warn("clipped-low", $"{Percent(e.LowShare)} of the {Bands.Name(facts, b)} band is black without differences. Expose more, or keep the raw file's dark tones when converting it.");
        }
        var bright = survey.Counts[survey.Band].Quantile(0.999);
        var headroom = -Math.Log2(survey.Light(bright));
        _figures.Add(new Figure("headroom", double.IsFinite(headroom) ? headroom : null, null, double.IsFinite(headroom) ? ToneNote() : "the photograph is black", BandName));
        if (headroom >= 2) Warn("underexposed", FormattableString.Invariant($"The brightest tones lie {headroom:0.0} stops below full scale: the photograph is underexposed and its shadows noisier than need be."));
    }

    public void AddNoise(double warnPercent)
    {
        var levels = NoiseFigures.Of(survey.Blocks, survey.Ends, Bands.AreSmallIntegers(survey.Image.Image.Facts) ? 1 : 0);
        if (levels.Count == 0)
        {
            _figures.Add(new Figure("noise", null, null, FewBlocks, BandName));
            _figures.Add(new Figure("signal-to-noise", null, null, FewBlocks, BandName));
            return;
        }
        string[] names = levels.Count == 3 ? ["shadows", "middle tones", "highlights"] : levels.Count == 2 ? ["darker half", "brighter half"] : ["all tones"];
        _figures.AddRange(levels.Select((l, i) => new Figure("noise", l.Noise, l.Uncertainty, FormattableString.Invariant($"at {l.Level:0} counts, {l.Blocks} blocks; the finest texture of the paint is included"), $"{BandName}, {names[i]}")));
        _figures.AddRange(levels.Select((l, i) => l.Noise > 0
            ? new Figure("signal-to-noise", l.Level / l.Noise, l.Level / l.Noise * l.Uncertainty / l.Noise, null, $"{BandName}, {names[i]}")
            : new Figure("signal-to-noise", null, null, "no noise was found", $"{BandName}, {names[i]}")));
        var worst = levels.MaxBy(l => l.Noise)!;
        if (worst.Noise >= warnPercent / 100 * survey.FullScale)
            Warn("noisy", FormattableString.Invariant($"Noise is {worst.Noise / survey.FullScale * 100:0.0} % of full scale. A lower sensitivity with a longer exposure, or the mean of several frames, lowers it."));
    }

    public void AddSharpness(Sharpness sharpness, double warnPercent, PixelScale? scale)
    {
        var found = sharpness.NoAnswer is null;
        var note = sharpness.NoAnswer ?? FormattableString.Invariant($"{sharpness.Edges} edges; a picture without sharp edges gives too low a figure");
        void Add(string name, double value, double uncertainty, string? about) =>
            _figures.Add(found ? new Figure(name, value, uncertainty, about, BandName) : new Figure(name, null, null, note, BandName));
        var efficiency = Math.Min(1, sharpness.Mtf10 / 0.5);
        Add("mtf50", sharpness.Mtf50, sharpness.Mtf50Uncertainty, note);
        Add("sampling-efficiency", efficiency, sharpness.Mtf10Uncertainty / 0.5, null);
        if (scale is { } s)
        {
            var perMm = 1 / s.MmPerPixel;
            _figures.Add(new Figure("sampling", perMm, null, $"the scale's own uncertainty is not known; scale {Origin(s.Origin)}"));
            Add("resolved", sharpness.Mtf50 * perMm, sharpness.Mtf50Uncertainty * perMm, null);
            Add("effective-sampling", efficiency * perMm, sharpness.Mtf10Uncertainty / 0.5 * perMm, null);
        }
        else foreach (var name in (string[])["sampling", "resolved", "effective-sampling"]) _figures.Add(new Figure(name, null, null, "the photograph has no scale"));
        if (found && (sharpness.Mtf50 + sharpness.Mtf50Uncertainty) / 0.5 * 100 < warnPercent)
            Warn("soft", FormattableString.Invariant($"The sharpest edges reach half contrast at {sharpness.Mtf50:0.000} cycles per pixel: out of focus, shaken, or a picture without sharp edges. Check the focus at full size."));
    }

    public void AddEvenness(QualitySurvey? flat, double warnStops)
    {
        var light = (flat ?? survey).BlockLight();
        var regions = light.Count < Evenness.FewestBlocks ? [] : flat is null ? Evenness.Estimate(light) : Evenness.FromFlat(light);
        if (regions.Count == 0)
        {
            _figures.Add(new Figure("evenness", null, null, "too few blocks of 32 pixels have light"));
            _figures.Add(new Figure("unevenness", null, null, "too few blocks of 32 pixels have light"));
            return;
        }
        var note = flat is null ? "estimate; the painting's own tones are mixed in" : $"measured on {flat.Image.Name}";
        _figures.AddRange(regions.Select(r => new Figure("evenness", r.Stops, r.Uncertainty, note, r.Region)));
        var darkest = regions.MinBy(r => r.Stops)!;
        _figures.Add(new Figure("unevenness", -darkest.Stops, darkest.Uncertainty, note));
        if (survey.Image.Light is { } kind && UnevenOnPurpose.Contains(kind)) return;
        if (flat is not null && -darkest.Stops - darkest.Uncertainty >= warnStops)
            Warn("uneven", $"{Where(darkest)} {Darker(darkest)} stops darker than the {regions.MaxBy(r => r.Stops)!.Region}, measured on the flat field. Move or turn the lamps, or correct with the flat field.");
        else if (flat is null && -darkest.Stops - darkest.Uncertainty >= warnStops + 1)
            Warn("uneven-estimate", FormattableString.Invariant($"{Where(darkest)} {Darker(darkest)} stops darker (estimate, +- {darkest.Uncertainty:0.0}): uneven light, or a painting that is darker there. A photograph of an even board in its place tells which."));
    }

    private static string Where(RegionLight r) => $"The {r.Region} is";

    private static string Darker(RegionLight r) => FormattableString.Invariant($"{-r.Stops:0.0}");

    private static string Origin(ScaleOrigin origin) => origin switch
    {
        ScaleOrigin.Measured => "measured",
        ScaleOrigin.Distance => "from a measured distance",
        ScaleOrigin.Ruler => "from a ruler",
        ScaleOrigin.Metadata => "from the file's resolution tags",
        _ => "assumed",
    };

    private static string Percent(double share) => FormattableString.Invariant($"{share * 100:0.##} %");

    private static string Level(double share, double level, double end) => share == 0 || level == end ? Counted : FormattableString.Invariant($"{Counted}; piled up at {level:0.###}");

    private string ToneNote() => survey.Tone.IsAssumed ? "tone curve assumed sRGB: the file does not say" : $"exact; tone curve {survey.Tone.Name}";

    private void Warn(string code, string message) => _warnings.Add(new Warning(code, message));
}
