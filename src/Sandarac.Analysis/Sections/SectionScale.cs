using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections.Scales;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Sections;

/// <summary>Size of a micrograph's pixel.</summary>
/// <param name="UmPerPixel">Micrometres.</param>
/// <param name="Relative">Half-width of its 95 % interval, as a share.</param>
/// <param name="Origin">Where it comes from, in words.</param>
internal sealed record SectionScale(double UmPerPixel, double Relative, string Origin)
{
    public static readonly NumberParameter Entered = new("um-per-pixel", "Micrometres per pixel", "Of the micrographs; 0 to take a stage micrometer's, objective and camera's, or else the file's own.", "um", 0, 0, 1000);

    public static readonly NumberParameter Uncertainty = new("scale-uncertainty", "Uncertainty of the scale", "Half-width of the 95 % interval of a scale that is entered or the file's own.", "%", 1, 0, 50);

    public static readonly InputSlot StageMicrometer = new("stage-micrometer", "A stage micrometer by the same objective and camera.", [], 0, 1, InOwnPixels: true);

    /// <summary>What says the scale, in the readings of sections.</summary>
    public static readonly IReadOnlyList<Parameter> Parameters = [Entered, Uncertainty, StageMicrometerReading.Division, .. MicroscopeOptics.Parameters];

    /// <summary>What is to be known of it.</summary>
    public IReadOnlyList<Warning> Warnings { get; private init; } = [];

    /// <summary>The scale: entered, from the stage micrometer, from objective and camera, or the file's; null when there is none.</summary>
    /// <exception cref="InputProblem">"stage-micrometer": no ruling was found in its image; "objective-and-camera": one of them is missing.</exception>
    public static SectionScale? Of(RunContext context, InputImage micrograph)
    {
        var optics = MicroscopeOptics.Of(context);
        if (context.Value(Entered) is > 0 and var um) return new SectionScale(um, context.Value(Uncertainty) / 100, "entered");
        if (context.Inputs(StageMicrometer.Name) is [var image, ..]) return Measured(context, image);
        return optics ?? (MicrographTags.Of(micrograph.Scale) is { } scale
            ? new SectionScale(1000 * scale.MmPerPixel, context.Value(Uncertainty) / 100, scale.Origin == ScaleOrigin.Metadata ? "the file's resolution tags" : scale.Origin.ToString().ToLowerInvariant())
            : null);
    }

    private static SectionScale Measured(RunContext context, InputImage image)
    {
        var ruling = Ruling.Find(image, context) ?? throw new InputProblem("stage-micrometer", image.Name, $"No row of even, straight and parallel lines was found in {image.Name}.", $"Enter the scale with --{Entered.Name}.");
        var division = context.Value(StageMicrometerReading.Division);
        return new SectionScale(division / ruling.Step, ruling.Uncertainty, "stage micrometer") { Warnings = [.. ruling.Warnings(image.Name, division)] };
    }
}
