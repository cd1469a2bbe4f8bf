using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Numbers;
using Sandarac.Analysis.Unexplained;

namespace Sandarac.Analysis.Changes;

/// <summary>Says of changed parts, in words with figures, how they differ; never why.</summary>
internal sealed class ChangeWords
{
    private readonly ChangeMap _map;
    private readonly ColourDifference _colour;
    private readonly double[] _noise;
    private readonly double _mm;
    private readonly Func<int, bool> _isDoubtful;

    /// <param name="map">Where the difference stands out.</param>
    /// <param name="colour">The difference in colour, averaged for outlines.</param>
    /// <param name="mmPerPixel">Side of a pixel.</param>
    /// <param name="isDoubtful">Whether the photographs do not agree about a pixel.</param>
    public ChangeWords(ChangeMap map, ColourDifference colour, double mmPerPixel, Func<int, bool> isDoubtful)
    {
        (_map, _colour, _mm, _isDoubtful) = (map, colour, mmPerPixel, isDoubtful);
        _noise = [.. colour.Bands.Select(b => Robust.Sigma([.. b.Data.Where((v, i) => i % 11 == 0 && float.IsFinite(v)).Select(v => (double)v)]))];
    }

    /// <summary>The proposal.</summary>
    public Candidate Candidate(ChangedPart part)
    {
        var (mean, distance, area) = (Mean(part), Distance(part), Area(part));
        var (how, text) = (How(mean, distance), new List<string>());
        var line = Length(part) is var length && length * length > 5 * area ? Text($", in a line some {length:0} mm long") : "";
        text.Add(Text($"{Capital(how)} by dE {distance:0.0} ± {Uncertainty(mean, distance, part):0.0} (L* {Signed(mean[0])}, a* {Signed(mean[1])}, b* {Signed(mean[2])}) over {area:0.00} mm2 ± {AreaUncertainty(part):0.00} mm2{line}."));
        text.Add(_map.Expected(part.Peak) is >= 1e-6 and var expected ? Text($"Chance alone is expected to give {expected:0.0#####} candidates so strong on the whole face.") : "Chance alone gives one so strong on fewer than one face in a million.");
        text.Add(Consistent(mean[0] > 0, Math.Abs(mean[0]) >= distance / 2, line.Length > 0));
        if (_isDoubtful(part.Peak)) text.Add("The two photographs hardly agree about this place: it may be their alignment.");
        var confidence = Math.Clamp(1 - _map.Expected(part.Peak), 0, 0.99) * (_isDoubtful(part.Peak) ? 0.5 : 1);
        return new Candidate(PartOutline.Of(new DarkPart(part.Pixels), _map.Ratio.Width, _mm), "change", confidence, string.Join(' ', text));
    }

    /// <summary>Distance in CIELAB (1976) of its mean colours.</summary>
    public double Distance(ChangedPart part) => Math.Sqrt(Mean(part).Sum(v => v * v));

    /// <summary>Area, mm2.</summary>
    public double Area(ChangedPart part) => part.Pixels.Count * _mm * _mm;

    /// <summary>Half a pixel along the outline, mm2.</summary>
    public double AreaUncertainty(ChangedPart part)
    {
        var (inside, width) = (part.Pixels.ToHashSet(), _map.Ratio.Width);
        return part.Pixels.Count(i => Imaging.Geometry.ConnectedParts.Beside(i, width).Any(n => !inside.Contains(n))) * _mm * _mm / 2;
    }

    private double[] Mean(ChangedPart part) => [.. _colour.Bands.Select(b => part.Pixels.Average(i => (double)b.Data[i]))];

    /// <summary>95 %: the colours' noise elsewhere, over as many independent places as the part holds.</summary>
    private double Uncertainty(double[] mean, double distance, ChangedPart part)
    {
        var independent = Math.Max(1, part.Pixels.Count / (4 * Math.PI * ChangedPart.OutlineSigma * ChangedPart.OutlineSigma));
        return 1.96 * Math.Sqrt(mean.Select((m, k) => Math.Pow(m / distance * _noise[k], 2)).Sum() / independent);
    }

    /// <summary>Length of the even line with the part's greatest second moment, mm.</summary>
    private double Length(ChangedPart part)
    {
        var width = _map.Ratio.Width;
        var (mx, my) = (part.Pixels.Average(i => (double)(i % width)), part.Pixels.Average(i => (double)(i / width)));
        double xx = 0, xy = 0, yy = 0;
        foreach (var i in part.Pixels)
        {
            var (x, y) = (i % width - mx, i / width - my);
            (xx, xy, yy) = (xx + x * x, xy + x * y, yy + y * y);
        }
        var most = (xx + yy) / 2 + Math.Sqrt((xx - yy) * (xx - yy) / 4 + xy * xy);
        return _mm * Math.Sqrt(12 * most / part.Pixels.Count + 1);
    }

    private static string How(double[] mean, double distance)
    {
        var words = new List<string>();
        if (Math.Abs(mean[0]) >= distance / 2) words.Add(mean[0] > 0 ? "lighter" : "darker");
        var (a, b) = (Math.Abs(mean[1]), Math.Abs(mean[2]));
        if (Math.Max(a, b) >= distance / 2) words.Add(b >= a ? mean[2] > 0 ? "yellower" : "bluer" : mean[1] > 0 ? "redder" : "greener");
        return string.Join(" and ", words.DefaultIfEmpty("of another colour"));
    }

    private static string Consistent(bool lighter, bool inLightness, bool line) => (inLightness, lighter) switch
    {
        (true, true) => $"Consistent with {(line ? "a scratch, with " : "")}a loss or an abrasion that shows something lighter, with dust, and with gloss or relief under lamps that moved.",
        (true, false) => "Consistent with a deposit or dirt, with a loss or a crack that shows something darker, with a later addition, and with relief under lamps that moved.",
        _ => "Consistent with a coating that changed, with a stain, with a later addition, and with a colour that the two cameras see differently.",
    };

    private static string Signed(double value) => Text($"{Math.Round(value, 1) + 0.0:+0.0;-0.0;0.0}");

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
