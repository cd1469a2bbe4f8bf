using Sandarac.Analysis.Alignment.Rulers;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Sections;

/// <summary>Size of a micrograph's pixel.</summary>
/// <param name="UmPerPixel">Micrometres.</param>
/// <param name="Relative">Half-width of its 95 % interval, as a share.</param>
/// <param name="Origin">Where it comes from, in words.</param>
internal sealed record SectionScale(double UmPerPixel, double Relative, string Origin)
{
    public static readonly NumberParameter Entered = new("um-per-pixel", "Micrometres per pixel", "Of the micrographs; 0 to take a stage micrometer's, or else the file's own.", "um", 0, 0, 1000);

    public static readonly NumberParameter Uncertainty = new("scale-uncertainty", "Uncertainty of the scale", "Half-width of the 95 % interval of a scale that is not measured from a stage micrometer.", "%", 1, 0, 50);

    public static readonly NumberParameter Division = new("division", "Division of the stage micrometer", "Distance of its closest ticks.", "um", 10, 0.1, 1000);

    public static readonly InputSlot StageMicrometer = new("stage-micrometer", "A stage micrometer by the same objective and camera, every fifth and tenth tick longer.", [], 0, 1, InOwnPixels: true);

    /// <summary>The scale: entered, from the stage micrometer, or the file's; null when there is none.</summary>
    /// <exception cref="InputProblem">"stage-micrometer": no ticks were found in its image.</exception>
    public static SectionScale? Of(RunContext context, InputImage micrograph)
    {
        if (context.Value(Entered) is > 0 and var um) return new SectionScale(um, context.Value(Uncertainty) / 100, "entered");
        if (context.Inputs(StageMicrometer.Name) is [var image, ..])
        {
            var ruler = RulerSearch.Find(image, 6000, null, true, context) ?? throw new InputProblem("stage-micrometer", image.Name,
                $"No row of even ticks, every fifth and tenth longer, was found in {image.Name}.", $"Enter the scale with --{Entered.Name}.");
            return new SectionScale(context.Value(Division) / (Math.Abs(ruler.Fit.Distance(0)) * ruler.Factor), ruler.Fit.Uncertainty, "stage micrometer");
        }
        return MicrographTags.Of(micrograph.Scale) is { } scale
            ? new SectionScale(1000 * scale.MmPerPixel, context.Value(Uncertainty) / 100, scale.Origin == ScaleOrigin.Metadata ? "the file's resolution tags" : scale.Origin.ToString().ToLowerInvariant())
            : null;
    }
}
