using System.Globalization;
using System.Resources;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents.Phrasing;

/// <summary>What documents say in one language: fixed texts from the resources, dates and figures as the language writes them.</summary>
public sealed class Phrases
{
    private static readonly ResourceManager Texts = new("Sandarac.Studio.Documents.Phrasing.Phrases", typeof(Phrases).Assembly);

    private static readonly Dictionary<string, Phrase> Lights = new()
    {
        ["VIS"] = Phrase.LightVis, ["RAK"] = Phrase.LightRak, ["SPEC"] = Phrase.LightSpec, ["TRANS"] = Phrase.LightTrans, ["UVL"] = Phrase.LightUvl, ["UVR"] = Phrase.LightUvr,
        ["IR"] = Phrase.LightIr, ["IRR"] = Phrase.LightIrr, ["IRT"] = Phrase.LightIrt, ["XR"] = Phrase.LightXr, ["XSEC"] = Phrase.LightXsec, ["IRFC"] = Phrase.LightIrfc,
    };

    private Phrases(string language, CultureInfo culture) => (Language, Culture) = (language, culture);

    /// <summary>English; dates are written as in Britain.</summary>
    public static Phrases English { get; } = new("en", CultureInfo.InvariantCulture);

    /// <summary>Spanish as written in Spain.</summary>
    public static Phrases Spanish { get; } = new("es", CultureInfo.GetCultureInfo("es-ES"));

    /// <summary>All languages that documents are written in.</summary>
    public static IReadOnlyList<Phrases> All { get; } = [English, Spanish];

    /// <summary>ISO 639-1 code.</summary>
    public string Language { get; }

    /// <summary>How it writes figures and dates.</summary>
    public CultureInfo Culture { get; }

    /// <summary>A language by its code.</summary>
    /// <exception cref="InputProblem">Documents are not written in it ("document-language").</exception>
    public static Phrases In(string language) => All.FirstOrDefault(p => p.Language == language)
        ?? throw new InputProblem("document-language", language, "Documents are not written in this language.", $"Choose one of: {string.Join(", ", All.Select(p => p.Language))}.");

    internal string this[Phrase phrase] => Texts.GetString(phrase.ToString(), CultureInfo.GetCultureInfo(Language)) ?? throw new InvalidOperationException($"The phrase {phrase} has no text.");

    internal string Of(Phrase phrase, params ReadOnlySpan<object?> values) => string.Format(Culture, this[phrase], values);

    /// <summary>"25 November 2026".</summary>
    public string Date(DateTime utc) => utc.ToString(this[Phrase.DatePattern], Culture);

    /// <summary>"25 November 2026".</summary>
    public string Date(DateOnly day) => day.ToString(this[Phrase.DatePattern], Culture);

    /// <summary>"25 November 2026, 08:20 UTC".</summary>
    public string Time(DateTime utc) => utc.ToString(this[Phrase.TimePattern], Culture);

    /// <summary>A figure that was written with a decimal point, with the language's own sign.</summary>
    public string Decimal(string figure) => figure.Replace(".", Culture.NumberFormat.NumberDecimalSeparator, StringComparison.Ordinal);

    /// <summary>"visible", "raking, lamp at the upper left, 15 degrees above the plane".</summary>
    public string LightOf(Photograph photograph)
    {
        var lamp = Lamp(photograph);
        return lamp.Length == 0 ? Light(photograph.Light) : $"{Light(photograph.Light)}, {lamp}";
    }

    /// <summary>A light by its code.</summary>
    public string Light(string? code) => code is null ? this[Phrase.LightUnknown] : Lights.TryGetValue(code, out var phrase) ? this[phrase] : code;

    /// <summary>Where the lamp stood; empty when nobody said.</summary>
    public string Lamp(Photograph photograph)
    {
        string[] parts =
        [
            photograph.LightSide is { } side ? Side(side) : photograph.AzimuthDeg is { } azimuth ? Of(Phrase.LampAtDegrees, azimuth.ToString("0.#", Culture)) : "",
            photograph.ElevationDeg is { } elevation ? Of(Phrase.LampElevation, elevation.ToString("0.#", Culture)) : "",
            photograph.SectionLight is { } under ? Of(Phrase.UnderLight, Light(under)) : "",
        ];
        return string.Join(", ", parts.Where(p => p.Length > 0));
    }

    /// <summary>"the painting", "paint sample S1".</summary>
    public string SubjectOf(Photograph photograph) => photograph.Subject switch
    {
        PhotographSubject.Detail => photograph.Plate is { } plate ? Of(Phrase.SubjectPlate, plate) : this[Phrase.SubjectDetail],
        PhotographSubject.Sample => photograph.Sample is { } sample ? Of(Phrase.SubjectSampleNamed, sample) : this[Phrase.SubjectSample],
        PhotographSubject.Chart => this[Phrase.SubjectChart],
        PhotographSubject.FlatField => this[Phrase.SubjectFlatField],
        PhotographSubject.DarkFrame => this[Phrase.SubjectDarkFrame],
        _ => this[Phrase.SubjectPainting],
    };

    /// <summary>"412 x 518 mm" with height first, as the trade writes sizes.</summary>
    public string Size(Painting painting) => painting.WidthMm > 0
        ? Of(Phrase.SizeOf, painting.HeightMm.ToString("0.#", Culture), painting.WidthMm.ToString("0.#", Culture)) : this[Phrase.SizeNotKnown];

    /// <summary>How sure a size is: ", give or take 0.3 mm" by its longer side; empty when nobody said.</summary>
    public string Spread(Painting painting) => painting.SizeUncertainty is { } share ? Of(Phrase.SizeSpread, (share * Math.Max(painting.WidthMm, painting.HeightMm)).ToString("0.0#", Culture)) : "";

    /// <summary>What a size or scale rests on.</summary>
    public string Origin(ScaleOrigin origin) => this[origin switch
    {
        ScaleOrigin.Measured => Phrase.OriginMeasured,
        ScaleOrigin.Distance => Phrase.OriginDistance,
        ScaleOrigin.Ruler => Phrase.OriginRuler,
        ScaleOrigin.Metadata => Phrase.OriginMetadata,
        _ => Phrase.OriginAssumed,
    }];

    /// <summary>"aligned", "uncertain", "not aligned".</summary>
    public string VerdictOf(Verdict? verdict) => this[verdict switch
    {
        Verdict.Aligned => Phrase.VerdictAligned,
        Verdict.Uncertain => Phrase.VerdictUncertain,
        _ => Phrase.VerdictNotAligned,
    }];

    private string Side(string compass) => compass switch
    {
        "N" => this[Phrase.LampAtTop],
        "NE" => this[Phrase.LampAtUpperRight],
        "E" => this[Phrase.LampAtRight],
        "SE" => this[Phrase.LampAtLowerRight],
        "S" => this[Phrase.LampAtBottom],
        "SW" => this[Phrase.LampAtLowerLeft],
        "W" => this[Phrase.LampAtLeft],
        "NW" => this[Phrase.LampAtUpperLeft],
        _ => Of(Phrase.LampOnSide, compass),
    };
}
