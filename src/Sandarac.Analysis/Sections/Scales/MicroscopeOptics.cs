using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Sections.Scales;

/// <summary>The scale that objective and camera give: pixel pitch x binning / (objective's magnification x adapter's).</summary>
internal static class MicroscopeOptics
{
    /// <summary>By how much an objective's and an adapter's magnifications together differ from what is engraved, as a share: common practice, no source.</summary>
    private const double Engraved = 0.05;

    public static readonly NumberParameter Objective = new("objective", "Objective's magnification", "As engraved, with the camera's pixel pitch; 0 when not known.", null, 0, 0, 250);

    public static readonly NumberParameter Pitch = new("pixel-pitch", "Camera's pixel pitch", "Distance of its pixels, with the objective's magnification; 0 when not known.", "um", 0, 0, 100);

    public static readonly NumberParameter Adapter = new("adapter", "Camera adapter's magnification", "Of what lies between objective and camera: adapter, tube, zoom, multiplied.", null, 1, 0.05, 20);

    public static readonly IntegerParameter Binning = new("binning", "Binning", "Pixels of the camera along a side of one of the image, whether joined in the camera or brought down later.", null, 1, 1, 64);

    /// <summary>The parameters.</summary>
    public static readonly IReadOnlyList<Parameter> Parameters = [Objective, Pitch, Adapter, Binning];

    /// <summary>The scale; null when neither objective nor pitch is given.</summary>
    /// <exception cref="InputProblem">"objective-and-camera": one is given without the other.</exception>
    public static SectionScale? Of(RunContext context)
    {
        var (objective, pitch) = (context.Value(Objective), context.Value(Pitch));
        if (objective == 0 && pitch == 0)
        {
            if (context.Value(Adapter) != Adapter.Default || context.Value(Binning) != Binning.Default) throw Lacks(Objective, Pitch);
            return null;
        }
        if (objective == 0 || pitch == 0) throw objective == 0 ? Lacks(Objective) : Lacks(Pitch);
        return new SectionScale(pitch * context.Value(Binning) / (objective * context.Value(Adapter)), Engraved, "objective and camera; 5 % for engraved magnifications, common practice, no source");
    }

    private static InputProblem Lacks(params Parameter[] missing) => new("objective-and-camera", missing[0].Name, "A scale from objective and camera needs the objective's magnification and the camera's pixel pitch.", $"Give {string.Join(" and ", missing.Select(p => "--" + p.Name))}.");
}
