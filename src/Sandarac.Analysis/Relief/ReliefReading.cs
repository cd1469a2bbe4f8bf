using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>The surface from photographs in raking light: normals, height, slope, roughness, and places that lift or bend.</summary>
public sealed class ReliefReading : Reading
{
    private static readonly ChoiceParameter FormTaken = new("form", "Form taken away", "What is taken away from the height before it is judged: nothing but the mean, a tilted plane, or a surface of second degree.", "quadratic", ["mean", "plane", "quadratic"]);
    private static readonly NumberParameter Step = new("step", "Known step", "Height of a step that was measured otherwise, between the two areas; 0 for none.", "um", 0, 0, 100000);
    private static readonly DocumentParameter StepAreas = new("step-areas", "The step's areas", "Two areas in mm with the property class: low and high.", "GeoJSON", Marks.Canonical);
    private static readonly LengthParameter Shortest = new("shortest", "Shortest deformation", "Shorter waves are taken for strokes and weave.", 4, 0.2, 100);
    private static readonly LengthParameter Longest = new("longest", "Longest deformation", "Longer waves are taken for the painting's form.", 60, 2, 1000);
    private static readonly NumberParameter LeastHeight = new("least-height", "Least height", "Of a place that is proposed; five robust standard deviations of the map where that is more.", "um", 40, 1, 10000);
    private static readonly LengthParameter LeastSize = new("least-size", "Smallest place", "Places with a smaller area than a square of this side are left out.", 3, 0.2, 100);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "relief",
        Version = 1,
        Title = "Relief from raking light",
        Summary = "Measures normals, height, slope and roughness from three or more photographs in raking light, and proposes places that lift or bend: cupping, blisters, bulges, draws.",
        Citation = "Photometric stereo: Woodham, Optical Engineering 19 (1980) 139; shadows left out after Barsky and Petrou, IEEE PAMI 25 (2003) 1239; least absolute residuals by reweighting, the baseline of Ikehata et al., CVPR 2012, 318. Unknown lamps: Hayakawa, JOSA A 11 (1994) 3079, with the bas-relief ambiguity of Belhumeur, Kriegman and Yuille, IJCV 35 (1999) 33. Height: Poisson's equation by the cosine transform, Simchony, Chellappa and Shao, IEEE PAMI 12 (1990) 435; with gaps by conjugate gradients, Ghiglia and Romero, JOSA A 11 (1994) 107. Roughness: ISO 25178-2, bands by the Gaussian filter of ISO 16610-61. (Papers from memory.)",
        Limits = "Height is relative unless a known step calibrates it: it holds as far as the lamps' directions do, has no zero, and its long waves are weak. The form that is taken away (second degree by default) takes even warp and convexity of the support with it. Lamps that are estimated leave open whether hills are hollows, and the height's scale rests on the stated elevation. Finer relief than some two pixels is smoothed by lens and grid. Paint is taken to scatter light evenly (Lambert); gloss and cast shadow in one or two photographs are left out, a mirror-like varnish under all lamps is not. Light from the room weakens slopes by its share. Without photographs of an even board under each lamp, lamps are taken for equally strong and even, and what they are not tilts and bends the surface. Normals are two bands: x right, y down; towards the viewer z = sqrt(1 - x^2 - y^2). A candidate is a place to look at, not a finding; where paint is thick none is proposed, for its own relief hides deformation.",
        Inputs = RakingSet.Slots,
        Parameters = [.. LampSources.Parameters, FormTaken, Step, StepAreas, Shortest, Longest, LeastHeight, LeastSize],
        Rasters =
        [
            new("height", "Height", "um", ["height"]),
            new("normals", "Surface normals", "1", ["x", "y"]),
            new("albedo", "Colour without relief", "relative", ["albedo"]),
            new("confidence", "Confidence of the normals", "1", ["confidence"]),
            new("slope", "Slope", "degrees", ["slope"]),
        ],
        Figures = ReliefFigures.Declared,
        Reach = new Reach.Blocks(512),
        OnPlane = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var set = RakingSet.Of(context);
        var shortest = context.Pixels(Shortest, set.Images[0]);
        if (context.Value(Longest) < 2 * context.Value(Shortest)) throw new InputProblem("deformation-waves", Longest.Name, "The longest deformation is shorter than twice the shortest.", "Give a longer one.");
        var (scale, parallel) = (set.Images[0].Scale!.Value, new ParallelOptions { MaxDegreeOfParallelism = context.Tiling.Threads, CancellationToken = context.Cancellation });
        context.Begin(0.1, 0.6);
        var pass = ReliefPass.Over(set, context, new ReliefRasters(set, context).Write);
        ReliefJudgement.Refuse(set, pass);
        context.Begin(0.6, 0.8);
        if (HeightMap.Integrate(pass.Right, pass.Down, 1000 * scale.MmPerPixel, pass.Confidence, parallel) is not { } height)
            return new Outcome { NoAnswer = "No place is lit by three lamps." };
        var form = Form.Remove(height, Array.IndexOf([.. FormTaken.Choices], context.Value(FormTaken)), parallel);
        var step = context.Value(Step) > 0 ? KnownStep.Of(height, scale.MmPerPixel, Marks.Read(context.Value(StepAreas)), context.Value(Step)) : null;
        if (step is not null)
            for (var i = 0; i < height.Data.Length; i++) height.Data[i] *= (float)step.Factor;
        Write(context, height, scale);
        context.Begin(0.8, 1);
        var places = new Deformation(height, (pass.Right, pass.Down), scale, context.Value(Shortest), context.Value(Longest), context.Value(LeastHeight), context.Value(LeastSize), parallel);
        context.Report(1);
        return new Outcome
        {
            Figures = ReliefFigures.Of(set, pass, height, form, step, scale, places, parallel),
            Candidates = shortest < 2 ? [] : places.Candidates,
            Warnings = ReliefJudgement.Warnings(set, pass, shortest),
        };
    }

    private static void Write(RunContext context, Plane height, PixelScale scale)
    {
        const int rows = 256;
        var raster = context.CreateRaster("height", height.Width, height.Height, scale);
        for (var top = 0; top < height.Height; top += rows)
        {
            context.Cancellation.ThrowIfCancellationRequested();
            var count = Math.Min(rows, height.Height - top);
            raster.WriteWindow(0, top, [new Plane(height.Width, count, height.Data.AsSpan(top * height.Width, count * height.Width).ToArray())]);
        }
    }
}
