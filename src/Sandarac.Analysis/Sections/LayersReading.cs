using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections.Aligning;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Sections;

/// <summary>The layers of an embedded paint section: their boundaries, thickness, coverage and colour.</summary>
public sealed class LayersReading : Reading
{
    private static readonly NumberParameter Obliquity = new("obliquity", "Obliquity of the cut", "Angle between the cut and the layers' normal, as measured on the block; layers look thicker by 1 / cos of it.", "degrees", 0, 0, 60);

    private static readonly NumberParameter ObliquityUncertainty = new("obliquity-uncertainty", "Uncertainty of the obliquity", "Half-width of its 95 % interval.", "degrees", 5, 0, 45);

    private const double WarnFrom = 15;

    /// <summary>Steps wider than this, in pixels of the image in which layers are looked for, may hide thin layers: twice the thinnest that is found by itself (common practice, no source).</summary>
    private const double SoftFrom = 6;

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "layers",
        Version = 2,
        Title = "Layers of a section",
        Summary = "Finds and follows the boundaries of a paint section's layers in all its micrographs at once, and measures each layer's thickness along its whole length.",
        Citation = "Layers as a left-to-right hidden Markov model, fitted by segmental k-means: Juang and Rabiner, IEEE Trans. Acoustics, Speech and Signal Processing 38 (1990) 1639; their number by splitting (Takami and Sagayama, ICASSP 1992, 573) and minimum description length (Rissanen, Automatica 14 (1978) 465). Boundaries by dynamic programming: Fischler, Tenenbaum and Wolf, Computer Graphics and Image Processing 15 (1981) 201. All from memory, not re-read.",
        Limits = "What no light tells apart is one layer; what is alike in all lights but texture is too. A layer thinner than about three pixels of an image brought down to 1600 on its longer side is not found by itself: click on it. Folded or overturned strata cannot be followed: each boundary crosses each perpendicular of the mean direction once. Thickness holds for this cut: true = measured x cos of its obliquity, which no single micrograph shows. "
            + "Micrographs are aligned by place, turn and size, those by electrons by proportion and shear too; bending is not undone. A candidate is proposed until a person accepts it, and its boundary is consistent with a layer's, no more. Colours are the camera's unless it was calibrated. A photograph of something else that lies in bands can be taken for a section.",
        Inputs = [.. AlignedMicrographs.Slots, SectionScale.StageMicrometer],
        Parameters = [MeasuredSection.Clicks, MeasuredSection.Which, MeasuredSection.LeastDifference, MeasuredSection.LeastCoverage, .. SectionScale.Parameters, Obliquity, ObliquityUncertainty],
        Rasters = [],
        Figures = LayersFigures.Declared,
        Reach = new Reach.Whole(1600),
        OnPlane = false,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var scale = SectionScale.Of(context, context.Inputs("visible")[0]);
        using var micrographs = AlignedMicrographs.Of(context);
        Warning[] leftOut = [.. micrographs.Alignments.Select(a => a.Warning).OfType<Warning>()];
        context.Report(0.05);
        var (section, noAnswer) = MeasuredSection.Find(micrographs, context);
        if (section is null) return new Outcome { NoAnswer = noAnswer, Warnings = leftOut };
        context.Report(1);
        return new Outcome
        {
            Figures = [.. LayersFigures.Of(section, scale, context.Value(Obliquity), context.Value(ObliquityUncertainty)), .. micrographs.Alignments.SelectMany(a => a.Figures())],
            Candidates = [.. Candidates(section)],
            Warnings = [.. leftOut, .. Warnings(section, scale, context.Value(Obliquity))],
        };
    }

    private static IEnumerable<Candidate> Candidates(MeasuredSection section)
    {
        for (var b = section.Boundaries.Count - 1; b >= 0; b--)
        {
            var below = section.Layers - b;
            yield return new Candidate(section.Line(section.Boundaries[b]), "layer-boundary", 0.5, below == 0 ? "lower edge of the section" : FormattableString.Invariant($"top of layer {below}"));
        }
        foreach (var part in section.Sublayers.Where(p => p.Letter > 'a'))
            yield return new Candidate(section.Line(part.Lower), "sublayer-boundary", 0.5, FormattableString.Invariant($"top of layer {part.Layer}{(char)(part.Letter - 1)}"));
        foreach (var part in section.Sublayers)
            yield return new Candidate(section.Area((part.Upper, part.Lower)), "sublayer", 0.5, FormattableString.Invariant($"layer {part.Layer}{part.Letter}: {LayersFigures.Words(part.Look.Light[0])}"));
        for (var layer = 1; layer <= section.Layers; layer++)
            yield return new Candidate(section.Area(layer), "layer", 0.5, FormattableString.Invariant($"layer {layer}: {LayersFigures.Words(section.Look(layer).Light[0])}"));
    }

    private static IEnumerable<Warning> Warnings(MeasuredSection section, SectionScale? scale, double obliquity)
    {
        foreach (var warning in scale?.Warnings ?? []) yield return warning;
        if (scale is null) yield return new Warning("no-scale", "The micrograph has no scale: thicknesses are in pixels only.");
        if (obliquity == 0) yield return new Warning("cut-taken-as-square", "The cut is taken as perpendicular to the layers. Were it 20 degrees oblique, all would look 6 % too thick.");
        else if (obliquity >= WarnFrom) yield return new Warning("oblique-cut", string.Create(CultureInfo.InvariantCulture, $"The cut is oblique by {obliquity:0} degrees: each degree more or less changes thicknesses by {100 * Math.Tan(obliquity * Math.PI / 180) * Math.PI / 180:0.0} %."));
        var step = section.StepWidth * section.Finding.Frame.ImageWidth / section.Frame.ImageWidth;
        if (step > SoftFrom) yield return new Warning("soft-boundaries", string.Create(CultureInfo.InvariantCulture, $"Boundaries are blurred: steps from one layer to the next are {section.StepWidth:0.0} pixels wide. Thin layers may be taken together with their neighbours: see whether one is missing, and click on it; better take the micrograph again."));
        if (VarnishCoats.LieBelow(section)) yield return new Warning("upside-down", "What looks like varnish lies at the bottom. Is the section upside down?");
        if (section.Finding.First == 0 && section.Finding.Last == section.Finding.Profiles.Count - 1 && section.Layers == 1) yield return new Warning("single-layer", "Only one layer is told apart from what lies above and below.");
    }
}
