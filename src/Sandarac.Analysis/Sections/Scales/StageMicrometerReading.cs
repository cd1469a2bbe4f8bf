using Sandarac.Analysis.Declaring;

namespace Sandarac.Analysis.Sections.Scales;

/// <summary>The size of a pixel from an image of a stage micrometer.</summary>
public sealed class StageMicrometerReading : Reading
{
    /// <summary>The division as this reading and those of sections take it.</summary>
    internal static readonly NumberParameter Division = new("division", "Division of the stage micrometer", "Distance of its closest ticks; 10 um on the usual millimetre in a hundred parts.", "um", 10, 0.1, 1000);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "stage-micrometer",
        Version = 1,
        Title = "Scale from a stage micrometer",
        Summary = "Finds the evenly ruled lines of a stage micrometer and gives micrometres per pixel.",
        Citation = "Direction and distance by the peak of the power spectrum under Hann's window (Harris, Proceedings of the IEEE 66 (1978) 51); ticks by local phase (Fleet and Jepson, International Journal of Computer Vision 5 (1990) 77); Tukey's biweight; uncertainty by leaving out parts (jackknife, Tukey 1958). All from memory, not re-read.",
        Limits = "Holds for the same objective, camera, adapter and binning. Needs six ticks, a step from the border at least, more than 2.2 pixels apart, in straight parallel lines; of images above 4096 pixels the middle is taken. Square graticules and gratings ruled in two directions have no answer. Every fifth tick being longer is looked for and said; where it is not seen, nothing checks the division that was stated. The micrometer's own error is not in the uncertainty: its certificate says it.",
        Inputs = [new("micrometer", "An image of a stage micrometer by the same objective and camera as the micrographs.", [])],
        Parameters = [Division],
        Rasters = [],
        Figures =
        [
            new("um-per-pixel", "Micrometres per pixel", "um", "Across the lines, in the middle of the row of ticks; 95 % interval by leaving out each of 16 parts of the row, with Student's t, and half a hundredth of a step for light that falls off."),
            new("step", "Distance of the ticks", "px", "As um-per-pixel."),
            new("ticks", "Ticks", "1", "In one row without more than one missing; those nearest to the border are left out. Counted."),
            new("direction", "Direction of the row of ticks", "degrees", "Clockwise against the image's rows, -90 to 90."),
            new("residual-rms", "Residual of the ticks", "px", "Root mean square distance of the ticks from where an even ruling has them. It is itself a measure of uncertainty."),
            new("longer-every", "Every which tick is longer", "1", "5 on the usual micrometer. No figure when none was seen to be."),
        ],
        Reach = new Reach.Whole(4096),
        OnPlane = false,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var (image, division) = (context.Inputs("micrometer")[0], context.Value(Division));
        if (Ruling.Find(image, context) is not { } ruling) return new Outcome { NoAnswer = $"No ruling was found: no row of at least {RulingTicks.Fewest} even, straight and parallel lines." };
        context.Report(1);
        var um = division / ruling.Step;
        return new Outcome
        {
            Figures =
            [
                new("um-per-pixel", um, um * ruling.Uncertainty), new("step", ruling.Step, ruling.Step * ruling.Uncertainty), new("ticks", ruling.Ticks, null, "counted"),
                new("direction", ruling.Degrees, null, "serves to find the ticks"), new("residual-rms", ruling.Residual, null, "a measure of uncertainty itself"),
                new("longer-every", ruling.LongerEvery, null, ruling.LongerEvery is null ? "not seen" : "counted"),
            ],
            Warnings = [.. ruling.Warnings(image.Name, division)],
        };
    }
}
